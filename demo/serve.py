"""``make demo``: migrate, load the invented company once, serve it on the loopback.

Kept data is never touched: the second run only starts the server.
"""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def prepare() -> None:
    """Bring database, cache table and static files up to date; load the demo into an empty database."""
    from django.core.management import call_command

    call_command("migrate", interactive=False, verbosity=0)
    call_command("createcachetable", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    call_command("load_demo", verbosity=1)


def announce(port: str) -> None:
    from demo.people import LOGINS

    print(f"\nTrenchbook's demo is at http://127.0.0.1:{port}/ (Ctrl-C stops it)")
    for login in LOGINS:
        print(f"  {login.role:10} {login.email:34} {login.password}")
    print(flush=True)


def main() -> None:
    os.chdir(ROOT)
    port = os.environ.get("PORT", "8000")
    data_dir = Path(os.environ["TRENCHBOOK_DATA_DIR"])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    os.environ.setdefault("TRENCHBOOK_STATIC_ROOT", str(data_dir / "static"))

    import django

    django.setup()
    prepare()
    announce(port)
    os.execv(
        sys.executable,
        [
            sys.executable, "-m", "gunicorn", "config.wsgi", "--bind", f"127.0.0.1:{port}",
            "--workers", "2", "--threads", "4", "--log-level", "warning",
        ],
    )  # fmt: skip


if __name__ == "__main__":
    main()
