"""Speed of the water in each pipe."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, Limits
from hydraulics.rules.rule import Place, Rule, finding

RULE = Rule(
    code="pipe.velocity.high",
    judges="mean velocity in a pipe while its case runs",
    limit="warn above 1.5 m/s, stop above 2.1 m/s",
    severities=(Severity.WARN, Severity.STOP),
    unit="m/s",
    source="from memory: 5 ft/s and 7 ft/s",
)


@dataclass(frozen=True)
class PipeFlow:
    id: str
    case: str
    flow_lpm: float
    velocity_mps: float


def pipe_velocity(pipes: Iterable[PipeFlow], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """One finding per pipe and case that runs too fast."""
    return [_judge(pipe, limits) for pipe in pipes if abs(pipe.velocity_mps) > limits.pipe_velocity_warn_mps]


def _judge(pipe: PipeFlow, limits: Limits) -> Finding:
    speed = abs(pipe.velocity_mps)
    stop = speed > limits.pipe_velocity_stop_mps
    limit = limits.pipe_velocity_stop_mps if stop else limits.pipe_velocity_warn_mps
    sentence = (
        f"Water runs at {speed:.2f} m/s in pipe {pipe.id} ({abs(pipe.flow_lpm):.1f} L/min), "
        f"more than {limit:.1f} m/s; take the next larger pipe."
    )
    severity = Severity.STOP if stop else Severity.WARN
    return finding(RULE, severity, Place((pipe.id,), pipe.case), (speed, limit), sentence)
