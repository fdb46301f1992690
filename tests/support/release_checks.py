"""What must hold of a release besides the tests: ``python -m tests.support.release_checks``."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def production_environment(folder: str) -> dict[str, str]:
    """Nothing but what an installation behind TLS would set."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("TRENCHBOOK_")}
    return {
        **kept,
        "TRENCHBOOK_DATA_DIR": folder,
        "TRENCHBOOK_ALLOWED_HOSTS": "quotes.example.test",
        "DATABASE_URL": f"sqlite:///{folder}/check.sqlite3",
    }


def main() -> int:
    manage = [sys.executable, "manage.py"]
    commands = [
        [*manage, "makemigrations", "--check", "--dry-run"],
        [*manage, "check", "--deploy", "--fail-level", "WARNING"],
        [*manage, "spectacular", "--validate", "--fail-on-warn", "--file", os.devnull],
        [*manage, "collectstatic", "--noinput", "--verbosity", "0"],
    ]
    with tempfile.TemporaryDirectory() as folder:
        env = production_environment(folder) | {"TRENCHBOOK_STATIC_ROOT": f"{folder}/static"}
        for command in commands:
            print("$", " ".join(command[1:]), flush=True)
            if code := subprocess.call(command, cwd=ROOT, env=env):
                return code
    if '"resolved"' in (ROOT / "package-lock.json").read_text(encoding="utf-8"):
        print("package-lock.json names a registry's host; keep omit-lockfile-registry-resolved in .npmrc")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
