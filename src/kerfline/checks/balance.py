"""Whether panels, openings and boxouts together are the slab as the job gives it.

Taken from the job's own rings, so that concrete which the rest of the program has lost sight of is missed
here. Whether the panels that a layout names are those that its joints close off is asked in ``shapes``.
"""

from collections.abc import Iterator

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.checks.measures import Measures
from kerfline.checks.sources import SHAPE
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import Slab

REMEDY = "Check the outline, openings and boxouts there; do not cut from this layout."


def balance(measures: Measures) -> Iterator[Finding]:
    """Panels + openings + boxouts = outline."""
    net = _net(measures.slab)
    # Faces of one linework share their sides to the last bit, which a union need not find out again.
    covered = shapely.coverage_union_all([p.polygon for p in measures.panels])
    for part in _wide(net.difference(covered)):
        yield _finding(measures, part, "lies in no panel")
    for part in _wide(covered.difference(net)):
        yield _finding(measures, part, "is no concrete, yet a panel covers it")


CHECKS = (balance,)


def _net(slab: Slab) -> BaseGeometry:
    """The outline without openings and boxouts, from what the job gives."""
    boxouts = [c.outline.polygon for c in slab.columns if c.outline]
    taken = shapely.union_all([*(o.polygon for o in slab.openings), *boxouts])
    return slab.outline.polygon.difference(taken)


def _wide(shape: shapely.Geometry) -> list[Polygon]:
    """The parts of a shape that are wider than the gap at a joint's end may be."""
    return [part for part in polygons_of(shape) if part.area > TOUCH * part.length / 2]


def _finding(measures: Measures, part: Polygon, what: str) -> Finding:
    spot = part.representative_point()
    at = (float(spot.x), float(spot.y))
    words = measures.words
    return Finding(
        rule=Rule.SHAPE,
        severity=Severity.ERROR,
        at=at,
        subject=f"area at {words.near(at)}",
        measured=None,
        limit=None,
        message=f"An area of {words.area(part.area)} at {words.near(at)} {what}.",
        source=str(SHAPE),
        remedy=REMEDY,
    )
