"""Two versions put together: what one side did alone is kept, and where they meet both are shown."""

import copy

import pytest
from hypothesis import given
from hypothesis import strategies as st

from design.merging import merge
from design.unfinished import entities_of, ids_of

POINTS = st.tuples(st.integers(-50, 50), st.integers(-50, 50)).map(list)
NAMES = [f"H{number}" for number in range(8)]
EDITS = st.dictionaries(st.sampled_from(NAMES), st.one_of(st.none(), POINTS), max_size=8)
NEW = st.dictionaries(st.sampled_from(["N1", "N2", "N3"]), POINTS)


def document(heads, supply=None):
    nodes = [{"id": name, "kind": "head", "at": at} for name, at in heads.items()]
    found = {"format": "plan/1", "ground": {}, "layout": {"nodes": nodes}}
    return {**found, "supply": supply} if supply else found


def heads_of(found):
    return {node["id"]: node["at"] for node in entities_of(found, "layout", "nodes")}


BASE = {name: [number, 0] for number, name in enumerate(NAMES)}


def edited(edits):
    heads = {**BASE, **edits}
    return {name: at for name, at in heads.items() if at is not None}


@given(EDITS, EDITS, NEW, NEW)
def test_disjoint_edits_commute_and_lose_nothing(one, two, added, also):
    two = {name: at for name, at in two.items() if name not in one}
    mine = edited({**one, **{f"m{name}": at for name, at in added.items()}})
    theirs = edited({**two, **{f"t{name}": at for name, at in also.items()}})
    forth = merge(document(BASE), document(mine), document(theirs))
    back = merge(document(BASE), document(theirs), document(mine))
    assert forth.conflicts == back.conflicts == ()
    assert forth.document == back.document
    new = {f"m{name}": at for name, at in added.items()} | {f"t{name}": at for name, at in also.items()}
    assert heads_of(forth.document) == edited({**one, **two, **new})


@given(EDITS)
def test_one_side_alone_is_taken_over_whole(edits):
    mine = document(edited(edits))
    for found in (merge(document(BASE), mine, document(BASE)), merge(document(BASE), mine, mine)):
        assert heads_of(found.document) == heads_of(mine)
        assert not found.conflicts


@given(EDITS, EDITS)
def test_what_both_changed_is_a_conflict_and_either_side_can_be_had(one, two):
    mine, theirs = document(edited(one)), document(edited(two))
    found = merge(document(BASE), mine, theirs)
    both = {n for n in one.keys() & two.keys() if one[n] != two[n] and BASE[n] not in (one[n], two[n])}
    assert {conflict.id for conflict in found.conflicts} == both
    for side, wanted in (("mine", one), ("theirs", two)):
        chosen = merge(document(BASE), mine, theirs, {conflict.key: side for conflict in found.conflicts})
        heads = heads_of(chosen.document)
        assert all(heads.get(name) == wanted[name] for name in both)


def test_what_one_took_out_and_the_other_moved_stays_until_chosen():
    found = merge(document(BASE), document(edited({"H1": None})), document(edited({"H1": [9, 9]})))
    assert heads_of(found.document)["H1"] == [9, 9]
    assert found.conflicts[0].mine is None


def test_things_drawn_by_both_under_one_id_are_both_kept_and_references_follow():
    base = document({"H1": [0, 0]})
    mine, theirs = copy.deepcopy(base), copy.deepcopy(base)
    mine["layout"]["nodes"].append({"id": "H2", "kind": "head", "at": [5, 5]})
    mine["layout"]["pipes"] = [{"id": "P1", "from": "H1", "to": "H2"}]
    mine["layout"]["cases"] = [{"label": "A", "open": ["H2"]}]
    theirs["layout"]["nodes"].append({"id": "H2", "kind": "head", "at": [7, 7]})
    found = merge(base, mine, theirs)
    assert found.conflicts == ()
    assert heads_of(found.document) == {"H1": [0, 0], "H2": [7, 7], "H2-2": [5, 5]}
    assert found.document["layout"]["pipes"][0]["to"] == "H2-2"
    assert found.document["layout"]["cases"][0]["open"] == ["H2-2"]
    assert found.renamed == {"H2": "H2-2"}


def test_the_supply_is_one_entity():
    base = document(BASE, {"at": [0, 0], "static_kpa": 300})
    mine = document(BASE, {"at": [0, 0], "static_kpa": 310})
    theirs = document(BASE, {"at": [1, 0], "static_kpa": 300})
    found = merge(base, mine, theirs)
    assert [conflict.key for conflict in found.conflicts] == ["supply.supply"]
    assert merge(base, mine, theirs, {"supply.supply": "theirs"}).document["supply"] == theirs["supply"]
    assert merge(base, mine, base).document["supply"] == mine["supply"]


@pytest.mark.parametrize("name", ["levels", "notes"])
def test_what_has_no_id_is_added_and_taken_out_as_a_whole(name):
    block = "ground" if name == "levels" else "layout"
    base, mine, theirs = ({block: {name: rows}} for rows in ([{"a": 1}], [{"a": 1}, {"a": 2}], [{"a": 3}]))
    found = merge(base, mine, theirs).document[block][name]
    assert sorted(row["a"] for row in found) == [2, 3]


def test_ids_stay_unique():
    base = document({})
    found = merge(base, document({"A": [0, 0], "A-2": [1, 1]}), document({"A": [2, 2]}))
    assert ids_of(found.document) == {"A", "A-2", "A-3"}
