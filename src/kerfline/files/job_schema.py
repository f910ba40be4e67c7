"""The tables of a job file: which keys there are and what kind of value each takes."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from kerfline.files.job_values import (
    Angle,
    Length,
    LengthFromZero,
    Number,
    NumberFromZero,
    Percent,
    PictureName,
    PicturePoint,
    PlanPoint,
    PointOrPath,
    PositiveLength,
    PositiveNumber,
    RingPoint,
    Scale,
    Share,
    SiteName,
    Text,
    Words,
)
from kerfline.model.layout import Reason
from kerfline.model.site import LARGEST_RESIDUAL
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    EdgeKind,
    FallJoints,
    JointKind,
    Meeting,
    PatternKind,
    PenetrationKind,
)
from kerfline.model.tracing import FADE
from kerfline.units import SiteUnit, Unit


class _Table(BaseModel):
    """A table that takes only the keys it knows, and no value of a wrong kind."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


def _word() -> object:
    """One word of a list; an enumeration must be allowed to come as text."""
    return Field(strict=False)


MOST_SEGMENTS = 1_000_000
"""No ring has more, so that a number beyond is a slip of the pen."""

Name = Annotated[str, Field(min_length=1)]
Index = Annotated[int, Field(ge=0, le=MOST_SEGMENTS)]
Path = Annotated[list[PlanPoint], Field(min_length=2)]
BentPath = Annotated[list[RingPoint], Field(min_length=2)]
RingPoints = Annotated[list[RingPoint], Field(min_length=1)]


class JobTable(_Table):
    """``[job]``."""

    name: Name
    units: Annotated[Unit, _word()]


class SlabTable(_Table):
    """``[slab]``."""

    thickness: PositiveLength
    level: Length | None = None
    outline: RingPoints | None = None
    openings: list[RingPoints] = []


class DrawingTable(_Table):
    """``[drawing]``: a drawing and its layers by what they hold, wildcards allowed.

    ``page`` and ``scale`` are said of a PDF, ``storey`` of a building model, layers of all but that one.
    """

    file: Name
    units: Annotated[Unit | None, _word()] = None
    page: Annotated[int, Field(ge=1)] | None = None
    scale: str = ""
    storey: str = ""
    outline: Words = []
    openings: Words = []
    walls: Words = []
    columns: Words = []
    penetrations: Words = []
    joints: Words = []
    keep_outs: Words = []
    repair: LengthFromZero | None = None


class WallTable(_Table):
    """``[[wall]]``."""

    id: Name | None = None
    path: Path
    thickness: PositiveLength | None = None
    bearing: bool = False
    strip_width: LengthFromZero = 0.0
    strip_depth: LengthFromZero = 0.0
    strip_slope: NumberFromZero = 0.0
    bearing_rule: Annotated[BearingRule, _word()] = BearingRule.BESIDE


class ColumnTable(_Table):
    """``[[column]]``."""

    id: Name | None = None
    at: PlanPoint
    boxout: Annotated[Boxout, _word()] = Boxout.DIAMOND
    size: PositiveLength | None = None
    turn: Angle = 0.0


class PenetrationTable(_Table):
    """``[[penetration]]``."""

    id: Name | None = None
    at: PlanPoint
    diameter: LengthFromZero = 0.0
    kind: Annotated[PenetrationKind, _word()] = PenetrationKind.PIPE
    meeting: Annotated[Meeting, _word()] = Meeting.AUTO
    clear: LengthFromZero | None = None


class ZoneTable(_Table):
    """``[[zone]]``."""

    id: Name | None = None
    outline: RingPoints
    thickness: PositiveLength
    joint_at_border: bool = True
    level: Length | None = None


class KeepOutTable(_Table):
    """``[[keep_out]]``."""

    id: Name | None = None
    outline: RingPoints
    what: Name = "keep-out"
    cover: LengthFromZero | None = None


class EdgeTable(_Table):
    """``[[edge]]``: one segment of a ring, or all of them where none is named."""

    ring: Index = 0
    segment: Index | None = None
    kind: Annotated[EdgeKind, _word()]
    depth: LengthFromZero = 0.0
    width: LengthFromZero = 0.0
    slope: NumberFromZero = 0.0


class JointTable(_Table):
    """``[[joint]]``: a joint that is given, there already, or forbidden."""

    id: Name | None = None
    path: BentPath
    kind: Annotated[JointKind, _word()] = JointKind.CONTROL
    forbidden: bool = False
    existing: bool = False
    depth: LengthFromZero | None = None
    reason: Annotated[Reason | None, _word()] = None
    note: str = ""


class PatternTable(_Table):
    """``[[pattern]]``."""

    id: Name | None = None
    area: RingPoints
    kind: Annotated[PatternKind, _word()] = PatternKind.SQUARE
    along: Annotated[list[PlanPoint], Field(min_length=2, max_length=2)] | None = None
    spacing: PositiveLength | None = None


class FallTable(_Table):
    """``[[fall]]``: an area that falls to a drain; ``to`` is its point, or the points of a channel."""

    id: Name | None = None
    area: RingPoints
    to: Annotated[PointOrPath, Field(min_length=1)]
    joints: Annotated[FallJoints, _word()] = FallJoints.BOTH
    slope: Percent | None = None


class RulesTable(_Table):
    """``[rules]``."""

    set: Name = "floor"
    to_maximum: bool = False
    file: Name | None = None
    overrides: dict[str, object] = {}


class MixTable(_Table):
    """``[mix]``."""

    slump: LengthFromZero | None = None
    aggregate: PositiveLength | None = None


class CutTable(_Table):
    """``[cut]``."""

    method: Name = "conventional"
    depth: PositiveLength | None = None


class FieldsTable(_Table):
    """``[sheet.fields]``: the blanks of the title block."""

    project: Text | None = None
    number: Text | None = None
    owner: Text | None = None
    firm: Text | None = None
    type: Text | None = None
    drawn: Text | None = None
    checked: Text | None = None
    approved: Text | None = None
    date: Text | None = None
    revision: Text | None = None


class CutAreaTable(_Table):
    """``[[sheet.area]]``: a part of the slab that has a cut sheet of its own."""

    name: Name
    outline: RingPoints


class SheetTable(_Table):
    """``[sheet]``."""

    size: str = ""
    scale: Scale | None = None
    north: Angle = 0.0
    fields: FieldsTable = FieldsTable()
    area: list[CutAreaTable] = []


class ControlTable(_Table):
    """``[[site.point]]``: a point that is known on the plan and on site."""

    name: SiteName
    plan: PlanPoint
    easting: Number
    northing: Number
    height: Number | None = None


class SiteTable(_Table):
    """``[site]``: how the plan lies on the ground; eastings, northings and heights in its own unit."""

    point: Annotated[list[ControlTable], Field(min_length=2)]
    units: Annotated[SiteUnit | None, _word()] = None
    scale: PositiveNumber | Literal["fit"] = 1.0
    limit: PositiveLength = LARGEST_RESIDUAL
    level: Number | None = None
    first: Literal["northing", "easting"] = "northing"


class TracingTable(_Table):
    """``[tracing]``: a picture beside the job that lies under the drawing on the page, and on no sheet."""

    file: PictureName
    page: Index = 0
    size: PicturePoint
    picture: Annotated[list[PicturePoint], Field(min_length=2, max_length=4)]
    plan: Annotated[list[PlanPoint], Field(min_length=2, max_length=4)]
    fade: Share = FADE
    shown: bool = True
    locked: bool = False


class EngineTable(_Table):
    """``[engine]``."""

    effort: PositiveNumber = 5.0
    weights: dict[str, NumberFromZero] = {}


class JobFile(_Table):
    """The whole file."""

    job: JobTable
    slab: SlabTable
    drawing: DrawingTable | None = None
    wall: list[WallTable] = []
    column: list[ColumnTable] = []
    penetration: list[PenetrationTable] = []
    zone: list[ZoneTable] = []
    keep_out: list[KeepOutTable] = []
    edge: list[EdgeTable] = []
    joint: list[JointTable] = []
    pattern: list[PatternTable] = []
    fall: list[FallTable] = []
    rules: RulesTable = RulesTable()
    mix: MixTable = MixTable()
    cut: CutTable = CutTable()
    sheet: SheetTable = SheetTable()
    site: SiteTable | None = None
    tracing: TracingTable | None = None
    engine: EngineTable = EngineTable()
    day: dict[str, object] = {}
