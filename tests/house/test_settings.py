"""Settings are read strictly from the environment and are safe when nothing is set."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SHOW = """
import json, os
os.environ["DJANGO_SETTINGS_MODULE"] = "config.settings"
from django.conf import settings as s
print(json.dumps({n: getattr(s, n) for n in ("DEBUG", "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE",
    "SECURE_SSL_REDIRECT", "SECURE_HSTS_SECONDS", "ALLOWED_HOSTS", "SECRET_KEY")}
    | {"engine": s.DATABASES["default"]["ENGINE"], "options": s.DATABASES["default"].get("OPTIONS", {}),
       "csp": s.CONTENT_SECURITY_POLICY["DIRECTIVES"]}))
"""


def read_settings(folder, program=SHOW, **env):
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith("TRENCHBOOK_") and name != "DATABASE_URL"
    }
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=ROOT,
        env={**kept, "TRENCHBOOK_DATA_DIR": str(folder), **env},
        capture_output=True,
        text=True,
        check=False,
    )


def test_nothing_set_is_safe(tmp_path):
    found = json.loads(read_settings(tmp_path).stdout)
    assert found["DEBUG"] is False
    assert found["SESSION_COOKIE_SECURE"] is True
    assert found["CSRF_COOKIE_SECURE"] is True
    assert found["SECURE_SSL_REDIRECT"] is True
    assert found["SECURE_HSTS_SECONDS"] >= 31_536_000
    assert "*" not in found["ALLOWED_HOSTS"]
    assert not any("unsafe" in source for sources in found["csp"].values() for source in sources)


def test_sqlite_is_the_embedded_default_in_wal_mode_with_immediate_transactions(tmp_path):
    found = json.loads(read_settings(tmp_path).stdout)
    assert found["engine"] == "django.db.backends.sqlite3"
    assert found["options"]["transaction_mode"] == "IMMEDIATE"
    assert "journal_mode=WAL" in found["options"]["init_command"]


def test_database_url_chooses_postgresql(tmp_path):
    found = json.loads(read_settings(tmp_path, DATABASE_URL="postgresql://u:p@db.example.test/t").stdout)
    assert found["engine"] == "django.db.backends.postgresql"


def test_the_secret_is_made_once_in_a_private_file(tmp_path):
    first = json.loads(read_settings(tmp_path).stdout)["SECRET_KEY"]
    again = json.loads(read_settings(tmp_path).stdout)["SECRET_KEY"]
    assert first == again
    assert len(first) >= 50
    assert stat.S_IMODE((tmp_path / "secret_key").stat().st_mode) == 0o600


def test_the_secret_can_come_from_a_mounted_file(tmp_path):
    secret = tmp_path / "mounted"
    secret.write_text("s" * 60 + "\n")
    found = json.loads(read_settings(tmp_path, TRENCHBOOK_SECRET_KEY_FILE=str(secret)).stdout)
    assert found["SECRET_KEY"] == "s" * 60


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("TRENCHBOOK_DEBUG", "maybe"),
        ("TRENCHBOOK_TRUSTED_PROXIES", "two"),
        ("TRENCHBOOK_SECRET_KEY_FILE", "/nowhere"),
    ],
)
def test_a_value_that_cannot_be_read_stops_the_start_with_its_name(tmp_path, name, value):
    answer = read_settings(tmp_path, **{name: value})
    assert answer.returncode != 0
    assert name in answer.stderr


def test_the_data_folder_is_private(tmp_path):
    read_settings(tmp_path / "data")
    assert stat.S_IMODE((tmp_path / "data").stat().st_mode) == 0o700


def test_a_mail_server_is_used_where_one_is_named(tmp_path):
    program = SHOW.replace('"SECURE_HSTS_SECONDS",', '"EMAIL_BACKEND", "EMAIL_PORT", "EMAIL_HOST_PASSWORD",')
    secret = tmp_path / "mail"
    secret.write_text("s3cret\n")
    plain = json.loads(read_settings(tmp_path, program).stdout)
    assert plain["EMAIL_BACKEND"].endswith("console.EmailBackend")
    env = {"TRENCHBOOK_EMAIL_HOST": "mail.example.test", "TRENCHBOOK_EMAIL_PASSWORD_FILE": str(secret)}
    sent = json.loads(read_settings(tmp_path, program, **env).stdout)
    assert sent["EMAIL_BACKEND"].endswith("smtp.EmailBackend")
    assert (sent["EMAIL_PORT"], sent["EMAIL_HOST_PASSWORD"]) == (587, "s3cret")
