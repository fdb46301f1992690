"""``manage.py export_inp FILE --case LABEL -o OUT.inp``: one case of a plan as an EPANET input file."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from design.epanet_export import UnknownCase, export_case
from design.problems import PlanInvalid
from hydraulics.errors import HydraulicsError
from sites.plan_files import PlanFileError, read_files


class Command(BaseCommand):
    help = "Write one case of a plan as an EPANET input file, so that anyone can audit the result."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="plan document, JSON; - reads standard input")
        parser.add_argument("--case", required=True, metavar="LABEL", help="label of the case")
        parser.add_argument("-o", "--output", metavar="OUT.inp", help="file to write; else standard output")
        parser.add_argument("--parts", metavar="FILE", help="take the parts from this price book file")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            plan, parts = read_files(options["file"], options["parts"])
            text = export_case(plan, parts, options["case"])
        except PlanFileError as error:
            raise CommandError("\n".join(error.lines)) from None
        except (UnknownCase, PlanInvalid, HydraulicsError) as error:
            raise CommandError(str(error)) from None
        if not options["output"]:
            self.stdout.write(text, ending="")
            return
        try:
            Path(options["output"]).write_text(text, encoding="utf-8")
        except OSError as error:
            raise CommandError(f"The file cannot be written: {error}") from None
        self.stdout.write(f"Wrote {options['output']}")
