"""The form of one line: its answer, that there is none, and how sure the answer is."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from hydraulics.units import Quantity
from sites.models import Confidence, SheetEntry
from sites.quantity_field import QuantityField
from sites.readings import Remark
from sites.walk_round.line import NO, NONE_ASKED, YES, Line
from sites.walk_round.services import LineAnswer

MOST_VERSION = 2**31 - 1
_SURE: dict[str, str] = {
    Confidence.MEASURED: "Measured, seen", Confidence.ESTIMATED: "Estimated",
    Confidence.TOLD: "Told", Confidence.FROM_PLAN: "From a plan",
}  # fmt: skip


class LineForm(forms.Form):
    """``entry`` is what stands now. Saved by a button that says how sure the answer is."""

    began_from = forms.IntegerField(
        required=False, min_value=0, max_value=MOST_VERSION, widget=forms.HiddenInput
    )
    confidence = forms.ChoiceField(required=False, choices=Confidence.choices, widget=forms.HiddenInput)
    none = forms.BooleanField(required=False, widget=forms.HiddenInput)

    def __init__(
        self, line: Line, system: str, entry: SheetEntry | None = None, data: QueryDict | None = None
    ) -> None:
        super().__init__(data, auto_id=f"{line.key}-%s", initial=_initial(entry))
        self.line, self.posted = line, data or QueryDict()
        self.fields["answer"] = _answer_field(line, system)
        self.asked = ""  # a question about the figure
        self.token = ""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("none"):
            if not self.line.none_said:
                raise ValidationError("This line has no such answer.")
            if cleaned.get("answer"):
                self.add_error("answer", "Clear this first, or keep it: both cannot be.")
        return cleaned

    def answer(self) -> LineAnswer:
        value = self.cleaned_data.get("answer")
        text = value.text if isinstance(value, Quantity) else str(value or "").strip()
        return LineAnswer(
            text=NONE_ASKED if self.cleaned_data.get("none") else text,
            quantity=value if isinstance(value, Quantity) else None,
            confidence=self.cleaned_data.get("confidence") or usual_confidence(self.line),
            confirmed=frozenset(self.posted.getlist("confirm")),
        )

    def show(self, remark: Remark) -> None:
        """A question with its tick beside the answer, or a refusal as an error."""
        if not remark.token:
            self.add_error("answer", remark.sentence)
        self.asked, self.token = remark.sentence, remark.token

    def begin_from(self, version: int) -> None:
        """Have the next save begin from that version, once what stands there has been shown."""
        data = self.posted.copy()
        data["began_from"] = str(version)
        self.data = data

    @property
    def sure(self) -> list[tuple[str, str, bool]]:
        """Each confidence with its words, and whether it is the one that Enter takes."""
        usual = self.initial.get("confidence") or usual_confidence(self.line)
        return [(value, words, value == usual) for value, words in _SURE.items()]


def usual_confidence(line: Line) -> str:
    return Confidence.TOLD if line.is_told else Confidence.MEASURED


def _answer_field(line: Line, system: str) -> forms.Field:
    common: dict[str, Any] = {"required": False, "label": line.question, "help_text": line.hint}
    if line.kind == "quantity" and line.usual is not None:
        field = QuantityField(kind=line.usual.kind, system=system, unit=line.unit, **common)
        field.widget.attrs["inputmode"] = "decimal"
        return field
    if line.kind in ("yes_no", "choice"):
        choices = line.choices if line.kind == "choice" else ((YES, "Yes"), (NO, "No"))
        return forms.ChoiceField(choices=choices, widget=forms.RadioSelect, **common)
    return forms.CharField(max_length=1000, widget=forms.Textarea(attrs={"rows": 2}), **common)


def _initial(entry: SheetEntry | None) -> dict[str, Any]:
    if entry is None:
        return {"began_from": 0}
    shown = "" if entry.text == NONE_ASKED else entry.text
    return {"answer": shown, "confidence": entry.confidence, "began_from": entry.version}
