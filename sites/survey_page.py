"""The whole page of a measured ground: its rows, what is wrong or asked beside each, and what they say."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms import BaseFormSet
from django.http import QueryDict
from pydantic import ValidationError

from design.survey.document import PlaneSurvey
from design.survey.reduce import PlaneResult, reduce_plane
from sites.models import GroundSurvey, Visit
from sites.readings import Remark
from sites.survey_forms import ROWS, LegRows, ReadingForm, WheelForm, with_tapes_split
from sites.survey_rows import LISTS, fresh_rows, initial_rows, new_row, next_rows

MOST_CONFIRMED = 200


@dataclass(frozen=True)
class Block:
    """A list of rows: its form set, the forms shown, and the form that new rows are made from."""

    kind: str
    rows: BaseFormSet

    @property
    def blank(self) -> Any:
        return self.rows.empty_form


class SurveyPage:
    """Bound to what was posted, or showing what is stored, or fresh."""

    def __init__(
        self, visit: Visit, stored: GroundSurvey | None = None, posted: QueryDict | None = None
    ) -> None:
        self.visit, self.site, self.stored = visit, visit.site, stored
        self.posted = with_tapes_split(posted) if posted is not None else None
        self.plane = plane_of(stored)
        self.system = {"system": self.site.units}
        self.blocks = {kind: Block(kind, self._rows(kind)) for kind in ROWS}
        self.wheel = WheelForm(self.posted, prefix="wheel", initial=self._wheel_initial(), **self.system)
        self.legs = [Block(f"leg{n}", self._legs(n)) for n in range(len(self.blocks["walk"].rows.forms))]
        self.began_from = self._began_from()
        self.confirmed = self._confirmed()
        self.forms_at: dict[str, ReadingForm] = {}
        self.problems: list[Any] = []

    @property
    def walks(self) -> list[tuple[ReadingForm, Block]]:
        return list(zip(self.blocks["walk"].rows.forms, self.legs, strict=True))

    @property
    def opened(self) -> dict[str, bool]:
        """Which of the folded lists hold something, or something wrong."""
        lists = {kind: [*self.blocks[kind].rows.forms] for kind in ("tape", "offset")}
        lists |= {"walk": [leg for block in self.legs for leg in block.rows.forms], "wheel": [self.wheel]}
        is_new_walk = len(self.legs) > max(1, len(self.plane.walks))
        return {
            kind: any(_has_something(form) for form in forms) or (kind == "walk" and is_new_walk)
            for kind, forms in lists.items()
        }

    @property
    def shows_tapes(self) -> bool:
        return self.posted is not None and "show_tapes" in self.posted

    def is_valid(self) -> bool:
        """Whether every filled row can be read; blank rows count for nothing."""
        sets = [block.rows for block in (*self.blocks.values(), *self.legs)]
        are_sound = [rows.is_valid() for rows in sets]
        are_sound += [self._has_start(form, block) for form, block in self.walks]
        return all([*are_sound, self.wheel.is_valid(), self.began_from >= 0])

    def document(self) -> dict[str, Any]:
        """The survey of all rows that can be read, remembering which form each came from."""
        if self.posted is None:
            return self.plane.model_dump(mode="json", exclude_defaults=True)
        self.is_valid()
        self.forms_at = {}
        found: dict[str, Any] = {name: self._read(kind, name) for kind, name in LISTS.items()}
        found["walks"] = self._read_walks()
        _name_outlines(found["outlines"], {row["name"] for row in found["marks"]})
        if self.wheel.is_complete():
            found["wheel"] = self._read_wheel(found["outlines"])
            self.forms_at["wheel"] = self.wheel
        found["confirmed"] = sorted(self.confirmed)
        return {name: value for name, value in found.items() if value}

    def survey(self) -> PlaneSurvey:
        """The document as the reductions take it; nothing where it cannot be one."""
        try:
            return PlaneSurvey.model_validate(self.document())
        except ValidationError:
            return PlaneSurvey()

    def show_notes(self, result: PlaneResult) -> None:
        """What the readings cannot be, in a sentence at its row."""
        if self.posted is None:
            self.forms_at = self._stored_places()
        for row, sentence in result.problems:
            form = self.form_at(row)
            if form is not None:
                form.notes.append(sentence)

    def show_questions(self, questions: Iterable[Remark]) -> None:
        """Each sentence with a tick beside its figure; a tick already set stays."""
        for remark in questions:
            row, _, name = remark.where.rpartition(".")
            form = self.form_at(row)
            if form is None:
                continue
            bound: Any = form[name]
            is_ticked = remark.token in self.confirmed
            bound.questions = [*getattr(bound, "questions", ()), (remark, is_ticked)]

    def form_at(self, row: str) -> ReadingForm | None:
        return self.forms_at.get(row)

    def every_form(self) -> Iterator[Any]:
        for kind, block in self.blocks.items():
            yield from block.rows.forms
            if kind == "walk":
                for legs in self.legs:
                    yield from legs.rows.forms
        yield self.wheel

    def to_look_at(self) -> list[tuple[str, str, str]]:
        """Id of the control, label and sentence of all that keeps the page from being saved."""
        found = []
        for form in self.every_form():
            for bound in form.visible_fields():
                asked = [one.sentence for one, is_ticked in getattr(bound, "questions", ()) if not is_ticked]
                label = f"{_row_words(form)}, {bound.label}"
                found += [(bound.id_for_label, label, said) for said in [*bound.errors, *asked]]
        for block in (*self.blocks.values(), *self.legs):
            found += [("survey-form", block.kind, said) for said in block.rows.non_form_errors()]
        if self.began_from < 0:
            found.append(
                ("survey-form", "The page", "It is too old to be saved. Copy your readings, reload.")
            )
        return found

    def _has_start(self, form: ReadingForm, block: Block) -> bool:
        is_walked = any(leg.is_filled() for leg in block.rows.forms)
        if is_walked and not form.errors and not form.cleaned_data.get("start"):
            form.add_error("start", "From which mark or point? Name it, or clear the legs.")
        return not form.errors

    def _rows(self, kind: str) -> BaseFormSet:
        initial = initial_rows(kind, self.plane) if self.stored else []
        initial = [*initial, *(fresh_rows(kind) if not initial else next_rows(kind, initial))]
        return ROWS[kind](self.posted, prefix=kind, initial=initial, form_kwargs=self.system)

    def _legs(self, walk: int) -> BaseFormSet:
        stored = self.plane.walks[walk].legs if walk < len(self.plane.walks) else []
        initial = initial_rows("leg", stored) if stored else []
        initial = [*initial, *(fresh_rows("leg") if not initial else next_rows("leg", initial))]
        posted = self.posted
        if posted is not None and f"leg{walk}-TOTAL_FORMS" not in posted:
            posted = posted.copy()
            posted |= {f"leg{walk}-TOTAL_FORMS": "1", f"leg{walk}-INITIAL_FORMS": "0"}
        return LegRows(posted, prefix=f"leg{walk}", initial=initial, form_kwargs=self.system)

    def _wheel_initial(self) -> dict[str, Any]:
        wheel = self.plane.wheel
        if wheel is None:
            return {}
        ids = [row.id for row in self.plane.outlines]
        texts = {n: length.text for n in ("taped", "shown", "way_round") if (length := getattr(wheel, n))}
        return {**texts, "round_what": ids.index(wheel.round_what) + 1 if wheel.round_what in ids else None}

    def _began_from(self) -> int:
        if self.posted is None:
            return self.stored.version if self.stored else 0
        typed = str(self.posted.get("began_from", ""))
        return int(typed) if typed.isascii() and typed.isdecimal() and len(typed) < 10 else -1

    def _confirmed(self) -> set[str]:
        given = self.posted.getlist("confirm") if self.posted is not None else self.plane.confirmed
        return {str(one) for one in given[:MOST_CONFIRMED] if len(str(one)) <= 120 and str(one).isprintable()}

    def _read(self, kind: str, name: str) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for form in self.blocks[kind].rows.forms:
            if form.is_complete():
                self.forms_at[f"{name}.{len(found)}"] = form
                found.append(form.row())
        return found

    def _read_walks(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for form, block in self.walks:
            legs = [leg for leg in block.rows.forms if leg.is_complete()]
            if form.errors or not legs or not form.cleaned_data.get("start"):
                continue
            where = f"walks.{len(found)}"
            self.forms_at |= {where: form, **{f"{where}.legs.{n}": leg for n, leg in enumerate(legs)}}
            found.append({**form.row(), "legs": [leg.row() for leg in legs]})
        return found

    def _read_wheel(self, outlines: list[dict[str, Any]]) -> dict[str, Any]:
        row = self.wheel.row()
        number = row.pop("round_what", None) or 1
        if "way_round" in row and number <= len(outlines):
            row["round_what"] = outlines[number - 1]["id"]
        return row

    def _stored_places(self) -> dict[str, ReadingForm]:
        found: dict[str, ReadingForm] = {"wheel": self.wheel}
        for kind, name in LISTS.items():
            found |= {f"{name}.{n}": form for n, form in enumerate(self.blocks[kind].rows.forms)}
        for number, (form, block) in enumerate(self.walks):
            found[f"walks.{number}"] = form
            found |= {f"walks.{number}.legs.{n}": leg for n, leg in enumerate(block.rows.forms)}
        return found


def plane_of(stored: GroundSurvey | None) -> PlaneSurvey:
    """The stored readings; none where nothing is stored."""
    return PlaneSurvey.model_validate(stored.plane) if stored else PlaneSurvey()


def worked(page: SurveyPage) -> tuple[PlaneSurvey, PlaneResult]:
    """What the readings say, from what can be read so far."""
    survey = page.survey()
    return survey, reduce_plane(survey)


def with_one_more(posted: QueryDict, kind: str) -> QueryDict:
    """What was posted, with an empty row of that kind, or an empty walk, added."""
    data = posted.copy()
    name = f"{kind}-TOTAL_FORMS"
    total = str(data.get(name, ""))
    if total.isascii() and total.isdecimal() and len(total) < 4:
        data[name] = str(int(total) + 1)
        plain, last = ("leg" if kind.startswith("leg") else kind), int(total) - 1
        start = f"{kind}-{last}-"
        above = {key.removeprefix(start): data.get(key) for key in posted if key.startswith(start)}
        for field, value in new_row(plain, above or None).items():
            data[f"{kind}-{total}-{field}"] = "on" if value is True else value
    return data


def _has_something(form: ReadingForm) -> bool:
    return any(str(form[name].value() or "").strip() for name in form.figures) or bool(form.errors)


def _row_words(form: forms.Form) -> str:
    kind, _, number = str(form.prefix).partition("-")
    kind = "Leg" if kind.startswith("leg") else kind.capitalize()
    return f"{kind} {int(number) + 1}" if number.isdecimal() else kind


def _name_outlines(rows: list[dict[str, Any]], taken: set[str]) -> None:
    """An id for each outline that has none, by what it is: turf-1, turf-2."""
    taken = taken | {row["id"] for row in rows if row.get("id")}
    for row in rows:
        number = 1
        while not row.get("id"):
            name = f"{row['kind']}-{number}"
            if name not in taken:
                row["id"] = name
                taken.add(name)
            number += 1
