"""Fittings of small layouts counted by hand. Counting rules: common practice, no source."""

from decimal import Decimal

import pytest

from hydraulics.catalogue import Catalogue, UnknownPart
from tests.quoting_pure.small_layouts import BOOK, counts, head, node, pipe, zone

D = Decimal


TURNS = ("elbow_22", "elbow_45", "elbow_90", "tee", "threaded_tee", "cap")


@pytest.mark.parametrize(
    ("to", "elbows"),
    [
        ((12, 0), {}),
        ((12, 1.0), {}),  # 9.5 degrees
        ((12, 2.5), {"elbow_22": 1}),  # 22.6
        ((12, 6), {"elbow_45": 1}),  # 45
        ((6, 6), {"elbow_90": 1}),  # 90
        ((0, 6), {"elbow_90": 1, "elbow_45": 1}),  # 135
    ],
)
def test_a_turn_of_rigid_pipe_takes_elbows_by_its_angle(
    to: tuple[float, float], elbows: dict[str, int]
) -> None:
    takeoff = zone([node("J", (6, 0)), head("H", to)], [pipe("V", "J"), pipe("J", "H")])
    assert counts(takeoff, "elbow_22", "elbow_45", "elbow_90") == elbows


def test_a_coil_bends_gently_without_a_fitting_and_not_sharply() -> None:
    gentle = zone(
        [node("J", (6, 0)), head("H", (12, 2.5))],
        [pipe("V", "J", "pe-25"), pipe("J", "H", "pe-25")],
        main="pe-32",
    )
    sharp = zone(
        [node("J", (6, 0)), head("H", (6, 6))],
        [pipe("V", "J", "pe-25"), pipe("J", "H", "pe-25")],
        main="pe-32",
    )
    assert counts(gentle, *TURNS) == {}
    assert counts(sharp, *TURNS) == {"elbow_90": 1}


def test_a_coil_needs_room_to_bend() -> None:
    """25 mm pipe bends to 25 diameters, 0.625 m. Between the bends lie 0.108 m of straight leg:
    0.125 m would be wanted for the first, of 22.6°, and 0.096 m for the second, of 17.4°."""
    via = [[6, 0], [6.1, 0.0417]]
    short = zone([head("H", (12, 5))], [pipe("V", "H", "pe-25", via=via)], main="pe-32")
    assert counts(short, "elbow_22") == {"elbow_22": 1}
    assert short.missing  # and the demo book has no such elbow: it is listed
    assert {q.role for q in short.missing} == {"elbow_22"}


def test_a_head_in_line_or_at_a_corner_takes_one_tee_and_at_an_odd_angle_an_elbow_more() -> None:
    line = zone([head("A", (6, 0)), head("B", (12, 0))], [pipe("V", "A"), pipe("A", "B")])
    corner = zone([head("A", (6, 0)), head("B", (6, 6))], [pipe("V", "A"), pipe("A", "B")])
    odd = zone([head("A", (6, 0)), head("B", (12, 6))], [pipe("V", "A"), pipe("A", "B")])
    assert counts(line, *TURNS) == counts(corner, *TURNS) == {"threaded_tee": 1}
    assert counts(odd, *TURNS) == {"threaded_tee": 1, "elbow_45": 1}


def test_three_pipes_and_a_head_or_four_pipes_take_two_tees() -> None:
    spokes = [head("A", (6, 0)), head("B", (12, 0)), head("C", (6, 6)), head("E", (6, -6))]
    three = zone(spokes[:3], [pipe("V", "A"), pipe("A", "B"), pipe("A", "C")])
    assert counts(three, "tee", "threaded_tee", "threaded_elbow") == {
        "tee": 1,
        "threaded_tee": 1,
        "threaded_elbow": 2,
    }
    four = zone([node("A", (6, 0)), *spokes[1:]], [pipe("V", "A"), *(pipe("A", n) for n in "BCE")])
    assert counts(four, "tee", "threaded_elbow") == {"tee": 2, "threaded_elbow": 3}


def test_three_pipes_with_none_in_line_take_a_tee_and_a_45() -> None:
    star = zone(
        [node("J", (0, 0)), head("A", (5, 5)), head("B", (5, -5))],
        [pipe("V", "J"), pipe("J", "A"), pipe("J", "B")],
    )
    assert counts(star, "tee", "elbow_45") == {"tee": 1, "elbow_45": 1}


def test_a_smaller_pipe_goes_on_with_a_reducer_and_a_tee_takes_a_bushing() -> None:
    straight = zone(
        [node("J", (6, 0)), head("H", (12, 0))], [pipe("V", "J", "pvc-32"), pipe("J", "H", "pvc-25")]
    )
    assert [q.part for q in straight.of("reducer")] == ["reducer-solvent-32-25"]
    tee = zone(
        [node("J", (6, 0)), head("A", (12, 0)), head("B", (6, 6))],
        [pipe("V", "J", "pvc-32"), pipe("J", "A", "pvc-25"), pipe("J", "B", "pvc-25")],
    )
    assert [q.part for q in tee.of("tee")] == ["tee-solvent-32"]
    assert [(q.part, q.net) for q in tee.of("reducer")] == [("bushing-solvent-32-25", 2)]
    listed = zone(
        [node("J", (6, 0)), head("A", (12, 0)), head("B", (6, 6))],
        [pipe("V", "J", "pvc-32"), pipe("J", "A", "pvc-32"), pipe("J", "B", "pvc-25")],
    )
    assert [q.part for q in listed.of("tee")] == ["tee-solvent-32-25"]
    assert listed.of("reducer") == ()


def test_a_change_of_material_takes_an_adapter() -> None:
    takeoff = zone([node("J", (6, 0)), head("H", (12, 0))], [pipe("V", "J"), pipe("J", "H", "pe-25")])
    assert "adapter-compression-25-solvent-25" in {q.part for q in takeoff.of("adapter")}


def test_insert_fittings_take_a_clamp_per_end() -> None:
    """Tee 2 ends, end elbow 1, adapter 1: four clamps on a lateral of 25 mm."""
    takeoff = zone(
        [head("A", (6, 0)), head("B", (12, 0))],
        [pipe("V", "A", "pe-insert-25"), pipe("A", "B", "pe-insert-25")],
        main="pe-32",
    )
    assert [(q.part, q.net) for q in takeoff.of("clamp")] == [("clamp-25", 4)]


def test_what_the_book_lacks_is_listed_with_its_sockets_and_its_place() -> None:
    poor = Catalogue(part for code, part in BOOK.items() if not code.startswith("elbow-solvent-25"))
    takeoff = zone([head("H", (6, 0))], [pipe("V", "H")], book=poor)
    (missing,) = takeoff.missing
    assert (missing.role, missing.part, missing.where) == ("threaded_elbow", None, ("H",))
    assert "solvent 25 + thread 15" in missing.description
    assert missing.quantity >= 1


def test_an_empty_book_drops_nothing_either() -> None:
    """With pipes, heads and valves only, each fitting and sundry is on the list as missing."""
    bare = Catalogue(part for part in BOOK.values() if part.kind not in ("fitting", "sundry"))
    full = zone([head("A", (6, 0)), head("B", (12, 0))], [pipe("V", "A"), pipe("A", "B")])
    poor = zone([head("A", (6, 0)), head("B", (12, 0))], [pipe("V", "A"), pipe("A", "B")], book=bare)
    assert {q.role for q in poor.quantities} >= {q.role for q in full.quantities} - {"reducer"}
    assert {q.role for q in poor.missing} >= {"threaded_tee", "adapter", "cement", "valve_box", "swing_joint"}


def test_a_head_of_an_unknown_part_is_refused_and_not_left_out() -> None:
    with pytest.raises(UnknownPart, match="no-such-head"):
        zone([head("H", (6, 0), "no-such-head")], [pipe("V", "H")])


def test_couplings_join_sticks_over_a_node_where_the_pipe_runs_on() -> None:
    """Two pipes of 4 m in line are one run of 8 m: one coupling. Two of 6 m at a tee: none."""
    on = zone([node("J", (-6, 0)), head("H", (-2, 0))], [pipe("V", "J"), pipe("J", "H")])
    main_couplings = 1  # 10 m of main
    assert on.net("coupling") == main_couplings + 1
    at_tee = zone([head("A", (-4, 0)), head("B", (2, 0))], [pipe("V", "A"), pipe("A", "B")])
    assert at_tee.net("coupling") == main_couplings


def test_spares_are_one_of_a_kind_up_to_ten_and_five_percent_beyond() -> None:
    row = [head(f"H{n}", (6 * n, 0)) for n in range(30)]
    takeoff = zone(row, [pipe("V", "H0"), *(pipe(f"H{n}", f"H{n + 1}") for n in range(29))])
    (tees,) = takeoff.of("threaded_tee")
    (elbow,) = takeoff.of("threaded_elbow")
    assert (tees.net, tees.quantity) == (29, 31)
    assert (elbow.net, elbow.quantity) == (1, 2)
    (joints,) = takeoff.of("swing_joint")
    assert (joints.net, joints.quantity) == (30, 30)


def test_cement_goes_by_size_with_at_least_a_tin() -> None:
    """Two joints of 32 at 11 mL, two of 25 at 7 mL, four more at the isolation valve's adapters."""
    takeoff = zone([head("H", (-6, 0))], [pipe("V", "H")])
    (cement,) = takeoff.of("cement")
    assert cement.net == 8  # main: connection, valve, 2 at the isolation valve, coupling 2; lateral: 2
    assert "80 mL" in cement.how
    assert cement.quantity == 1
