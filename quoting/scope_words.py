"""What the customer gets, in plain sentences written from the plan and its check."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from design.document import BucketTest, ControllerNode, GaugeTest, HeadNode, Plan, ValveNode
from design.drawing.measures import flow_words, length_value, pressure_words
from design.drawing.options import Units
from design.report import AreaResult, CheckReport
from hydraulics.catalogue import BackflowPart, ControllerPart, DripPart, HeadPart, Part
from quoting.customer_words import DEVICES, FAMILIES

SQUARE_FEET = 10.7639104  # in a square metre; from the international foot
_DRIP = "drip area"


@dataclass(frozen=True)
class Subject:
    """A plan, its check, and the parts that it names."""

    plan: Plan
    report: CheckReport
    parts: Mapping[str, Part]
    units: Units

    @property
    def heads(self) -> list[HeadNode]:
        return [node for node in self.plan.layout.nodes if isinstance(node, HeadNode)]

    def family(self, head: HeadNode) -> str:
        """What a customer calls a head of that part."""
        part = self.parts.get(head.part)
        if isinstance(part, DripPart):
            return _DRIP
        return FAMILIES[part.family] if isinstance(part, HeadPart) else "head"


def promise(subject: Subject) -> str:
    """One sentence: what the customer gets."""
    names = [area.label or area.id for area in _watered(subject)]
    what = join_words(_with_article(name) for name in names) if names else "your garden"
    return f"A buried watering system for {what}, planned on the pressure and flow of your own supply."


def scope_sentences(subject: Subject) -> list[str]:
    """One sentence for each thing that is built."""
    steps = (_heads, _trench, _device_names)
    return [sentence for step in steps for sentence in step(subject)]


def figures(subject: Subject) -> list[dict[str, str]]:
    """Numbers to look at first."""
    watered = sum(area.watered_m2 for area in subject.report.areas)
    drip = [head for head in subject.heads if subject.family(head) == _DRIP]
    counts = (
        (len(subject.heads) - len(drip), "head"),
        (len(drip), _DRIP),
        (sum(isinstance(node, ValveNode) for node in subject.plan.layout.nodes), "valve"),
        (len(subject.report.zones), "zone"),
    )
    rows = [(str(count), word if count == 1 else f"{word}s") for count, word in counts if count]
    if watered:
        rows.insert(0, (area_words(watered, subject.units), "watered"))
    return [{"value": value, "label": label} for value, label in rows]


def water(subject: Subject) -> dict[str, str]:
    """What the supply gives, how much the busiest moment takes, and what that rests on."""
    supply, units = subject.report.supply, subject.units
    used = max((case.flow_lpm for case in subject.report.cases), default=0.0)
    note = f"Measured at your supply: {'; '.join(_readings(subject))}. The design relies on it."
    if supply.confidence != "measured":
        note += " We measure pressure and flow once more before the work begins."
    return {
        "available": flow_words(supply.design_flow_lpm, units),
        "used": flow_words(used, units) if used else "",
        "note": note,
    }


def _readings(subject: Subject) -> list[str]:
    """What was measured: pressure at rest, and one flow test of each kind, the weaker one."""
    supply, units = subject.plan.supply, subject.units
    found = [f"{pressure_words(supply.static_kpa, units)} with no water running"]
    gauges = [test for test in supply.tests if isinstance(test, GaugeTest)]
    if gauges:
        gauge = min(gauges, key=lambda test: test.residual_kpa)
        residual, flow = pressure_words(gauge.residual_kpa, units), flow_words(gauge.flow_lpm, units)
        found.append(f"{residual} while {flow} runs")
    buckets = [test.litres / test.seconds * 60 for test in supply.tests if isinstance(test, BucketTest)]
    if buckets:
        found.append(f"{flow_words(min(buckets), units)} into a bucket")
    return found


def areas(subject: Subject) -> list[dict[str, str]]:
    """The planted areas that are watered, their size, and by what."""
    return [
        {
            "label": area.label or area.id,
            "size": _extent(area, subject.units),
            "how": join_words([f"{family}s" for family in _families_in(subject, area.id)]),
        }
        for area in _watered(subject)
    ]


def not_watered(subject: Subject) -> list[str]:
    """Planted areas that no head reaches."""
    return [area.label or area.id for area in subject.report.areas if area.watered_m2 <= 0]


def area_words(square_metres: float, units: Units) -> str:
    if units == "us":
        return f"{square_metres * SQUARE_FEET:,.0f} sq ft"
    return f"{square_metres:,.0f} m²"


def count_words(count: int, word: str) -> str:
    return f"{count} {word}" + ("" if count == 1 else "s")


def join_words(words: Iterable[str]) -> str:
    rows = list(words)
    return " and ".join([", ".join(rows[:-1]), rows[-1]]) if len(rows) > 1 else "".join(rows)


def _with_article(name: str) -> str:
    """“Front lawn” becomes “the front lawn”; “Ida's bed” and “Bed 3 North” stay as they are."""
    words = name.split()
    looks_like_a_name = (
        not words or words[0].endswith(("'s", "’s")) or any(w[:1].isupper() for w in words[1:])
    )
    return name if looks_like_a_name else f"the {name[:1].lower()}{name[1:]}"


def _watered(subject: Subject) -> list[AreaResult]:
    return [area for area in subject.report.areas if area.watered_m2 > 0]


def _families_in(subject: Subject, area_id: str) -> list[str]:
    zoned = {head for zone in subject.report.zones if area_id in zone.areas for head in zone.heads}
    here = [h for h in subject.heads if h.area == area_id] or [h for h in subject.heads if h.id in zoned]
    return list(dict.fromkeys(subject.family(head) for head in here))


def _extent(area: AreaResult, units: Units) -> str:
    share = area.watered_m2 / area.area_m2 if area.area_m2 else 0
    whole = area_words(area.area_m2, units)
    return whole if share >= 0.99 else f"{share * 100:.0f} % of {whole}"


def _heads(subject: Subject) -> list[str]:
    families = Counter(subject.family(head) for head in subject.heads)
    if not families:
        return []
    words = join_words(count_words(n, word) for word, n in families.items())
    zones = len(subject.report.zones)
    parts = [subject.parts.get(head.part) for head in subject.heads]
    if all(isinstance(part, HeadPart) and part.own_valve for part in parts):
        words += " with its own valve" if len(parts) == 1 else ", each with its own valve,"
    tail = "opened by the controller" if zones == 1 else "each opened on its own by the controller"
    return [f"{words} in {count_words(zones, 'zone')}, {tail}."]


def _trench(subject: Subject) -> list[str]:
    stretches = subject.report.trench
    if not stretches:
        return []
    metres: dict[str, float] = {"machine": 0.0, "hand": 0.0, "bore": 0.0}
    for stretch in stretches:
        metres[stretch.method] += stretch.length_m
    pipe, dug = sum(pipe.length_m for pipe in subject.report.pipes), sum(metres.values())
    units = subject.units
    length, trench = round_length(pipe, units), round_length(dug, units)
    parts = [
        f"About {length} of pipe in "
        + ("as much trench" if length == trench else f"about {trench} of trench")
    ]
    if metres["hand"]:
        parts.append(f"{round_length(metres['hand'], units)} of it dug by hand")
    if metres["bore"]:
        parts.append(f"{round_length(metres['bore'], units)} bored under paving, which stays whole")
    return [", ".join(parts) + "."]


def round_length(metres: float, units: Units) -> str:
    """A length as one says it: whole metres or feet."""
    unit = "ft" if units == "us" else "m"
    whole = round(length_value(metres, units))
    return f"{whole} {unit}" if whole else f"less than 1 {unit}"


def _device_names(subject: Subject) -> list[str]:
    found = []
    for node in subject.plan.layout.nodes:
        part = subject.parts.get(node.part) if isinstance(node, ControllerNode) else None
        if isinstance(part, ControllerPart):
            found.append(f"A controller for up to {count_words(part.stations, 'zone')}.")
    backflow = subject.parts.get(subject.plan.supply.backflow or "")
    if isinstance(backflow, BackflowPart):
        device = DEVICES[backflow.device]
        article = "An" if device[0] in "aeiou" else "A"
        words = "keeps garden water out of your drinking water, fitted by a licensed plumber"
        found.append(f"{article} {device} that {words}.")
    return [" ".join(found)] if found else []
