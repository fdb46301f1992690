"""``python -m design.exchange.read_file KIND``: a file on standard input, its shapes on standard output.

Runs as a child process that bounds itself before it reads anything, so that a hostile file costs
no more than ``limits`` allow. Exit status 3: refused, the sentence is on standard output.
"""

import os
import resource
import sys

from design.exchange import limits

REFUSED, NO_MEMORY = 3, 4
KINDS = ("geojson", "dxf", "gpx")


def bound() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (limits.MEMORY_BYTES, limits.MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (limits.CPU_SECONDS, limits.CPU_SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))  # it writes no file


def shapes_text(kind: str, data: bytes) -> str:
    """The shapes of the file as ``wire`` text. Raises FileRefused."""
    # Only the library that the kind needs is loaded, and only under the bounds.
    from importlib import import_module

    from design.exchange.magic import refuse_wrapped
    from design.exchange.simplify import thin
    from design.exchange.wire import to_wire

    refuse_wrapped(data)
    reader = getattr(import_module(f"design.exchange.{kind}_in"), f"read_{kind}")
    return to_wire(thin(reader(data)))


def main() -> int:
    kind = sys.argv[1] if len(sys.argv) > 1 else ""
    if kind not in KINDS:
        return 2
    bound()
    from design.exchange.refused import FileRefused

    try:
        text, status = shapes_text(kind, sys.stdin.buffer.read(limits.MAX_BYTES + 1)), 0
    except FileRefused as refused:
        text, status = str(refused), REFUSED
    except MemoryError:
        os._exit(NO_MEMORY)  # nothing more is tried without memory
    sys.stdout.buffer.write(text.encode("utf-8", "replace"))
    return status


if __name__ == "__main__":
    sys.exit(main())
