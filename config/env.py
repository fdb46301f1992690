"""Strict reading of the environment: an unknown value stops the start with a sentence."""

import os
import secrets
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured

_TRUE = {"1", "true", "yes", "on"}
_FALSE = {"0", "false", "no", "off", ""}


def env_bool(name: str, default: bool) -> bool:
    raw = os.environ.get(name)
    if raw is None:
        return default
    value = raw.strip().lower()
    if value in _TRUE:
        return True
    if value in _FALSE:
        return False
    raise ImproperlyConfigured(f"{name} must be one of yes, no, true, false, 1, 0; it is {raw!r}")


def env_int(name: str, default: int) -> int:
    raw = os.environ.get(name)
    if raw is None or not raw.strip():
        return default
    try:
        return int(raw)
    except ValueError:
        raise ImproperlyConfigured(f"{name} must be a whole number; it is {raw!r}") from None


def env_list(name: str, default: str) -> list[str]:
    return [item.strip() for item in os.environ.get(name, default).split(",") if item.strip()]


def env_secret(name: str) -> str | None:
    """The variable itself, or the content of the file that ``NAME_FILE`` names."""
    if value := os.environ.get(name):
        return value
    if path := os.environ.get(f"{name}_FILE"):
        try:
            return Path(path).read_text(encoding="utf-8").strip()
        except OSError as error:
            raise ImproperlyConfigured(f"{name}_FILE cannot be read: {error}") from None
    return None


def secret_from_private_file(path: Path) -> str:
    """A secret kept in a file that only its owner reads, made at first start."""
    if not path.exists():
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)  # the database will lie beside it
        try:
            handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        except FileExistsError:
            pass  # another worker was first; read what it wrote
        else:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(secrets.token_urlsafe(64))
    return path.read_text(encoding="utf-8").strip()
