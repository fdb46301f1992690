"""Serves exactly the files of front-end packages that pages use, from node_modules."""

from collections.abc import Iterable
from typing import Any

from django.conf import settings
from django.contrib.staticfiles.finders import BaseFinder
from django.core.checks import CheckMessage, Error
from django.core.files.storage import FileSystemStorage

# The source map is listed because a hashing storage follows the comment that names it.
FILES = {
    "vendor/ol/ol.js": "ol/dist/ol.js",
    "vendor/ol/ol.js.map": "ol/dist/ol.js.map",
    "vendor/ol/ol.css": "ol/ol.css",
}


class PackageFinder(BaseFinder):
    """Static files by the name they are served under."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        self.root = settings.BASE_DIR / "node_modules"
        self.storage = _Renamed(self.root)

    def check(self, **kwargs: Any) -> list[CheckMessage]:
        missing = [path for path in FILES.values() if not (self.root / path).is_file()]
        if not missing:
            return []
        hint = "Run “make setup”, or “npm ci”."
        return [Error(f"Front-end files are missing: {', '.join(missing)}.", hint=hint, id="trenchbook.E001")]

    def find(self, path: str, find_all: bool = False, **kwargs: Any) -> Any:
        source = FILES.get(path.replace("\\", "/"))
        found = [str(self.root / source)] if source and (self.root / source).is_file() else []
        if find_all or kwargs.get("all"):
            return found
        return found[0] if found else []

    def list(self, ignore_patterns: Iterable[str] | None) -> Any:
        for name, source in FILES.items():
            if (self.root / source).is_file():
                yield name, self.storage


class _Renamed(FileSystemStorage):
    """The packages' folder, read by the names under which files are served."""

    def path(self, name: str) -> str:
        return super().path(FILES.get(name, name))
