"""The project's own settings with what tests need changed: cheap hashes, no network, a file of their own."""

import os
import tempfile

os.environ["TRENCHBOOK_SECRET_KEY"] = "only-for-tests-" + "0123456789" * 6
os.environ["TRENCHBOOK_PLAIN_HTTP"] = "yes"
os.environ["TRENCHBOOK_ALLOWED_HOSTS"] = "testserver,localhost,127.0.0.1"
os.environ["TRENCHBOOK_DATA_DIR"] = tempfile.mkdtemp(prefix="trenchbook-test-")
os.environ.setdefault("DATABASE_URL", f"sqlite:///{os.environ['TRENCHBOOK_DATA_DIR']}/main.sqlite3")
# The journeys' live server and Playwright's loop share a thread.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"

from config import settings as project

globals().update({name: value for name, value in vars(project).items() if name.isupper()})

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    **project.STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
CACHES = {"default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}}
# Empty, so that WhiteNoise has a folder to look into.
STATIC_ROOT = project.DATA_DIR / "static"
STATIC_ROOT.mkdir(exist_ok=True)
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
if project.DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    # In a file, as in production: threads then contend for it as they really would.
    project.DATABASES["default"]["TEST"] = {"NAME": f"{project.DATA_DIR}/under-test.sqlite3"}
