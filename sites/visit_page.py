"""The whole page of a visit: its form and rows, what is asked beside each figure, and the arithmetic."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.forms import BaseFormSet
from django.http import QueryDict
from django.utils import timezone

from parts.services import catalogue
from sites.arithmetic import Arithmetic, work_out
from sites.limit_services import company_limits
from sites.models import Site, Visit
from sites.plausibility import judge_visit
from sites.readings import Remark, VisitData
from sites.visit_columns import PAIRS, PLAIN, data_of
from sites.visit_forms import BucketRows, GaugeRows, HeightRows, VisitForm, filled, visit_data

# A fresh form has room for three bucket runs, as one alone cannot show that the watch was right.
FRESH_ROWS: Mapping[str, int] = {"bucket": 3, "gauge": 1, "height": 1}
ROWS: Mapping[str, type[BaseFormSet]] = {"bucket": BucketRows, "gauge": GaugeRows, "height": HeightRows}


class VisitPage:
    """Bound to what was posted, or showing a stored visit, or fresh."""

    def __init__(self, site: Site, posted: QueryDict | None = None, visit: Visit | None = None) -> None:
        self.site, self.posted, self.visit = site, posted, visit
        self.parts = catalogue()
        system = {"system": site.units}
        self.form = VisitForm(posted, initial=_initial(visit), parts=self.parts, **system)
        self.rows = {
            kind: form_set(posted, prefix=kind, initial=_row_initial(kind, visit), form_kwargs=system)
            for kind, form_set in ROWS.items()
        }
        self.confirmed = set(
            posted.getlist("confirm") if posted is not None else visit.confirmed if visit else ()
        )

    @property
    def bucket(self) -> BaseFormSet:
        return self.rows["bucket"]

    @property
    def gauge(self) -> BaseFormSet:
        return self.rows["gauge"]

    @property
    def height(self) -> BaseFormSet:
        return self.rows["height"]

    def is_valid(self) -> bool:
        valid = [self.form.is_valid(), *(rows.is_valid() for rows in self.rows.values())]
        return all(valid)

    def data(self) -> VisitData:
        """The readings, after ``is_valid`` has read the form."""
        return visit_data(self.form, self.bucket, self.gauge, self.height)

    def worked(self) -> Arithmetic:
        """What the readings say, from what can be read of the form so far."""
        if self.posted is None:
            stored = data_of(self.visit) if self.visit else self.nothing()
            rows = dict(enumerate(stored.buckets))
            return work_out(stored, rows, self.site.units, parts=self.parts, limits=company_limits())
        self.is_valid()
        rows = dict(filled(self.bucket))
        compare = self.form.cleaned_data.get("compare")
        return work_out(self.data(), rows, self.site.units, compare, self.parts, company_limits())

    def nothing(self) -> VisitData:
        return VisitData(visited_on=timezone.localdate(), measured_by="")

    def remarks_so_far(self) -> list[Remark]:
        """Every doubt and refusal about what is typed by now."""
        found = judge_visit(self.data(), timezone.localdate(), self.parts)
        return [*found.refusals, *found.open_questions(self.confirmed)]

    def show_refusals(self, refusals: Iterable[Remark]) -> None:
        """Each sentence as an error beside its figure."""
        for remark in refusals:
            form, name = self._place(remark.where)
            form.add_error(name if name in form.fields else None, remark.sentence)

    def show_questions(self, questions: Iterable[Remark]) -> None:
        """Each sentence with a tick beside its figure; a tick already set stays."""
        for remark in questions:
            form, name = self._place(remark.where)
            bound = form[name]
            asked = [*getattr(bound, "questions", ()), (remark, remark.token in self.confirmed)]
            bound.questions = asked

    def to_look_at(self) -> list[tuple[str, str, str]]:
        """Id of the control, label and sentence of all that keeps the form from being saved."""
        forms = [self.form, *(form for rows in self.rows.values() for form in rows.forms)]
        found = []
        for form in forms:
            for bound in form.visible_fields():
                asked = [
                    remark.sentence for remark, is_ticked in getattr(bound, "questions", ()) if not is_ticked
                ]
                found += [
                    (bound.id_for_label, str(bound.label), sentence) for sentence in [*bound.errors, *asked]
                ]
        return found

    def _place(self, where: str) -> tuple[Any, str]:
        """The form and the field that a remark stands at; readings count filled rows only."""
        kind, _, rest = where.partition("-")
        if kind not in self.rows:
            return self.form, where
        number, _, name = rest.partition("-")
        places = [place for place, _ in filled(self.rows[kind])] if self.posted is not None else None
        place = places[int(number)] if places is not None else int(number)
        return self.rows[kind].forms[place], name


def with_one_more(posted: QueryDict, kind: str) -> QueryDict:
    """What was posted, with an empty row of that kind added."""
    data = posted.copy()
    name = f"{kind}-TOTAL_FORMS"
    total = data.get(name, "")
    if kind in ROWS and isinstance(total, str) and total.isdecimal() and len(total) < 4:
        data[name] = str(int(total) + 1)
    return data


def _initial(visit: Visit | None) -> dict[str, Any]:
    if visit is None:
        return {}
    plain = {name: getattr(visit, name) for name in PLAIN}
    figures = {name: getattr(visit, text) for name, (_, text, _) in PAIRS.items()}
    return {**plain, **figures, "began_from": visit.version}


def _row_initial(kind: str, visit: Visit | None) -> list[dict[str, str]]:
    if visit is None:
        return [{} for _ in range(FRESH_ROWS[kind])]
    data = data_of(visit)
    if kind == "bucket":
        rows = [{"volume": b.volume.text, "fill": b.fill.text, "tap": b.tap} for b in data.buckets]
    elif kind == "gauge":
        rows = [{"flow": g.flow.text, "residual": g.residual.text, "tap": g.tap} for g in data.gauges]
    else:
        rows = [{"place": h.place, "height": h.height.text} for h in data.heights]
    return rows or [{}]
