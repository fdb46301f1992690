"""Layouts of a few pipes behind one valve, and what is counted on them."""

from typing import Any

from design.report import TrenchStretch
from hydraulics.catalogue import Catalogue
from quoting.takeoff import TakeOff, TakeoffSettings, take_off
from tests.quoting_pure.builders import load_book, make_plan, make_report

BOOK = load_book()


def node(name: str, at: tuple[float, float], kind: str = "junction", **more: Any) -> dict[str, Any]:
    return {"id": name, "kind": kind, "at": list(at), **more}


def head(name: str, at: tuple[float, float], part: str = "rotary-6") -> dict[str, Any]:
    return node(name, at, "head", part=part)


def pipe(start: str, end: str, part: str = "pvc-25", **more: Any) -> dict[str, Any]:
    return {"id": f"{start}-{end}", "from": start, "to": end, "part": part, **more}


def zone(
    nodes: list[dict[str, Any]], pipes: list[dict[str, Any]], book: Catalogue = BOOK, **more: Any
) -> TakeOff:
    """Take-off of a lateral behind a valve that stands 10 m from the supply."""
    fixed = [node("S", (-20, 0), "supply"), node("V", (-10, 0), "valve", part="valve-25")]
    main = more.pop("main", "pvc-32")
    plan = make_plan(nodes=[*fixed, *nodes], pipes=[pipe("S", "V", main), *pipes], **more.pop("layout", {}))
    return take_off(plan, make_report(plan), book, more.pop("settings", TakeoffSettings()))


def counts(takeoff: TakeOff, *roles: str) -> dict[str, int]:
    return {role: int(takeoff.net(role)) for role in roles if takeoff.net(role)}


def stretch(name: str, metres: float, method: Any, **more: Any) -> TrenchStretch:
    usual: dict[str, Any] = {"depth_m": 0.3, "soil": "loam", "surface": "", "role": "lateral"}
    facts = {**usual, **more}
    return TrenchStretch(
        name, ((0, 0), (metres, 0)), metres, method, facts["depth_m"], facts["role"], ("S-V",), (),
        facts["soil"], facts["surface"], "",
    )  # fmt: skip
