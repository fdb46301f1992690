"""The readings of a measured ground as they are kept: each as it was typed, beside its value in SI.

Three documents, each saved by itself: ``PlaneSurvey`` (marks, ties, walks, offsets, tapes, outlines),
``LevelSurvey`` (spot heights, falls, hand-level readings) and ``TraceSurvey`` (pictures drawn over).
Points go by name; a name that several readings give is one point.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(min_length=1, max_length=20, pattern=r"^[A-Za-z0-9][A-Za-z0-9_.\-]*$")]
# no control characters: neither a database nor a drawing takes them
_PRINTABLE = r"^[^\x00-\x1f\x7f]*$"
Label = Annotated[str, Field(max_length=120, pattern=_PRINTABLE)]
Text = Annotated[str, Field(max_length=60, pattern=_PRINTABLE)]
Side = Literal["left", "right"]
Becomes = Literal["area", "surface", "service", "boundary"]
Rows = Field(max_length=400)


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Length(_Model):
    """``text`` as typed, ``m`` in metres."""

    text: Text
    m: Annotated[float, Field(ge=-5000, le=5000)]


class Angle(_Model):
    """``text`` as typed (N26°10'E, 116.5), ``deg`` in degrees, clockwise from north for a bearing."""

    text: Text
    deg: Annotated[float, Field(ge=-360, le=360)]


class AreaFigure(_Model):
    text: Text
    m2: Annotated[float, Field(gt=0, le=1e7)]


class MarkRow(_Model):
    """A fixed point. Set by east and north (both blank: 0, 0), or by a distance from another mark.

    A blank bearing is due east, so the first two marks make the baseline.
    """

    name: Name
    label: Label = ""
    east: Length | None = None
    north: Length | None = None
    off: Name | None = None
    distance: Length | None = None
    bearing: Angle | None = None


class TieRow(_Model):
    """Two tapes; ``side`` as seen from ``first``, facing ``second``."""

    point: Name
    first: Name
    first_tape: Length
    second: Name
    second_tape: Length
    side: Side


class LegRow(_Model):
    """A stretch walked to ``point``: by bearing, or by turn from the leg before (0 is straight on)."""

    point: Name
    length: Length
    bearing: Angle | None = None
    turn: Angle | None = None
    turn_side: Side | None = None


class WalkRow(_Model):
    """Legs from ``start``. ``closes_on`` names the point where the walk should have ended; none: open."""

    start: Name
    legs: Annotated[list[LegRow], Rows]
    closes_on: Name | None = None
    compass_rule: bool = False
    by_wheel: bool = True


class OffsetRow(_Model):
    point: Name
    start: Name
    end: Name
    chainage: Length
    offset: Length
    side: Side


class TapeRow(_Model):
    """One more tape between two points, such as a side or a diagonal."""

    first: Name
    second: Name
    tape: Length


class OutlineRow(_Model):
    """Points in order that become part of the ground. ``kind`` is the cover, surface or service kind."""

    id: Name
    label: Label = ""
    becomes: Becomes
    kind: Annotated[str, Field(max_length=20)] = ""
    points: Annotated[list[Name], Rows]
    depth: Length | None = None


class WheelRow(_Model):
    """What the wheel shows over a taped length, and its way round the boundary."""

    taped: Length | None = None
    shown: Length | None = None
    way_round: Length | None = None
    round_what: Name | None = None  # id of the outline that it went round


class PlaneSurvey(_Model):
    marks: Annotated[list[MarkRow], Rows] = []
    ties: Annotated[list[TieRow], Rows] = []
    walks: Annotated[list[WalkRow], Field(max_length=20)] = []
    offsets: Annotated[list[OffsetRow], Rows] = []
    tapes: Annotated[list[TapeRow], Rows] = []
    outlines: Annotated[list[OutlineRow], Rows] = []
    wheel: WheelRow | None = None
    confirmed: Annotated[list[Annotated[str, Field(max_length=120, pattern=_PRINTABLE)]], Rows] = []


class SpotRow(_Model):
    """Height of a point above the site's zero."""

    point: Name
    height: Length


class FallRow(_Model):
    """From ``first`` down to ``second`` by ``fall`` (up with a minus), or by per cent of the way."""

    first: Name
    second: Name
    fall: Length | None = None
    fall_pct: Annotated[float, Field(ge=-100, le=100)] | None = None
    fall_text: Text = ""


class SightRow(_Model):
    point: Name
    reading: Length


class LevelSetup(_Model):
    """A hand level on one stand: the staff read on a known point, then on others."""

    known: Name
    known_reading: Length
    sights: Annotated[list[SightRow], Rows]


class LevelSurvey(_Model):
    spots: Annotated[list[SpotRow], Rows] = []
    falls: Annotated[list[FallRow], Rows] = []
    setups: Annotated[list[LevelSetup], Field(max_length=50)] = []


Pixel = tuple[float, float]  # right and down from the upper left corner


class ScaleBar(_Model):
    """Two places of the picture, the length between them, and the survey's points there, if any."""

    first_px: Pixel
    second_px: Pixel
    length: Length | None = None  # none where both points are known
    first: Name | None = None
    second: Name | None = None
    bearing: Angle | None = None  # from first to second, where no two points are known; none: due east


class KnownPixel(_Model):
    """One more point of the survey, seen in the picture."""

    point: Name
    at_px: Pixel


class TracedOutline(_Model):
    id: Name
    label: Label = ""
    becomes: Becomes
    kind: Annotated[str, Field(max_length=20)] = ""
    pixels: Annotated[list[Pixel], Field(min_length=1, max_length=500)]
    depth: Length | None = None


class Trace(_Model):
    """One picture. ``scale`` fixes it to the ground; ``check`` is measured against it.

    With ``slanted`` all points that the survey knows, four at the least, fix it instead.
    """

    picture: int  # key of the stored picture
    scale: ScaleBar | None = None
    check: ScaleBar | None = None
    known: Annotated[list[KnownPixel], Field(max_length=40)] = []
    slanted: bool = False
    outlines: Annotated[list[TracedOutline], Field(max_length=100)] = []


class TraceSurvey(_Model):
    traces: Annotated[list[Trace], Field(max_length=10)] = []
