"""Recompute the digests of all sealed quotes and say which are sound."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from quoting.sealing import check_seal, missing_numbers, quotes_out


class Command(BaseCommand):
    help = "Recompute the digests of all sealed quotes, and look for gaps in their numbers."

    def handle(self, *args: Any, **options: Any) -> None:
        broken = 0
        for quote in quotes_out().iterator(chunk_size=50):
            verdict = check_seal(quote)
            broken += bool(verdict.problems)
            self.stdout.write(f"{verdict.reference}: {'; '.join(verdict.problems) or 'sound'}")
        gaps = missing_numbers()
        for number in gaps:
            self.stdout.write(f"{number}: no quote carries this number")
        if broken or gaps:
            raise CommandError(f"{broken} not sound, {len(gaps)} numbers missing.")
        self.stdout.write("Every sealed quote is sound.")
