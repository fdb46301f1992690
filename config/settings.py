"""All settings, from the environment; safe when nothing is set. docs/settings.md lists them."""

import os
from pathlib import Path

import dj_database_url

from config.env import env_bool, env_int, env_list, env_secret, secret_from_private_file

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(os.environ.get("TRENCHBOOK_DATA_DIR", BASE_DIR / "var"))

DEBUG = env_bool("TRENCHBOOK_DEBUG", False)
SECRET_KEY = env_secret("TRENCHBOOK_SECRET_KEY") or secret_from_private_file(DATA_DIR / "secret_key")
ALLOWED_HOSTS = env_list("TRENCHBOOK_ALLOWED_HOSTS", "localhost,127.0.0.1,[::1]")
CSRF_TRUSTED_ORIGINS = env_list("TRENCHBOOK_TRUSTED_ORIGINS", "")
# Where customers' links point to when a message is sent without a request.
PUBLIC_URL = os.environ.get("TRENCHBOOK_PUBLIC_URL", "")

# Only a declared plain-http installation (a demo on the loopback, a trusted LAN) goes without TLS.
PLAIN_HTTP = env_bool("TRENCHBOOK_PLAIN_HTTP", False)
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = not PLAIN_HTTP
SECURE_SSL_REDIRECT = not PLAIN_HTTP
SECURE_REDIRECT_EXEMPT = [r"^health/$"]
SECURE_HSTS_SECONDS = 0 if PLAIN_HTTP else 31_536_000
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = not PLAIN_HTTP
if env_bool("TRENCHBOOK_BEHIND_PROXY", False):
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
# Number of proxies whose X-Forwarded-For entries are believed; 0 takes the socket's address.
TRUSTED_PROXY_COUNT = env_int("TRENCHBOOK_TRUSTED_PROXIES", 0)
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"

INSTALLED_APPS = [
    "config.apps.ConfigConfig",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.contrib.humanize",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "django_htmx",
    "csp",
    "rest_framework",
    "drf_spectacular",
    "office",
    "parts",
    "sites",
    "quoting",
    "jobs",
    "demo",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "config.body_limit.BodyLimit",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "config.private_pages.PrivatePages",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "config.at_once.AtOnce",
]

ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "office.context.company",
            ],
        },
    }
]

DATABASES = {
    "default": dj_database_url.config(
        default=f"sqlite:///{DATA_DIR / 'trenchbook.sqlite3'}", conn_max_age=60, conn_health_checks=True
    )
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA foreign_keys=ON;",
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
# In the database, so that login throttling counts across worker processes.
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.db.DatabaseCache",
        "LOCATION": "cache_entries",
        "OPTIONS": {
            "MAX_ENTRIES": 20_000
        },  # beyond it counts are thrown away, so a flood must not reach it soon
    }
}

AUTH_USER_MODEL = "office.Person"
AUTHENTICATION_BACKENDS = [
    "allauth.account.auth_backends.AuthenticationBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "office:day"
ACCOUNT_ADAPTER = "office.adapters.ClosedAccountAdapter"
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*", "password1*", "password2*"]
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_LOGOUT_REDIRECT_URL = "account_login"
ACCOUNT_RATE_LIMITS = {"login_failed": "10/m/ip,5/5m/key", "login": "30/m/ip"}
MFA_SUPPORTED_TYPES = ["totp", "recovery_codes"]
MFA_TOTP_ISSUER = "Trenchbook"
# The owner gives out logins, so nobody confirms an e-mail by a message first.
MFA_ALLOW_UNVERIFIED_EMAIL = True

LANGUAGE_CODE = "en"
USE_TZ = True
TIME_ZONE = os.environ.get("TRENCHBOOK_TIME_ZONE", "UTC")

STATIC_URL = "static/"
STATIC_ROOT = Path(os.environ.get("TRENCHBOOK_STATIC_ROOT", BASE_DIR / "staticfiles"))
STATICFILES_DIRS = [BASE_DIR / "static"]
STATICFILES_FINDERS = [
    "django.contrib.staticfiles.finders.FileSystemFinder",
    "django.contrib.staticfiles.finders.AppDirectoriesFinder",
    "config.finders.PackageFinder",
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
if DEBUG:
    STORAGES["staticfiles"]["BACKEND"] = "django.contrib.staticfiles.storage.StaticFilesStorage"
MEDIA_ROOT = DATA_DIR / "media"
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
# Whatever comes with it, files included; pages refuse a file by its own, lower limit in a sentence beside it.
MOST_BODY_BYTES = 12_000_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'self'"],
        "img-src": ["'self'", "data:", "blob:"],
        "object-src": ["'none'"],
        "base-uri": ["'none'"],
        "frame-ancestors": ["'none'"],
        "form-action": ["'self'"],
    }
}

REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": ["rest_framework.authentication.SessionAuthentication"],
    "DEFAULT_PERMISSION_CLASSES": ["office.permissions.IsOfficeStaff"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser"],
    "DEFAULT_PAGINATION_CLASS": "rest_framework.pagination.PageNumberPagination",
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "PAGE_SIZE": 50,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Trenchbook",
    "DESCRIPTION": "Customers, sites, visits, plans, quotes and jobs of one irrigation contractor.",
    "VERSION": "0.1.0",
    "SERVE_PERMISSIONS": ["office.permissions.IsOfficeStaff"],
}

EMAIL_HOST = os.environ.get("TRENCHBOOK_EMAIL_HOST", "")
EMAIL_PORT = env_int("TRENCHBOOK_EMAIL_PORT", 587)
EMAIL_USE_TLS = env_bool("TRENCHBOOK_EMAIL_TLS", True)
EMAIL_HOST_USER = os.environ.get("TRENCHBOOK_EMAIL_USER", "")
EMAIL_HOST_PASSWORD = env_secret("TRENCHBOOK_EMAIL_PASSWORD") or ""
EMAIL_TIMEOUT = 20
DEFAULT_FROM_EMAIL = os.environ.get("TRENCHBOOK_EMAIL_FROM") or EMAIL_HOST_USER or "trenchbook@localhost"
EMAIL_BACKEND = os.environ.get(
    "TRENCHBOOK_EMAIL_BACKEND",
    f"django.core.mail.backends.{'smtp' if EMAIL_HOST else 'console'}.EmailBackend",
)

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"no_tokens": {"()": "config.masking.NoTokens"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "filters": ["no_tokens"]}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
SILENCED_SYSTEM_CHECKS: list[str] = []
