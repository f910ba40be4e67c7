"""The pieces that a slab is laid out in, each in the frame of its own main direction."""

from shapely import Polygon

from kerfline.engine.oblique.directions import Direction, main_directions, misfit
from kerfline.engine.options import EngineOptions
from kerfline.engine.placing import placed_region
from kerfline.engine.region import PlacedRegion, turned_shape
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

SQUARE_SHARE = 0.97
"""Share of a piece's edges along its main direction from which the exact square method may take it."""

LEVEL = 0.02
"""A direction this close (degrees) to the slab's own axes is taken for them."""


def regions_of(slab: Slab, rules: SlabRules, options: EngineOptions) -> tuple[PlacedRegion, ...]:
    """Splits a slab into regions, each in its own frame.

    Args:
        slab: The slab.
        rules: The limits.
        options: What the user chose.
    """
    directions = main_directions(slab.gross, [w.line for w in slab.walls])
    angle = frame_angle(slab.gross, directions[0])
    orthogonal = directions[0].share >= SQUARE_SHARE
    return (
        placed_region(slab, rules, options, gross=slab.gross, angle=angle, orthogonal=orthogonal),
    )


def frame_angle(piece: Polygon, direction: Direction) -> float:
    """The angle of a frame's x axis, so that a turned slab has the same frame turned.

    Of the four axes along a direction the one along the longer side of the piece is taken, and of
    its two ways the one towards the lighter half. A slab that lies along the axes stays as it is.
    """
    if misfit(direction.angle, 0.0) < LEVEL:
        return 0.0
    angle = direction.angle
    x0, y0, x1, y1 = turned_shape(piece, -angle).bounds
    if y1 - y0 > x1 - x0 + 1.0:
        angle += 90.0
    seen = turned_shape(piece, -angle)
    x0, _, x1, _ = seen.bounds
    return angle + 180.0 if seen.centroid.x > (x0 + x1) / 2 + 1.0 else angle
