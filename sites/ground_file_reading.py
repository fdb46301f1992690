"""Reading a file that somebody uploaded, in a child process that bounds itself."""

import os
import subprocess
import sys
from threading import BoundedSemaphore

from django.conf import settings

from design.exchange import limits
from design.exchange.magic import refuse_wrapped
from design.exchange.read_file import NO_MEMORY, REFUSED
from design.exchange.refused import FileRefused
from design.exchange.shapes import Shapes
from design.exchange.wire import from_wire

KINDS = {".geojson": "geojson", ".json": "geojson", ".dxf": "dxf", ".gpx": "gpx"}
TOO_LONG = (
    f"Reading the file took longer than {limits.WALL_SECONDS} seconds, so it was stopped. "
    "Leave out what is not the garden."
)
TOO_MUCH = "Reading the file needs more memory than it is given. Leave out what is not the garden."
UNREADABLE = "The file could not be read. Open it in the program that wrote it and save it again."
BUSY = "Another file is being read just now. Wait a moment and choose the file again."
# Each child may take the whole of its memory, so one worker process runs one at a time.
_one_at_a_time = BoundedSemaphore(1)


def kind_of(file_name: str) -> str:
    """geojson, dxf or gpx by the end of the name. Raises FileRefused for any other."""
    kind = KINDS.get(os.path.splitext(file_name.lower())[1])
    if kind is None:
        raise FileRefused("Choose a file whose name ends with .geojson, .json, .dxf or .gpx.")
    return kind


def read_shapes(kind: str, data: bytes) -> Shapes:
    """The shapes of the file. Raises FileRefused, whose message is a sentence for the person."""
    refuse_wrapped(data)
    if not _one_at_a_time.acquire(timeout=limits.WALL_SECONDS):
        raise FileRefused(BUSY)
    try:
        status, out = _run(kind, data)
    finally:
        _one_at_a_time.release()
    if status == REFUSED:
        raise FileRefused(out.decode("utf-8", "replace")[:1000])
    if status == NO_MEMORY:
        raise FileRefused(TOO_MUCH)
    if status < 0:  # ended by a signal: its time in the processor was up
        raise FileRefused(TOO_LONG)
    if status != 0:
        raise FileRefused(UNREADABLE)
    return from_wire(out.decode())


def _run(kind: str, data: bytes) -> tuple[int, bytes]:
    command = [sys.executable, "-s", "-B", "-m", "design.exchange.read_file", kind]
    # Nothing of the server's own environment, where its secrets are; one thread, since each reserves memory.
    environment = {"OPENBLAS_NUM_THREADS": "1", "PYTHONIOENCODING": "utf-8", "LC_ALL": "C.UTF-8"}
    try:
        ended = subprocess.run(  # noqa: S603 - a fixed command; the file goes in as data
            command, input=data, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, cwd=settings.BASE_DIR,
            env=environment, timeout=limits.WALL_SECONDS, check=False,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        raise FileRefused(TOO_LONG) from None
    return ended.returncode, ended.stdout
