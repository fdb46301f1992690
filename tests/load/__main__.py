"""``make bench``: run each benchmark of this folder and print what it measured.

Every figure is a ratio against a reference in the same run, or a median beside its goal.
"""

import os
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent


def main() -> int:
    failed = 0
    for script in sorted(HERE.glob("bench_*.py")):
        print(f"== {script.stem}", flush=True)
        command = [sys.executable, "-m", f"tests.load.{script.stem}"]
        environment = {**os.environ, "DJANGO_SETTINGS_MODULE": "tests.settings"}
        failed += bool(subprocess.call(command, cwd=HERE.parents[1], env=environment))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
