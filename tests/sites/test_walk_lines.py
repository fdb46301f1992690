"""The lines of the walk: sound data, and what counts as missing."""

import pytest

from hydraulics.units import FACTORS
from sites.walk_round.line import NONE_ASKED, Place
from sites.walk_round.lines import BY_KEY, LINES, lines_at
from sites.walk_round.missing import missing, progress


def keys(lines):
    return [line.key for line in lines]


def test_each_line_once_and_in_walking_order():
    assert len(BY_KEY) == len(LINES)
    order = list(Place)
    places = [order.index(line.place) for line in LINES]
    assert places == sorted(places)
    assert all(lines_at(place) for place in Place)


@pytest.mark.parametrize("line", LINES, ids=lambda line: line.key)
def test_a_line_is_whole(line):
    assert line.question.endswith("?")
    assert line.why.endswith(".")
    assert len(line.key) <= 40  # what the column of the sheet holds
    assert (line.kind == "quantity") == (line.usual is not None)
    assert (line.kind == "choice") == bool(line.choices)
    if line.usual:
        assert line.usual.least <= line.usual.low < line.usual.high <= line.usual.most
        assert not line.unit or line.unit in FACTORS[line.usual.kind]
    if line.held:
        assert (line.none_said, line.when, line.choices) == ("", None, ()), "it is answered where it is held"
    for answer in line.says:
        assert answer in ("yes", "no") or answer in dict(line.choices)


@pytest.mark.parametrize("line", [line for line in LINES if line.when], ids=lambda line: line.key)
def test_a_condition_looks_at_a_line_before_it(line):
    decider = BY_KEY[line.when.key]
    assert LINES.index(decider) < LINES.index(line)
    if decider.kind == "choice":
        assert set(line.when.values) <= set(dict(decider.choices))


# What a contractor has to know before leaving: common practice, no source.
MUST_BE_ASKED = [
    "future_works", "private_buried", "meter_still", "regulator", "backflow", "gate", "outlet", "soil", "sun",
    "static", "bucket", "residual", "fixed_corners", "diagonals", "wheel", "heights", "water_source",
]  # fmt: skip


@pytest.mark.parametrize("key", MUST_BE_ASKED)
def test_what_no_design_can_do_without_is_required(key):
    assert BY_KEY[key].required


def test_the_owners_own_figure_may_be_unknown():
    assert not BY_KEY["area_said"].required


def test_a_blank_is_missing_and_none_asked_is_not():
    line = BY_KEY["private_buried"]
    assert missing({}, [line]) == [line]
    assert missing({"private_buried": "   "}, [line]) == [line]
    assert missing({"private_buried": NONE_ASKED}, [line]) == []


@pytest.mark.parametrize(
    ("key", "answers", "is_asked"),
    [
        ("pump_on", {}, False), ("pump_on", {"water_source": "mains"}, False),
        ("pump_on", {"water_source": "well"}, True), ("tank_volume", {"water_source": "tank"}, True),
        ("regulator_set", {"regulator": "no"}, False), ("regulator_set", {"regulator": "yes"}, True),
        ("thickest_trunk", {"trees": NONE_ASKED}, False), ("thickest_trunk", {"trees": "An oak"}, True),
        ("thickest_trunk", {}, False), ("sun_parts", {"sun": "differs"}, True),
    ],
)  # fmt: skip
def test_some_lines_are_asked_only_where_they_matter(key, answers, is_asked):
    assert BY_KEY[key].applies(answers) is is_asked
    assert (key in keys(missing(answers))) is is_asked


def test_required_lines_come_first_each_group_in_walking_order():
    found = missing({})
    required = [line.required for line in found]
    assert required == sorted(required, reverse=True)
    first = [line for line in found if line.required]
    assert first == sorted(first, key=LINES.index)


def test_progress_counts_only_lines_that_apply():
    nothing = progress({})
    assert (nothing.answered, nothing.asked) == (0, sum(line.when is None for line in LINES))
    well = progress({"water_source": "well"})
    assert well.answered == 1
    assert well.asked == nothing.asked + 4  # two pressures, the flow, the papers
    assert well.required_missing == nothing.required_missing + 3


def test_when_all_is_answered_nothing_is_missing():
    answers = {line.key: "yes" if line.kind == "yes_no" else "something" for line in LINES}
    whole = progress(answers)
    assert missing(answers) == []
    assert whole.answered == whole.asked
    assert whole.required_missing == 0
