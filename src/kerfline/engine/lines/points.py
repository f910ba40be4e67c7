"""What asks for a joint at a point: columns and penetrations, each with what it costs to miss it."""

from typing import assert_never

from kerfline.engine.measure.cost import feet
from kerfline.engine.options import Weights
from kerfline.engine.regions.asking import Shy, Target
from kerfline.engine.regions.region import Region
from kerfline.model.layout import Reason
from kerfline.model.slab import Meeting, Penetration, PenetrationKind

LARGE = 76.2
"""Pipes from this diameter (mm, 3 in) on ask for a joint through them (common practice)."""


def targets_of(region: Region, weights: Weights) -> tuple[Target, ...]:
    """The points that joints should run through."""
    columns = [
        Target(
            at=c.at,
            reason=Reason.COLUMN,
            weight=feet(weights.column_inside),
            note=f"column {c.id}",
        )
        for c in region.columns
    ]
    pipes = [
        Target(
            at=p.at,
            reason=Reason.PENETRATION,
            weight=feet(worth(p, weights)),
            note=f"penetration {p.id}",
        )
        for p in region.penetrations
        if p.meeting is not Meeting.CLEAR
    ]
    return (*columns, *pipes)


def shies_of(region: Region, weights: Weights) -> tuple[Shy, ...]:
    """The points that joints pass through or stay clear of."""
    return tuple(
        Shy(
            at=p.at,
            clear=p.clear,
            through=p.meeting is not Meeting.CLEAR,
            weight=feet(weights.penetration_near),
        )
        for p in region.penetrations
    )


def worth(pipe: Penetration, weights: Weights) -> float:
    """What it costs, in feet of joint, where no joint runs through a penetration."""
    match pipe.meeting:
        case Meeting.THROUGH:
            return weights.penetration
        case Meeting.AUTO:
            asks = pipe.kind is PenetrationKind.DRAIN or pipe.diameter >= LARGE
            return weights.penetration_auto if asks else 0.0
        case Meeting.CLEAR:
            return 0.0
    assert_never(pipe.meeting)
