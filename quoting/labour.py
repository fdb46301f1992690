"""From quantities to person-hours and days of hired plant."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import ROUND_CEILING, Decimal

from design.report import CheckReport, TrenchStretch
from quoting.money import round_money
from quoting.production_rates import Rate, hours_for
from quoting.takeoff.quantities import TakeOff, decimal_of, distinct, plain

ZERO, ONE = Decimal(0), Decimal(1)


def _soil_factors() -> dict[str, Decimal]:
    # common practice, no source; soil that nobody felt counts as clay
    return {"clay": Decimal("1.5"), "clay_loam": Decimal("1.25"), "": Decimal("1.5")}


@dataclass(frozen=True)
class LabourSettings:
    """Every default is common practice, no source."""

    crew_size: int = 2
    hours_per_day: Decimal = Decimal(8)
    setup_hours: Decimal = Decimal(1)  # each person, each day
    travel_hours: Decimal = Decimal("0.5")  # each person, each day, there and back
    carrying_share: Decimal = Decimal("0.125")  # carrying, weather, breaks
    smallest_job_days: Decimal = Decimal(1)  # of the whole crew
    day_overrun_share: Decimal = Decimal("0.05")  # of a crew's day: less is done in the days before
    machine_access: bool = True  # a gate under 0.9 m lets no trencher in
    soil_factor: Mapping[str, Decimal] = field(default_factory=_soil_factors)
    deep_hand_factor: Decimal = Decimal("0.6")  # on the rate, for each 0.15 m beyond 0.30 m
    hire_from_days: Decimal = Decimal("0.5")


@dataclass(frozen=True)
class LabourLine:
    """Hours of one kind of work, with what they would be on a good and on a bad day."""

    work: str
    section: str
    label: str
    amount: Decimal
    unit: str
    hours: Decimal
    good_hours: Decimal
    bad_hours: Decimal
    where: tuple[str, ...]
    how: str


@dataclass(frozen=True)
class PlantLine:
    """A machine hired by the day, in halves."""

    work: str
    label: str
    days: Decimal
    where: tuple[str, ...]
    how: str


@dataclass(frozen=True)
class Task:
    """So much of one kind of work; ``factor`` multiplies the hours for soil and depth."""

    work: str
    section: str
    amount: Decimal
    where: tuple[str, ...]
    factor: Decimal = ONE


def labour_lines(
    takeoff: TakeOff,
    report: CheckReport,
    rates: Mapping[str, Rate],
    settings: LabourSettings | None = None,
) -> tuple[LabourLine, ...]:
    """Hours by kind of work, then for carrying and weather, set-up, travel, and the smallest job.

    Raises LookupError naming the work for which ``rates`` has nothing.
    """
    settings = settings or LabourSettings()
    by_work: dict[str, list[Task]] = {}
    for task in (*_ground_tasks(takeoff, report, settings), *_count_tasks(takeoff)):
        if task.amount > 0:
            by_work.setdefault(task.work, []).append(task)
    lines = [_line(tasks, _rate(rates, work)) for work, tasks in by_work.items()]
    if not lines:
        return ()
    lines.append(_share_line(lines, settings))
    return (*lines, *_day_lines(lines, settings))


def _ground_tasks(takeoff: TakeOff, report: CheckReport, settings: LabourSettings) -> Iterator[Task]:
    for stretch in report.trench:
        if stretch.method == "bore":
            continue
        metres = decimal_of(stretch.length_m)
        where = distinct((*stretch.pipes, *stretch.cables))
        work = _trench_work(stretch, settings)
        yield Task(work, "ground", metres, where, _hardness(stretch, work, settings))
        yield Task("backfill", "ground", metres, where)
    for role, work in (("bore_short", "bore-short"), ("bore_long", "bore-long"), ("turf", "turf")):
        yield Task(work, "ground", takeoff.net(role), takeoff.where(role))


def _trench_work(stretch: TrenchStretch, settings: LabourSettings) -> str:
    """The check asks for hand-digging only beside something buried."""
    if stretch.method == "hand":
        return "trench-near-service"
    return "trench-machine" if settings.machine_access else "trench-hand"


def _hardness(stretch: TrenchStretch, work: str, settings: LabourSettings) -> Decimal:
    factor = settings.soil_factor.get(stretch.soil, ONE)
    deeper = decimal_of(stretch.depth_m - 0.30)
    if work == "trench-machine" or deeper <= 0:
        return factor
    return factor / settings.deep_hand_factor ** (deeper / Decimal("0.15"))


# role of the quantity, work, section
_COUNTED: tuple[tuple[str, str, str], ...] = (
    ("drip_line", "drip", "heads"),
    ("set_rotor", "rotor", "heads"),
    ("set_head", "head", "heads"),
    ("valve", "valve", "valves"),
    ("valve_box", "box", "valves"),
    ("cable", "cable", "control"),
    ("connector", "splice", "control"),
    ("controller", "controller", "control"),
    ("rain_sensor", "sensor", "control"),
    ("stake_point", "stake-point", "commissioning"),
    ("zone", "flush-zone", "commissioning"),
)


def _count_tasks(takeoff: TakeOff) -> Iterator[Task]:
    for supplied in ("stick", "coil"):
        laid = [q for q in takeoff.of("pipe") if q.unit == supplied]
        metres = sum((q.net for q in laid), ZERO)
        yield Task(f"pipe-{supplied}", "pipe", metres, distinct(p for q in laid for p in q.where))
    for role, work, section in _COUNTED:
        yield Task(work, section, takeoff.net(role), takeoff.where(role))
    heads = takeoff.net("set_rotor", "set_head")
    yield Task("flush-head", "commissioning", heads, takeoff.where("set_rotor", "set_head"))
    once = takeoff.where("pipe", "head", "drip_line")
    for work in ("stake-out", "pressure-test", "handover"):
        yield Task(work, "commissioning", ONE if once else ZERO, once)


def _rate(rates: Mapping[str, Rate], work: str) -> Rate:
    if work not in rates:
        raise LookupError(f"There is no production rate for “{work}”; add one to the rates.")
    return rates[work]


def _line(tasks: Sequence[Task], rate: Rate) -> LabourLine:
    def hours(speed: Decimal) -> Decimal:
        each = (hours_for(t.amount, speed, rate.measure) * t.factor for t in tasks)
        return round_money(sum(each, ZERO))

    amount = sum((task.amount for task in tasks), ZERO)
    harder = ", more where it is hard or deep" if any(task.factor != 1 for task in tasks) else ""
    return LabourLine(
        work=tasks[0].work,
        section=tasks[0].section,
        label=rate.label,
        amount=amount,
        unit={"m/h": "m", "m2/h": "m2"}.get(rate.measure, "each"),
        hours=hours(rate.value),
        good_hours=hours(rate.good),
        bad_hours=hours(rate.bad),
        where=distinct(place for task in tasks for place in task.where),
        how=f"{_amount_words(amount, rate)} at {plain(rate.value)} {rate.measure}{_range(rate)}{harder}",
    )


def _amount_words(amount: Decimal, rate: Rate) -> str:
    if rate.measure not in ("m/h", "m2/h"):
        return plain(amount)
    return f"{plain(round_money(amount, 1))} {rate.measure.removesuffix('/h')}"


def _range(rate: Rate) -> str:
    if rate.good == rate.bad:
        return ""
    return f"; {plain(rate.good)} on a good day, {plain(rate.bad)} on a bad one"


def _share_line(lines: Sequence[LabourLine], settings: LabourSettings) -> LabourLine:
    share = settings.carrying_share
    return _extra(
        "carrying",
        "Carrying, weather and breaks",
        lambda pick: round_money(sum((pick(line) for line in lines), ZERO) * share),
        (lines, f"{share:.1%} of the hours above"),
    )


def _day_lines(lines: Sequence[LabourLine], settings: LabourSettings) -> Iterator[LabourLine]:
    """Set-up and travel for each person and day, and what is missing to the smallest job."""
    crew = settings.crew_size

    def days(pick: Callable[[LabourLine], Decimal]) -> Decimal:
        return days_on_site(sum((pick(line) for line in lines), ZERO), settings)

    told = f"{plain(days(_typical))} days, {crew} people"
    setup, travel = settings.setup_hours, settings.travel_hours
    yield _extra("set-up", "Setting up", lambda pick: round_money(days(pick) * crew * setup), (lines, told))
    if travel:
        yield _extra("travel", "Travel", lambda pick: round_money(days(pick) * crew * travel), (lines, told))
    fixed = settings.setup_hours + settings.travel_hours

    def short(pick: Callable[[LabourLine], Decimal]) -> Decimal:
        worked = sum((pick(line) for line in lines), ZERO) + days(pick) * crew * fixed
        return round_money(max(ZERO, settings.smallest_job_days * crew * settings.hours_per_day - worked))

    if short(_typical) > 0:
        told = f"no job is below {plain(settings.smallest_job_days)} crew day"
        yield _extra("smallest-job", "To a full day", short, (lines, told))


def crew_days(hours: Decimal, settings: LabourSettings) -> Decimal:
    """Whole days that hold so many hours, when each day begins with set-up and holds the travel."""
    net_day = settings.hours_per_day - settings.setup_hours - settings.travel_hours
    if net_day <= 0:
        raise ValueError("set-up and travel leave no time in a day; check the labour settings")
    return (hours / (settings.crew_size * net_day)).to_integral_value(ROUND_CEILING)


def days_on_site(hours: Decimal, settings: LabourSettings) -> Decimal:
    """Days that the crew comes: nobody drives out once more for less than a share of a day."""
    net_day = settings.hours_per_day - settings.setup_hours - settings.travel_hours
    left_over = settings.day_overrun_share * settings.crew_size * net_day
    return max(crew_days(hours - left_over, settings), min(ONE, crew_days(hours, settings)))


def _typical(line: LabourLine) -> Decimal:
    return line.hours


def _extra(
    work: str,
    label: str,
    hours: Callable[[Callable[[LabourLine], Decimal]], Decimal],
    told: tuple[Sequence[LabourLine], str],
) -> LabourLine:
    """Hours that follow from the others, worked out for the typical, the good and the bad day."""
    lines, how = told
    return LabourLine(
        work=work,
        section="commissioning",
        label=label,
        amount=hours(_typical),
        unit="h",
        hours=hours(_typical),
        good_hours=hours(lambda line: line.good_hours),
        bad_hours=hours(lambda line: line.bad_hours),
        where=distinct(place for line in lines for place in line.where),
        how=how,
    )


def plant_lines(
    labour: Sequence[LabourLine], settings: LabourSettings | None = None
) -> tuple[PlantLine, ...]:
    """The trencher for as many half days as its hours fill, and never for less than the least hire."""
    settings = settings or LabourSettings()
    digging = next((line for line in labour if line.work == "trench-machine"), None)
    if digging is None:
        return ()
    halves = (digging.hours / settings.hours_per_day * 2).to_integral_value(ROUND_CEILING)
    days = max(halves / 2, settings.hire_from_days)
    how = f"{plain(digging.hours)} h of trenching, by the half day"
    return (PlantLine("trencher", "Chain trencher", days, digging.where, how),)
