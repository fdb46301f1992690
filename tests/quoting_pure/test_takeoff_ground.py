"""Drip, cable, valves, ground and packs counted by hand. Counting rules: common practice, no source."""

import json
from decimal import Decimal
from typing import Any

import pytest

from design.check import check
from design.document import Plan
from design.report import CableResult, SleeveMeasure
from quoting.takeoff import TakeOff, TakeoffSettings, take_off
from quoting.takeoff.stock import Piece, cut_whole, length_words, packs_for
from tests.quoting_pure.builders import ROOT, make_plan, make_report
from tests.quoting_pure.small_layouts import BOOK, counts, head, node, pipe, stretch, zone

D = Decimal


# --- drip


def test_drip_of_two_terraces_is_280_metres_and_three_coils() -> None:
    """Beds of 20 x 3 m and 12 x 4 m, rows 0.40 m apart, margin 0.10 m: 8 rows and 10 rows."""
    plan = Plan.model_validate(json.loads((ROOT / "tests" / "plans" / "s3.json").read_text()))
    takeoff = take_off(plan, make_report(plan), BOOK)
    (line,) = takeoff.of("drip_line")
    assert (line.net, line.quantity, line.unit) == (280, 3, "coil")
    assert takeoff.net("drip_connector") == 2 * (8 + 10)
    assert takeoff.net("flush_point") == 2
    assert takeoff.net("filter_regulator") == 2
    assert takeoff.net("cap") == 2 * 3  # far end of the first header, both ends of the second


def test_the_path_beside_the_terraces_is_bored_with_one_duct_of_1_8_metres() -> None:
    plan = Plan.model_validate(json.loads((ROOT / "tests" / "plans" / "s3.json").read_text()))
    takeoff = take_off(plan, check(plan, BOOK), BOOK)
    (duct,) = takeoff.of("sleeve")
    assert (duct.net, duct.quantity) == (D("1.8"), 1)
    assert (takeoff.net("bore_short"), takeoff.net("bore_long")) == (1, 0)
    assert takeoff.net("trench_bore") == D("1.2")


def test_drip_without_an_area_is_noted_for_nothing_can_be_counted() -> None:
    takeoff = zone([head("D", (0, 0), "drip-2.0")], [pipe("V", "D")])
    assert [(note.code, note.where) for note in takeoff.notes] == [("drip.area.missing", ("D",))]


# --- cable


def cable_plan(part: str, lengths: list[float]) -> TakeOff:
    count = len(lengths)
    valves = [node(f"V{n}", (10 * n, 0), "valve", part="valve-25") for n in range(count)]
    controller = node("C", (0, 5), "controller", part="controller-8")
    cables = [{"id": f"K{n}", "from": "C", "to": f"V{n}", "part": part} for n in range(count)]
    pipes = [pipe("S", "V0"), *(pipe("S", f"V{n}") for n in range(1, count))]
    plan = make_plan(nodes=[node("S", (-5, 0), "supply"), controller, *valves], pipes=pipes, cables=cables)
    runs = tuple(
        CableResult(f"K{n}", "C", f"V{n}", part, ((0, 5), (1, 1)), m, 0, 0, m, None)
        for n, m in enumerate(lengths)
    )
    return take_off(plan, make_report(plan, cables=runs), BOOK, TakeoffSettings(cable_allowance=D(0)))


def test_each_cable_run_is_cut_whole_so_that_no_splice_is_buried() -> None:
    """Runs of 40, 40 and 30 m are 110 m, yet two lengths of 75 m hold only one 40 m run each:
    30 m fits beside the first, so a 75 and a 50 it is."""
    takeoff = cable_plan("cable-5core", [40, 40, 30])
    assert [(q.pack, q.quantity) for q in takeoff.of("cable")] == [(75, 1), (50, 1)]
    assert takeoff.net("cable") == 110
    assert {q.where for q in takeoff.of("cable")} == {("K0", "K2"), ("K1",)}


def test_a_run_longer_than_any_length_in_stock_is_listed_as_missing() -> None:
    takeoff = cable_plan("cable-5core", [90])
    (missing,) = [q for q in takeoff.missing if q.role == "cable"]
    assert "90.0 m" in missing.description


def test_a_made_up_cable_is_one_per_hop_whatever_its_length() -> None:
    takeoff = cable_plan("link-cable-12", [7, 11.5])
    (cable,) = takeoff.of("cable")
    assert (cable.quantity, cable.measure, cable.net) == (2, 24, D("18.5"))


def test_connectors_count_a_hot_wire_per_valve_and_a_common_in_each_box() -> None:
    takeoff = cable_plan("cable-5core", [10, 10])  # two valves 10 m apart: two boxes
    (connector,) = takeoff.of("connector")
    assert (connector.net, connector.quantity) == (4, 5)


def test_a_cable_with_too_few_cores_for_valves_common_and_spares_is_noted() -> None:
    nodes = [node(f"V{n}", (n, 0), "valve", part="valve-25") for n in range(3)]
    controller = node("C", (0, 5), "controller", part="controller-4")
    cables = [
        {"id": "K1", "from": "C", "to": "V0", "part": "cable-5core"},
        {"id": "K2", "from": "V0", "to": "V1", "part": "cable-5core"},
        {"id": "K3", "from": "V1", "to": "V2", "part": "cable-5core"},
    ]
    plan = make_plan(
        nodes=[node("S", (-5, 0), "supply"), controller, *nodes],
        pipes=[pipe("S", "V0"), pipe("S", "V1"), pipe("S", "V2")],
        cables=cables,
    )
    notes = take_off(plan, make_report(plan), BOOK).notes
    assert [(note.code, note.where) for note in notes] == [("cable.cores.few", ("K1",))]
    assert "3 valves, a common and 2 spares need 6" in notes[0].sentence


@pytest.mark.parametrize(
    ("need_m", "packs"), [(24, {25: 1}), (105, {100: 1, 25: 1}), (150.1, {100: 2}), (200, {100: 2}), (0, {})]
)
def test_coils_are_as_many_of_the_longest_and_the_shortest_for_the_rest(need_m: float, packs: Any) -> None:
    assert packs_for(need_m, (25.0, 50.0, 100.0)) == packs


def test_pieces_are_cut_longest_first() -> None:
    pieces = [Piece(m, str(m)) for m in (3.0, 5.0, 2.0)]
    cuts, too_long = cut_whole(pieces, (5.0, 6.0))
    assert [(cut.stock_m, [p.length_m for p in cut.pieces]) for cut in cuts] == [
        (5.0, [5.0]),
        (5.0, [3.0, 2.0]),
    ]
    assert too_long == ()


# --- manifold and boxes


def test_a_row_of_valves_takes_manifold_tees_and_an_elbow_at_its_end() -> None:
    """Three valves off a short main: two tees, an elbow at the last one, two adapters each."""
    valves = [node(f"V{n}", (0.3 * n, 0), "valve", part="valve-25") for n in range(3)]
    joints = [node(f"J{n}", (0.3 * n, -0.3)) for n in range(2)]
    heads = [head(f"H{n}", (0.3 * n, 6)) for n in range(3)]
    main = [pipe("S", "J0"), pipe("J0", "V0"), pipe("J0", "J1"), pipe("J1", "V1"), pipe("J1", "V2")]
    plan = make_plan(
        nodes=[node("S", (-5, -0.3), "supply"), *joints, *valves, *heads],
        pipes=[*main, *(pipe(f"V{n}", f"H{n}") for n in range(3))],
    )
    takeoff = take_off(plan, make_report(plan), BOOK)
    assert counts(takeoff, "manifold_tee", "manifold_elbow", "tee", "isolation_valve", "cap") == {
        "manifold_tee": 2,
        "manifold_elbow": 1,
        "isolation_valve": 1,
    }
    assert takeoff.net("adapter") == 2 * 3 + 2 + 1
    assert sorted(q.part or "" for q in takeoff.of("valve_box")) == ["box-round", "box-standard"]
    assert takeoff.net("gravel") == D("0.06")


@pytest.mark.parametrize(
    ("valves", "boxes"),
    [(1, {"box-round": 2}), (4, {"box-standard": 1}), (5, {"box-large": 1}), (7, {"box-large": 1})],
)
def test_the_box_follows_the_number_of_valves(valves: int, boxes: dict[str, int]) -> None:
    """And one round box for the isolation valve; seven valves take a large one and a round one."""
    group = [node(f"V{n}", (0.3 * n, 0), "valve", part="valve-25") for n in range(valves)]
    pipes = [pipe("S", f"V{n}") for n in range(valves)]
    plan = make_plan(nodes=[node("S", (-5, 0), "supply"), *group], pipes=pipes)
    found = {q.part: int(q.quantity) for q in take_off(plan, make_report(plan), BOOK).of("valve_box")}
    extra = 2 if valves == 7 else 1
    assert found == {"box-round": extra, **boxes} if valves > 1 else found == boxes


def test_valves_that_stand_alone_share_one_isolation_valve_at_the_connection() -> None:
    """Common practice, no source: an isolation valve for each manifold, not for each valve on a long main."""
    alone = [node(f"V{n}", (10.0 * n, 3), "valve", part="valve-25") for n in range(3)]
    twins = [node("W0", (30, 1), "valve", part="valve-25"), node("W1", (30.4, 1), "valve", part="valve-25")]
    joints = [node(f"J{n}", (10.0 * n, 0)) for n in range(4)]
    main = [pipe("S", "J0"), *(pipe(f"J{n}", f"J{n + 1}") for n in range(3))]
    branches = [*(pipe(f"J{n}", f"V{n}") for n in range(3)), pipe("J3", "W0"), pipe("J3", "W1")]
    nodes = [node("S", (-5, 0), "supply"), *joints, *alone, *twins]
    plan = make_plan(nodes=nodes, pipes=[*main, *branches])
    takeoff = take_off(plan, make_report(plan), BOOK)
    assert takeoff.net("isolation_valve") == 2
    found = {q.part: int(q.quantity) for q in takeoff.of("valve_box")}
    assert found == {"box-round": 3 + 2, "box-standard": 1}


# --- ground


def test_trench_is_told_apart_by_method_depth_and_soil_and_spoil_is_bulked() -> None:
    """0.12 x 0.3 x 10 m in loam x 1.25 and in clay x 1.35; by hand 0.22 x 0.45 x 2 m x 1.25."""
    plan = make_plan(nodes=[node("S", (0, 0), "supply"), node("V", (9, 0))], pipes=[pipe("S", "V")])
    trench = (
        stretch("T1", 10, "machine"),
        stretch("T2", 4, "machine"),
        stretch("T3", 10, "machine", soil="clay"),
        stretch("T4", 2, "hand", depth_m=0.45),
        stretch("T5", 1.2, "bore", surface="path"),
    )
    takeoff = take_off(plan, make_report(plan, trench=trench), BOOK)
    metres = {q.key: q.net for q in takeoff.of("trench_machine", "trench_hand", "trench_bore")}
    assert metres == {
        "trench/machine/0.3/loam": 14,
        "trench/machine/0.3/clay": 10,
        "trench/hand/0.45/loam": 2,
        "trench/bore/0.3/loam": D("1.2"),
    }
    loose = 0.12 * 0.3 * 14 * 1.25 + 0.12 * 0.3 * 10 * 1.35 + 0.22 * 0.45 * 2 * 1.25
    assert float(takeoff.net("spoil")) == pytest.approx(loose, abs=0.005)


@pytest.mark.parametrize(("existing", "ducts"), [(False, 1), (True, 0)])
def test_a_new_crossing_takes_a_duct_with_its_ends_and_a_bore(existing: bool, ducts: int) -> None:
    """Path of 1.2 m with 0.3 m each side: 1.8 m of duct, at least twice the 25 mm that lies in it."""
    plan = make_plan(nodes=[node("S", (0, 0), "supply"), node("V", (9, 0))], pipes=[pipe("S", "V")])
    crossing = SleeveMeasure("X1", "path", ((4, 0), (5.8, 0)), 1.2, 1.8, existing, ("S-V",), ())
    takeoff = take_off(plan, make_report(plan, sleeves=(crossing,)), BOOK)
    assert [(q.part, q.net, q.quantity) for q in takeoff.of("sleeve")] == [("sleeve-50", D("1.8"), 1)] * ducts
    assert takeoff.net("bore_short") == ducts
    assert all("path" in q.where for q in takeoff.of("sleeve", "bore_short"))


@pytest.mark.parametrize(("duct", "notes"), [("sleeve-50", 1), ("sleeve-110", 0)])
def test_a_duct_that_the_plan_chose_too_narrow_is_said(duct: str, notes: int) -> None:
    """Twice what lies in it (common practice, no source): a pipe of 40 mm wants 80."""
    sleeve = {"id": "X1", "path": [[4, 0], [5.8, 0]], "part": duct}
    nodes, pipes = [node("S", (0, 0), "supply"), node("V", (9, 0))], [pipe("S", "V", "pvc-40")]
    plan = make_plan(nodes=nodes, pipes=pipes, sleeves=[sleeve])
    crossing = SleeveMeasure("X1", "path", ((4, 0), (5.8, 0)), 1.2, 1.8, False, ("S-V",), ())
    takeoff = take_off(plan, make_report(plan, sleeves=(crossing,)), BOOK)
    told = [note for note in takeoff.notes if note.code == "duct.tight"]
    assert [note.where for note in told] == [("X1",)] * notes
    assert all("wants 80 mm" in note.sentence for note in told)


def test_every_key_is_there_once() -> None:
    for name in ("s1", "s2", "s3"):
        plan = Plan.model_validate(json.loads((ROOT / "tests" / "plans" / f"{name}.json").read_text()))
        keys = [q.key for q in take_off(plan, make_report(plan), BOOK).quantities]
        assert len(keys) == len(set(keys))
        assert max(map(len, keys)) <= 160


@pytest.mark.parametrize(
    ("stock_m", "words"),
    [(6.0, "6 m"), (6.096, "20 ft"), (18.288, "60 ft"), (2.5, "2.5 m"), (30.48, "100 ft")],
)
def test_a_length_is_named_as_it_is_sold(stock_m: float, words: str) -> None:
    assert length_words(stock_m) == words
