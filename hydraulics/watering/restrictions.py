"""When water may run: allowed days and hours, and a cap on the month's water."""

from dataclasses import dataclass

from hydraulics.errors import HydraulicsError

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
DAY_MIN = 24 * 60


class BadRestrictions(HydraulicsError):
    """Restrictions that nobody could keep; the message says why."""


@dataclass(frozen=True)
class Restrictions:
    """``weekdays`` count from 0 on Monday. Hours are minutes after midnight; they may pass midnight.

    Without hours the whole day is open. ``monthly_cap_l`` is none where nobody set one.
    """

    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4, 5, 6)
    from_min: int | None = None
    to_min: int | None = None
    monthly_cap_l: float | None = None

    def __post_init__(self) -> None:
        if not self.weekdays or list(self.weekdays) != sorted(set(self.weekdays)):
            raise BadRestrictions("at least one weekday must be allowed, each once and in order")
        if not set(self.weekdays) <= set(range(7)):
            raise BadRestrictions("weekdays count from 0 on Monday to 6 on Sunday")
        if (self.from_min is None) != (self.to_min is None):
            raise BadRestrictions("hours need both a beginning and an end")
        if self.from_min is not None and self.from_min == self.to_min:
            raise BadRestrictions("the hours begin and end at the same minute; leave both empty for all day")
        if self.monthly_cap_l is not None and not self.monthly_cap_l > 0:
            raise BadRestrictions("a monthly cap must be above zero")

    @property
    def window_min(self) -> int:
        """Minutes in which water may run on an allowed day."""
        if self.from_min is None or self.to_min is None:
            return DAY_MIN
        return (self.to_min - self.from_min) % DAY_MIN

    @property
    def begins_min(self) -> int:
        return self.from_min or 0

    def spread(self, days: int, shift: int = 0) -> tuple[int, ...]:
        """That many of the allowed weekdays, evenly apart; ``shift`` begins with a later one."""
        allowed = len(self.weekdays)
        places = {(shift + place * allowed // days) % allowed for place in range(min(days, allowed))}
        return tuple(self.weekdays[place] for place in sorted(places))
