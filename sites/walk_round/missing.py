"""What the sheet still lacks. Pure: answers in, lines out."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from sites.walk_round.line import Answers, Line
from sites.walk_round.lines import LINES

Severity = Literal["required", "wanted"]


@dataclass(frozen=True)
class Progress:
    """Of the lines that apply: how many are answered, how many there are, how many required ones lack."""

    answered: int
    asked: int
    required_missing: int


def severity_of(line: Line) -> Severity:
    return "required" if line.required else "wanted"


def is_missing(line: Line, answers: Answers) -> bool:
    return line.applies(answers) and not answers.get(line.key, "").strip()


def missing(answers: Answers, lines: Iterable[Line] = LINES) -> list[Line]:
    """Lines that apply and are not answered: required ones first, each group in walking order."""
    found = [line for line in lines if is_missing(line, answers)]
    return sorted(found, key=lambda line: not line.required)


def progress(answers: Answers, lines: Iterable[Line] = LINES) -> Progress:
    asked = [line for line in lines if line.applies(answers)]
    lacking = [line for line in asked if is_missing(line, answers)]
    required = sum(line.required for line in lacking)
    return Progress(len(asked) - len(lacking), len(asked), required)
