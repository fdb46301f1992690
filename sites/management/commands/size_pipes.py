"""``manage.py size_pipes FILE [--prices FILE] [-o OUT.json]``: the cheapest pipes for a plan file."""

import json
import os
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from design.canonical import plan_text
from design.problems import PlanInvalid
from design.sizing import SizingOptions, SizingResult, size_pipes
from design.sizing_result import sizing_to_dict
from design.sizing_text import sizing_text
from hydraulics.errors import HydraulicsError
from hydraulics.limits import DEFAULT_LIMITS
from sites.limit_services import company_limits
from sites.plan_files import PlanFileError, read_files
from sites.sizing_prices import PricesInvalid, is_price_book, metre_prices, prices_in


class Command(BaseCommand):
    help = (
        "Choose the part of each pipe that costs least while every case meets all that the check asks. "
        "Ends with 1 where no sizes will do. Parts and prices come from the parts book, or from files."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="plan document, JSON; - reads standard input")
        parser.add_argument(
            "--prices", metavar="FILE", help="price book, or JSON object of price per metre by part code"
        )
        parser.add_argument("--parts", metavar="FILE", help="take the parts from this price book file")
        parser.add_argument(
            "--keep", nargs="*", default=[], metavar="PIPE", help="pipes that stay as they are"
        )
        parser.add_argument(
            "--seconds", type=float, default=20.0, help="longest time to search, 20 if not given"
        )
        parser.add_argument("--json", action="store_true", help="print the result as JSON")
        parser.add_argument("-o", "--output", metavar="OUT.json", help="write the sized plan to this file")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            result = self._result(options)
        except PlanFileError as error:
            raise CommandError("\n".join(error.lines)) from None
        except (PlanInvalid, HydraulicsError, PricesInvalid) as error:
            raise CommandError(str(error)) from None
        if options["json"]:
            self.stdout.write(json.dumps(sizing_to_dict(result), indent=2, ensure_ascii=False))
        else:
            self.stdout.write(sizing_text(result), ending="")
        if result.plan is None:
            raise SystemExit(1)
        if options["output"]:
            self._write(options["output"], plan_text(result.plan))

    def _result(self, options: dict[str, Any]) -> SizingResult:
        today, prices_file = timezone.localdate(), options["prices"]
        document = _read_json(prices_file) if prices_file else None
        parts_file = options["parts"] or (prices_file if is_price_book(document) else None)
        plan, parts = read_files(options["file"], parts_file)
        unknown = sorted(set(options["keep"]) - {pipe.id for pipe in plan.layout.pipes})
        if unknown:
            raise CommandError(f"The plan has no pipe {unknown[0]}.")
        if not 0 < options["seconds"] <= 3600:
            raise CommandError("Give --seconds above 0 and at most 3600.")
        prices = prices_in(document, today) if prices_file else metre_prices(parts, today)
        settings = SizingOptions(locked=frozenset(options["keep"]), seconds=options["seconds"])
        limits = DEFAULT_LIMITS if parts_file else company_limits()
        return size_pipes(plan, parts, limits, prices, settings)

    def _write(self, file: str, text: str) -> None:
        try:
            Path(file).write_text(text, encoding="utf-8")
        except OSError as error:
            raise CommandError(f"The file cannot be written: {error}") from None
        self.stderr.write(f"Wrote {file}")


@contextmanager
def _solver_talks_aside() -> Iterator[None]:
    """HiGHS writes a line of its own to the process's output now and then; it must not land in JSON."""
    sys.stdout.flush()
    kept = os.dup(1)
    try:
        os.dup2(2, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


def _read_json(file: str) -> object:
    try:
        return json.loads(Path(file).read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise PricesInvalid(f"{file} cannot be read: {error.strerror or error}") from None
    except (ValueError, RecursionError) as error:
        raise PricesInvalid(f"{file} is not JSON text in UTF-8: {error}") from None
