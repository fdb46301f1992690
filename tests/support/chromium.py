"""Finding a Chromium for the journeys and screenshots, or getting one where that is possible."""

import os
import shutil
import subprocess
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
OPT_OUT = "TRENCHBOOK_TEST_WITHOUT_BROWSER"
# No background traffic: the journeys talk to the loopback only.
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


class NoChromium(RuntimeError):
    """No browser here, and no way to install one without asking."""


def _installed() -> str | None:
    if named := os.environ.get("TRENCHBOOK_CHROMIUM"):
        return named if Path(named).exists() else None
    return next((path for name in NAMES if (path := shutil.which(name))), None)


def find_chromium() -> str:
    """Path of a Chromium; installed through apt where this process may do that; else NoChromium."""
    if path := _installed():
        return path
    if os.geteuid() == 0 and shutil.which("apt-get"):
        environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", "chromium"]):
            subprocess.run(command, env=environment, check=True, stdout=subprocess.DEVNULL)
        if path := _installed():
            return path
    raise NoChromium(
        "No Chromium found: install the package chromium, or set TRENCHBOOK_CHROMIUM to its path,"
        f" or leave these tests out with {OPT_OUT}=yes."
    )


if __name__ == "__main__":  # before journeys run side by side, so that no two of them install it at once
    if os.environ.get(OPT_OUT) != "yes":
        find_chromium()
