"""Bad input is refused with the entity, the field and a sentence."""

import copy
import json
import math
import time

import pytest

from design.loading import load_plan
from design.part_rules import check_parts
from design.problems import PlanInvalid
from tests.design.plans import CATALOGUE, SUPPLY, make_document, make_plan, one_zone

SQUARE = [[0, 0], [10, 0], [10, 10], [0, 10]]


def problems_of(source):
    with pytest.raises(PlanInvalid) as caught:
        load_plan(source)
    return [(p.entity, p.field, p.sentence) for p in caught.value.problems]


def sole_problem(source):
    found = problems_of(source)
    assert len(found) == 1, found
    return found[0]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "empty"),
        ("   \n", "empty"),
        ("[1]", "one JSON object"),
        ('{\n "format": }', "line 2, column 12"),
        ('{"a": NaN}', "NaN"),
        ('{"a": -Infinity}', "-Infinity"),
        ("[" * 100_000, "nested too deeply"),
        ('{"x":' * 5_000, "nested too deeply"),
        ('{"format": "plan/1", "x": ' + "9" * 10_000 + "}", "too long"),
        (b"\xff\xfe{}", "UTF-8"),
        (b" " * 10_000_000, "larger than 1 MB"),
    ],
    ids=[
        "empty",
        "blank",
        "list",
        "syntax",
        "nan",
        "infinity",
        "deep",
        "deep-objects",
        "digits",
        "bytes",
        "10MB",
    ],
)
def test_what_is_no_plan_is_refused_with_a_sentence(text, words):
    entity, field, sentence = sole_problem(text)
    assert (entity, field) == ("plan", "")
    assert words in sentence


def test_a_repeated_key_is_refused():
    assert sole_problem('{"format": "plan/1", "format": "plan/1"}')[1] == "format"


def test_a_repeated_key_among_very_many_is_found_soon():
    keys = ",".join(f'"k{n}":1' for n in range(60_000))
    start = time.process_time()
    assert "“k59999” is given twice" in sole_problem(f'{{{keys},"k59999":2}}')[2]
    assert time.process_time() - start < 5


def test_not_a_number_in_a_dictionary_is_refused():
    assert (
        "NaN" in sole_problem({"format": "plan/1", "supply": {"at": [0, 0], "static_kpa": float("nan")}})[2]
    )


def test_a_byte_order_mark_is_read_over():
    text = json.dumps(make_document())
    assert load_plan(("\ufeff" + text).encode()) == load_plan(text)


def test_each_error_names_entity_and_field():
    document = make_document(
        supply={"at": [0, 0], "static_kpa": "450"},
        ground={"areas": [{"id": "lawn", "outline": [[0, 0], [1, 1]], "cover": "moss"}]},
        layout={
            "nodes": [
                {"id": "H3", "kind": "head", "at": [0, 0, 1]},
                {"id": "X", "kind": "pump", "at": [0, 0]},
            ]
        },
    )
    found = {(entity, field): sentence for entity, field, sentence in problems_of(document)}
    assert "number" in found["supply", "static_kpa"]
    assert "moss" in found["lawn", "cover"]
    assert "at least 3" in found["lawn", "outline"]
    assert found["H3", "part"] == "This is missing."
    assert "point of two numbers" in found["H3", "at"]
    assert "pump" in found["X", "kind"]


def test_an_unknown_field_is_named():
    assert sole_problem(make_document(supply=SUPPLY | {"statik_kpa": 3}))[:2] == ("supply", "statik_kpa")


def test_text_that_cannot_be_stored_is_refused():
    layout = {"notes": [{"text": "\ud800"}]}
    assert problems_of(json.dumps(make_document(layout=layout)))


def test_a_list_of_thousands_is_refused_before_it_is_read():
    nodes = [{"id": f"J{n}", "kind": "junction", "at": [0, 0]} for n in range(1_001)]
    entity, field, sentence = sole_problem(make_document(layout={"nodes": nodes}))
    assert (entity, field) == ("layout", "nodes")
    assert "1001" in sentence


def test_lines_of_thousands_of_points_are_refused():
    via = [[x, 0] for x in range(400)]
    pipes = [{"id": f"P{n}", "from": "S", "to": "V1", "via": via, "part": "pvc-25"} for n in range(13)]
    entity, _, sentence = sole_problem(make_document(layout={"pipes": pipes}))
    assert entity == "layout"
    assert "5200 points" in sentence


@pytest.mark.parametrize("name", ["areas", "services"])
def test_more_areas_or_services_than_a_garden_has_are_refused(name):
    entity, field, sentence = sole_problem(make_document(ground={name: [{}] * 101}))
    assert (entity, field) == ("ground", name)
    assert "at most 100" in sentence


def test_buildings_with_more_walls_than_can_be_looked_past_are_refused():
    round_house = [[math.cos(n / 50), math.sin(n / 50)] for n in range(301)]
    surfaces = [{"id": f"B{n}", "kind": "building", "outline": round_house} for n in range(2)]
    entity, field, sentence = sole_problem(make_document(ground={"surfaces": surfaces}))
    assert (entity, field) == ("ground", "surfaces")
    assert "602 corners" in sentence


def broken(change):
    """A sound document after a change, and the problems that it then has."""
    document = copy.deepcopy(
        make_document(ground={"areas": [{"id": "lawn", "outline": SQUARE}]}, layout=one_zone())
    )
    change(document)
    return problems_of(document)


def node(document, name):
    return next(n for n in document["layout"]["nodes"] if n["id"] == name)


CHANGES = {
    "unknown end": (lambda d: d["layout"]["pipes"][1].update(to="H9"), ("P2", "to"), "no node “H9”"),
    "pipe to itself": (lambda d: d["layout"]["pipes"][1].update(to="V1"), ("P2", "to"), "begins and ends"),
    "head on no pipe": (
        lambda d: d["layout"]["nodes"].append({"id": "H2", "kind": "head", "at": [3, 3], "part": "rotary-6"}),
        ("H2", "at"),
        "No pipe ends at this head",
    ),
    "dangling junction": (
        lambda d: d["layout"]["nodes"].append({"id": "J7", "kind": "junction", "at": [3, 3]}),
        ("J7", "at"),
        "No pipe ends",
    ),
    "no supply": (lambda d: node(d, "S").update(kind="junction"), ("layout", "nodes"), "no supply node"),
    "two supplies": (
        lambda d: d["layout"]["nodes"].append({"id": "S2", "kind": "supply", "at": [9, 9]}),
        ("S2", "kind"),
        "supply node already, S",
    ),
    "cut off": (
        lambda d: d["layout"].update(
            nodes=[
                *d["layout"]["nodes"],
                {"id": "JA", "kind": "junction", "at": [7, 7]},
                {"id": "JB", "kind": "junction", "at": [8, 7]},
            ],
            pipes=[*d["layout"]["pipes"], {"id": "P9", "from": "JA", "to": "JB", "part": "pvc-25"}],
        ),
        ("JA", "at"),
        "No pipe leads from the supply",
    ),
    "repeated id": (lambda d: node(d, "H1").update(id="V1"), ("V1", "id"), "2 entities"),
    "id of another kind": (lambda d: d["ground"]["areas"][0].update(id="P1"), ("P1", "id"), "2 entities"),
    "self-crossing": (
        lambda d: d["ground"]["areas"][0].update(outline=[[0, 0], [10, 10], [10, 0], [0, 10]]),
        ("lawn", "outline"),
        "crosses or touches itself near (5, 5)",
    ),
    "flat outline": (
        lambda d: d["ground"]["areas"][0].update(outline=[[0, 0], [5, 0], [10, 0]]), ("lawn", "outline"), "",
    ),
    "hole outside": (
        lambda d: d["ground"]["areas"][0].update(holes=[[[9, 9], [12, 9], [12, 12]]]),
        ("lawn", "holes[0]"),
        "outside the outline",
    ),
    "unknown area": (lambda d: node(d, "H1").update(area="moor"), ("H1", "area"), "no area “moor”"),
    "unknown zone": (
        lambda d: d["layout"].update(cases=[{"label": "Front", "open": ["V4"]}]),
        ("Front", "open"),
        "no zone “V4”",
    ),
    "pipe without length": (lambda d: node(d, "V1").update(at=[0.01, 0]), ("P1", "via"), "0.010 m long"),
    "cable to nowhere": (
        lambda d: d["layout"].update(cables=[{"id": "K1", "from": "V1", "to": "C", "part": "cable-5"}]),
        ("K1", "to"),
        "no node “C”",
    ),
    "valve behind valve": (
        lambda d: d["layout"].update(
            nodes=[
                *d["layout"]["nodes"],
                {"id": "V2", "kind": "valve", "at": [6, 0], "part": "valve-25"},
                {"id": "H2", "kind": "head", "at": [7, 0], "part": "rotary-6"},
            ],
            pipes=[
                *d["layout"]["pipes"],
                {"id": "P3", "from": "H1", "to": "V2", "part": "pvc-25"},
                {"id": "P4", "from": "V2", "to": "H2", "part": "pvc-25"},
            ],
        ),
        ("V2", "at"),
        "behind another valve",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CHANGES)
def test_what_does_not_fit_together_names_the_entity(name):
    change, place, words = CHANGES[name]
    found = broken(change)
    assert place in [(entity, field) for entity, field, _ in found], found
    assert any(words in sentence for entity, field, sentence in found if (entity, field) == place), found


def test_a_zone_fed_by_two_valves_is_refused():
    layout = one_zone(
        nodes=[{"id": "V2", "kind": "valve", "at": [1, 1], "part": "valve-25"}],
        pipes=[
            {"id": "P3", "from": "S", "to": "V2", "part": "pvc-25"},
            {"id": "P4", "from": "V2", "to": "H1", "part": "pvc-25"},
        ],
    )
    assert any(
        entity == "H1" and "V1 and V2" in words
        for entity, _, words in problems_of(make_document(layout=layout))
    )


def test_a_plan_without_a_layout_is_sound():
    assert load_plan(make_document()).layout.nodes == []


@pytest.mark.parametrize(
    ("name", "code", "words"),
    [
        ("H1", "rotor-99", "no part “rotor-99”"),
        ("H1", "pvc-25", "is a pipe"),
        ("V1", "rotary-6", "needs a valve"),
    ],
)
def test_unknown_and_misplaced_parts_are_named(name, code, words):
    layout = one_zone()
    node({"layout": layout}, name)["part"] = code
    (problem,) = check_parts(make_plan(layout=layout), CATALOGUE)
    assert (problem.entity, problem.field) == (name, "part")
    assert words in problem.sentence


def test_a_drip_line_needs_its_area():
    layout = one_zone()
    node({"layout": layout}, "H1")["part"] = "drip-2"
    (problem,) = check_parts(make_plan(layout=layout), CATALOGUE)
    assert (problem.entity, problem.field) == ("H1", "area")


def test_a_case_names_zones_and_no_plain_head():
    layout = one_zone(cases=[{"label": "Front", "open": ["H1"]}])
    (problem,) = check_parts(make_plan(layout=layout), CATALOGUE)
    assert problem.entity == "Front"
    assert "no valve of its own" in problem.sentence
