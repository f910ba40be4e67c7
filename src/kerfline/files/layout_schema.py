"""The shape of ``NAME-layout.json``, schema ``kerfline-layout/1``.

The JSON Schema that is published beside this module is made from these classes (``published_schema``); a test
keeps it in step.
"""

from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from kerfline.files.published_schema import FromZero, Part, Spot, publish
from kerfline.model.finding import Rule, Severity
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import JointKind

SCHEMA = "kerfline-layout/1"
SCHEMA_FILE = "kerfline-layout-1.schema.json"

Ring = Annotated[list[Spot], Field(min_length=3, description="closed, first point not repeated")]
Line = Annotated[list[Spot], Field(min_length=2)]


class SlabPart(Part):
    """The concrete that the panels tile: boxouts are openings, or notches where they cut the edge.

    Where they part it, the outline is that of the whole slab and openings may reach over its edge and each other.
    """

    outline: Ring
    openings: list[Ring]
    thickness: Annotated[float, Field(gt=0, description="mm, outside zones")]


class LimitsPart(Part):
    """What the engine worked to; mm, ratio, mm, degrees."""

    span: FromZero
    aspect: FromZero
    width: FromZero
    angle: FromZero


class DowelsPart(Part):
    """The dowels of one construction joint; mm."""

    count: Annotated[int, Field(ge=0)]
    diameter: FromZero
    length: FromZero
    spacing: FromZero


class JointPart(Part):
    """One saw pass or bulkhead: a straight or arc line from end to end, not chopped at crossings."""

    id: str
    kind: JointKind
    path: Line
    length: FromZero
    hidden_length: Annotated[float, Field(ge=0, description="mm of it under walls")]
    depth: Annotated[float, Field(ge=0, description="mm; 0 where the joint is not sawn")]
    reason: Reason
    note: Annotated[str, Field(description="the reason in words; a length in braces is in mm")]
    dowels: Annotated[
        DowelsPart | None,
        Field(description="of a construction joint, where the job names a table of them"),
    ] = None


class PanelPart(Part):
    """A piece of slab bounded by edges and joints."""

    id: str
    outline: Ring
    openings: list[Ring]
    length: FromZero
    width: FromZero
    aspect: Annotated[
        float | None, Field(description="length / width; null where there is no width")
    ]
    area: Annotated[float, Field(ge=0, description="mm2")]
    status: Literal["ok", "warning", "error"]


class FindingPart(Part):
    """One rule held against one place."""

    rule: Rule
    severity: Severity
    at: Spot
    subject: str
    measured: Annotated[float | None, Field(description="mm, mm2, degrees or a ratio, by rule")]
    limit: float | None
    message: str
    source: str
    remedy: str


class TotalsPart(Part):
    """Sums over the layout."""

    joint_length: FromZero
    hidden_length: FromZero
    panels: Annotated[int, Field(ge=0)]
    tee_ends: Annotated[int, Field(ge=0)]
    free_ends: Annotated[int, Field(ge=0)]
    lines: Annotated[int, Field(ge=0, description="distinct chalk lines")]


class SolutionPart(Part):
    """How good the layout is; lengths of joint in mm."""

    status: Status
    cost: float
    bound: float
    gap: FromZero
    length_bound: FromZero
    through: Annotated[
        bool,
        Field(
            description="whether that holds only of layouts whose joints run from edge to edge, or to a joint at a wall, column or corner, as these do"
        ),
    ] = False
    seconds: Annotated[
        float | None,
        Field(description="time of the engine; null unless it was asked for, as it never repeats"),
    ]


class LayoutFile(Part):
    """Everything about one layout, lengths in mm, areas in mm2, in the drawing's own origin."""

    schema_: Annotated[Literal["kerfline-layout/1"], Field(alias="schema")]
    job: str
    run: Annotated[
        str,
        Field(
            description="the mark that all files of a run carry, and the date where one is given"
        ),
    ] = ""
    rule_set: str
    slab: SlabPart
    limits: LimitsPart | None
    joints: list[JointPart]
    panels: list[PanelPart]
    findings: list[FindingPart]
    totals: TotalsPart
    solution: SolutionPart
    walls_left: dict[str, str] = Field(
        default={},
        description="why each wall without a joint has none; a length in braces is in mm",
    )
    notes: list[str] = Field(
        default=[],
        description="what the user should read of the layout; a length in braces is in mm",
    )


if __name__ == "__main__":
    publish(LayoutFile, SCHEMA, Path(__file__).with_name(SCHEMA_FILE))
