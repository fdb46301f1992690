"""What is wrong with a document that cannot be taken as a plan."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Problem:
    """One thing to put right: which entity, which of its fields, and a sentence for a person."""

    entity: str
    field: str
    sentence: str

    def __str__(self) -> str:
        place = f"{self.entity}, {self.field}" if self.field else self.entity
        return f"{place}: {self.sentence}"


class DesignError(Exception):
    """Base of what this package raises."""


class PlanInvalid(DesignError):
    """The document is no plan, or not one that can be checked; ``problems`` says why."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))
