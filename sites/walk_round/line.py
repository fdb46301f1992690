"""One line of the sheet, and the small conditions under which some lines are asked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from types import MappingProxyType
from typing import Literal

from hydraulics.units import Kind
from sites.plausible_ranges import Plausible

# key of a line -> what is known: as typed, or as it stands in the visit; blank is not known
Answers = Mapping[str, str]
LineKind = Literal["text", "yes_no", "choice", "quantity"]
Held = Literal["", "visit", "ground", "photos"]

NONE_ASKED = "none, asked"
YES, NO = "yes", "no"


@dataclass(frozen=True)
class Condition:
    """Asked only where the line ``key`` is answered with one of ``values``, or at all without them."""

    key: str
    values: tuple[str, ...]
    words: str  # for paper, which cannot hide a line

    def holds(self, answers: Answers) -> bool:
        answer = answers.get(self.key, "")
        return answer in self.values if self.values else answer not in ("", NONE_ASKED, NO)


class Place(Enum):
    """Where on the walk a line is asked; in walking order."""

    DESK = "At the desk and at the door"
    METER = "At the meter"
    TAP = "At the tap"
    HOUSE = "Round the house"
    BOUNDARY = "Along the boundary"
    LAWN = "On the lawn"
    GROUND = "In the ground"
    LEAVING = "Before leaving"

    @property
    def slug(self) -> str:
        return self.name.lower()


@dataclass(frozen=True)
class Line:
    """``why`` says what happens without it. ``held`` names where the figure is kept, if not on the sheet.

    ``none_said`` offers to answer that there is none, which is an answer where a blank is not.
    ``says`` gives what to do about an answer; ``photo`` what a picture should show.
    """

    key: str
    place: Place
    question: str
    why: str
    kind: LineKind = "text"
    required: bool = True
    when: Condition | None = None
    usual: Plausible | None = None
    unit: str = ""  # of a bare number, where it is not the usual one of the kind
    choices: tuple[tuple[str, str], ...] = ()
    none_said: str = ""
    says: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    hint: str = ""
    photo: str = ""
    held: Held = ""
    is_told: bool = False  # an answer that people give rather than a tape

    def applies(self, answers: Answers) -> bool:
        return self.when is None or self.when.holds(answers)

    @property
    def measure(self) -> Kind | None:
        return self.usual.kind if self.usual and self.kind == "quantity" else None

    def shown(self, text: str) -> str:
        """An answer in words: the label of a choice, else the text."""
        return dict(self.choices).get(text, text)
