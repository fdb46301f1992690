"""A sizing as plain text, for the command line."""

from collections.abc import Iterator

from design.sizing_result import CENT, SizingResult, WorstHead


def sizing_text(result: SizingResult) -> str:
    """Lines of text with a line end."""
    return "\n".join(_lines(result)) + "\n"


def _lines(result: SizingResult) -> Iterator[str]:
    for sentence in result.before:
        yield f"As drawn: {sentence}"
    if not result.is_found:
        yield "With the widest pipes that there are:"
        yield from (f"  {sentence}" for sentence in result.shortfalls)
    elif not result.changes:
        yield "Nothing to change."
    for change in result.changes if result.is_found else ():
        money = f"{change.cost_before.quantize(CENT)} -> {change.cost_after.quantize(CENT)}"
        yield f"{change.pipe}: {change.before} -> {change.after}, {change.length_m:.2f} m, {money}"
    if result.is_found:
        yield f"Pipe: {result.cost_before.quantize(CENT)} -> {result.cost_after.quantize(CENT)}"
        yield f"Lower bound: {result.lower_bound.quantize(CENT)}, gap {result.gap_pct:.1f} %"
    yield from _heads(result)
    yield from (f"Left: {pipe.pipe} ({pipe.part}), {pipe.why}" for pipe in result.left)
    yield result.proof
    yield f"{result.rounds} rounds, {result.seconds:.2f} s"


def _heads(result: SizingResult) -> Iterator[str]:
    named: tuple[tuple[str, WorstHead | None], ...] = (
        ("as drawn", result.worst_before), ("sized", result.worst_after),
    )  # fmt: skip
    for name, head in named:
        if head is not None:
            yield (
                f"Worst head {name}: {head.head} in case “{head.case}”, {head.pressure_kpa:.1f} kPa of "
                f"{head.least_kpa:.0f} kPa"
            )
