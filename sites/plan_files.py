"""Reading a plan file, and the parts that it needs, for the commands."""

import json
import sys
from pathlib import Path

from design.document import Plan
from design.loading import load_plan
from design.part_rules import check_parts
from design.problems import PlanInvalid
from hydraulics.catalogue import Catalogue
from parts.price_book import PriceBookInvalid, read_parts
from parts.services import catalogue


class PlanFileError(Exception):
    """A file cannot be read as what it should be; ``lines`` say what is wrong in it and where."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


def read_files(plan_file: str, price_book_file: str | None) -> tuple[Plan, Catalogue]:
    """The plan, and the parts book or the price book file. Raises PlanFileError."""
    parts = _parts(price_book_file) if price_book_file else catalogue()
    try:
        plan = load_plan(_read(plan_file))
    except PlanInvalid as error:
        raise PlanFileError([str(problem) for problem in error.problems]) from None
    if problems := check_parts(plan, parts):
        raise PlanFileError([str(problem) for problem in problems])
    return plan, parts


def _parts(file: str) -> Catalogue:
    try:
        return Catalogue.from_dicts(read_parts(json.loads(_read(file).decode("utf-8-sig"))))
    except PriceBookInvalid as error:
        raise PlanFileError([f"{file}: {problem}" for problem in error.problems]) from None
    except (ValueError, RecursionError) as error:
        raise PlanFileError([f"{file} is not JSON text in UTF-8: {error}"]) from None


def _read(file: str) -> bytes:
    try:
        return sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
    except OSError as error:
        raise PlanFileError([f"{file} cannot be read: {error.strerror or error}"]) from None
