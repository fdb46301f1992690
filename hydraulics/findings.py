"""What the check says: one finding per thing that is wrong or worth knowing."""

from dataclasses import dataclass, field
from enum import StrEnum


class Severity(StrEnum):
    STOP = "stop"  # must not be built like this
    WARN = "warn"  # a person has to decide
    NOTE = "note"  # worth knowing


@dataclass(frozen=True)
class Finding:
    """One sentence with its number.

    ``code`` is stable and ours, such as ``head.pressure.low``. ``measured`` and ``limit``
    are in ``unit``. ``where`` holds ids of plan entities. ``source`` is what the rule
    rests on: a publication, or ``common practice, no source``.
    """

    code: str
    severity: Severity
    where: tuple[str, ...]
    measured: float
    limit: float
    unit: str
    sentence: str
    source: str
    case: str = ""
    at: tuple[float, float] | None = field(default=None)
