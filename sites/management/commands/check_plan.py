"""``manage.py check_plan FILE [--json] [--parts FILE]``: the report that the page shows, as text or JSON."""

import json
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand

from design.check import check
from design.problems import PlanInvalid
from design.report import report_to_dict
from design.report_text import report_text
from hydraulics.errors import HydraulicsError
from hydraulics.limits import DEFAULT_LIMITS
from sites.limit_services import company_limits
from sites.plan_files import PlanFileError, read_files


class Command(BaseCommand):
    help = (
        "Check a plan file. Ends with 1 where the plan is invalid or the check says stop. "
        "Parts come from the parts book and limits from the company's settings; with --parts, parts come "
        "from a price book file and limits are the usual ones."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="plan document, JSON; - reads standard input")
        parser.add_argument("--json", action="store_true", help="print the report as JSON")
        parser.add_argument(
            "--usual-limits", action="store_true", help="judge by the usual limits, not the company's own"
        )
        parser.add_argument("--parts", metavar="FILE", help="take the parts from this price book file")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            plan, parts = read_files(options["file"], options["parts"])
            usual = (
                options["usual_limits"] or options["parts"]
            )  # a price book file may come without a database
            report = check(plan, parts, DEFAULT_LIMITS if usual else company_limits())
        except PlanFileError as error:
            self._refuse(error.lines, options["json"])
        except (PlanInvalid, HydraulicsError) as error:  # contradicting readings, or no solution
            self._refuse([str(error)], options["json"])
        else:
            text = _json(report_to_dict(report)) if options["json"] else report_text(report)
            self.stdout.write(text, ending="")
            if report.stops:
                raise SystemExit(1)

    def _refuse(self, lines: list[str], as_json: bool) -> None:
        if as_json:
            self.stdout.write(_json({"problems": lines}), ending="")
        else:
            self.stderr.write("\n".join(lines))
        raise SystemExit(1)


def _json(value: dict[str, Any]) -> str:
    return json.dumps(value, indent=2, ensure_ascii=False) + "\n"
