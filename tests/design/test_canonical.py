"""Export and re-import give the same document."""

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from design.canonical import dump_plan, plan_digest, plan_text
from design.document import Area, Case, Ground, Layout, Level, Mark, Note, Plan, Service, Supply, Surface
from design.loading import load_plan
from tests.design.plans import make_document, make_plan, one_zone

metres = st.floats(-5000, 5000, allow_nan=False)
points = st.tuples(metres, metres)
labels = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
paths = st.lists(points, min_size=2, max_size=5)


@st.composite
def rectangles(draw):
    x, y = draw(st.floats(-4000, 4000)), draw(st.floats(-4000, 4000))
    width, height = draw(st.floats(0.5, 200)), draw(st.floats(0.5, 200))
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


@st.composite
def grounds(draw):
    def many(entity, prefix, **fields):
        rows = draw(st.lists(st.fixed_dictionaries({"label": labels, **fields}), max_size=3))
        return [entity(id=f"{prefix}{place}", **row) for place, row in enumerate(rows)]

    kinds = st.sampled_from(["building", "paving", "tree"])
    return Ground(
        marks=many(Mark, "m", at=points),
        areas=many(Area, "a", outline=rectangles(), slope_pct=st.floats(0, 100)),
        surfaces=many(Surface, "s", outline=rectangles(), kind=kinds),
        services=many(
            Service, "b", path=paths, kind=st.sampled_from(["gas", "drain"]),
            depth_m=st.none() | st.floats(0, 10), located=st.booleans(),
        ),
        levels=draw(st.lists(st.builds(Level, at=points, z_m=st.floats(-500, 500)), max_size=3)),
    )  # fmt: skip


@st.composite
def plans(draw):
    base = make_plan(layout=one_zone())
    cases = draw(st.sampled_from([[], [Case(label="Front", open=["V1"])]]))
    notes = draw(st.lists(st.builds(Note, at=st.none() | points, text=labels), max_size=2))
    layout = base.layout.model_copy(update={"cases": cases, "notes": notes})
    supply = Supply(at=draw(points), static_kpa=draw(st.floats(1, 2500)), z_m=draw(st.floats(-500, 500)))
    return Plan(format="plan/1", ground=draw(grounds()), supply=supply, layout=Layout(**dict(layout)))


@given(plans())
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_export_and_import_give_the_same_plan(plan):
    again = load_plan(plan_text(plan))
    assert again == plan
    assert plan_text(again) == plan_text(plan)
    assert load_plan(dump_plan(plan)) == plan
    assert plan_digest(again) == plan_digest(plan)


def test_the_digest_ignores_order_of_keys_and_spaces_and_sees_a_changed_figure():
    plan = make_plan(layout=one_zone())
    shuffled = json.dumps(dict(reversed(dump_plan(plan).items())), indent=7)
    assert plan_digest(load_plan(shuffled)) == plan_digest(plan)
    moved = one_zone()
    moved["nodes"][2]["at"] = [5.001, 0]
    assert plan_digest(make_plan(layout=moved)) != plan_digest(plan)


def test_nothing_becomes_of_minus_zero_and_whole_numbers():
    plan = load_plan(json.dumps(make_document()).replace("[0, 0]", "[-0.0, 0.0]"))
    assert plan_digest(plan) == plan_digest(make_plan())


@pytest.mark.parametrize("path", sorted(Path("tests/plans").glob("*.json")), ids=lambda path: path.stem)
def test_the_plans_in_the_tests_come_back_as_they_were(path):
    plan = load_plan(path.read_bytes())
    assert load_plan(plan_text(plan)) == plan
