"""Rules on the shape of panels, and whether they tile the slab."""

from collections.abc import Iterator

import shapely
from shapely import Polygon

from kerfline.checks.closing import ClosedPanel
from kerfline.checks.measures import Measures
from kerfline.checks.panels import name_of, subject_of
from kerfline.checks.sources import SHAPE
from kerfline.geometry.corners import JOG, reentrant_corners
from kerfline.geometry.ends import knees
from kerfline.geometry.faces import SLIVER
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.rules.limits import Limits

ROUND_OPENING = "wraps round an opening {} wide"
ROUND_CORNER = "turns a corner {} deep"

STEP = 5.0
"""A bite shallower than this (mm), about the width of a cut, is no shape but how lines were drawn."""

TIP = 1.0
"""A panel's corner this near (mm) to the point of a diamond, or to a knee, is that point."""


def shape(measures: Measures, panel: ClosedPanel, limits: Limits) -> Iterator[Finding]:
    """No panel is L-shaped, T-shaped, hooked or wrapped round an opening."""
    bite = _bite(measures, panel, limits)
    if bite:
        depth, at, why = bite
        yield Finding(
            rule=Rule.SHAPE,
            severity=_bite_severity(depth, limits),
            at=at,
            subject=subject_of(measures, panel),
            measured=depth,
            limit=0.0,
            message=f"{name_of(measures, panel)} {why.format(measures.words.length(depth))}.",
            source=str(SHAPE),
            remedy=f"{_start(measures, why, at)} to the next edge or joint, or place bars across the "
            "corner; the engineer decides.",
        )


def tiling(measures: Measures) -> Iterator[Finding]:
    """The panels that the layout names are those that its joints close off."""
    if not measures.layout.panels:
        return
    closed = {p.id for p in measures.panels}
    for claim in measures.layout.panels:
        if claim.id not in closed:
            spot = claim.polygon.representative_point()
            at = (float(spot.x), float(spot.y))
            yield _not_closed(
                at,
                claim.id,
                f"No joints close off {claim.id} as it is drawn, near {measures.words.place(at)}.",
            )
    for panel in measures.panels:
        if not panel.id:
            where = measures.words.near(panel.middle)
            yield _not_closed(
                panel.middle,
                subject_of(measures, panel),
                f"The area round {where} is none of the panels that the layout names.",
            )


CHECKS = (tiling,)
PANEL_CHECKS = (shape,)


def _start(measures: Measures, why: str, at: Point) -> str:
    """Where the joint that mends a bite starts."""
    if why == ROUND_OPENING:
        return "Run joints from the corners of the opening"
    return f"Run a joint from {measures.words.place(at)}"


def _planned(measures: Measures, panel: ClosedPanel) -> shapely.MultiPoint:
    """Corners that make a panel no odd one: points of diamonds, and knees of joints that bend square."""
    tips = [p for c in measures.slab.columns for p in c.points]
    bends = [p for i in measures.joints_near(panel.polygon, TIP) for p in knees(measures.lines[i])]
    return shapely.MultiPoint([*tips, *bends])


def _bite(
    measures: Measures, panel: ClosedPanel, limits: Limits
) -> tuple[float, Point, str] | None:
    """The deepest bite out of a panel: depth, place and what it does to the panel."""
    full = panel.polygon.convex_hull
    if full.area - panel.polygon.area <= SLIVER:
        return None
    bites = (*_turns(measures, panel, limits), *_holes(measures, panel))
    return max((bite for bite in bites if bite[0] > STEP), default=None)


def _turns(
    measures: Measures, panel: ClosedPanel, limits: Limits
) -> Iterator[tuple[float, Point, str]]:
    """Re-entrant corners of a panel.

    Of a square boxout's corner without a joint the rule on corners tells; here it counts where it makes an L.
    """
    outer = Polygon(panel.polygon.exterior)
    hull = outer.convex_hull.boundary
    planned = _planned(measures, panel)
    for corner in reentrant_corners(outer):
        spot = shapely.Point(corner.at)
        depth = float(hull.distance(spot))
        odd = _is_an_l(depth, limits) or measures.square_at(corner.at) is None
        if odd and not shapely.dwithin(planned, spot, TIP):
            yield depth, corner.at, ROUND_CORNER


def _holes(measures: Measures, panel: ClosedPanel) -> Iterator[tuple[float, Point, str]]:
    """Openings wholly inside a panel; boxouts are left to the rule on columns."""
    for ring in panel.polygon.interiors:
        hole = Polygon(ring)
        inside = hole.representative_point()
        if not len(measures.boxout_tree.query(inside, "intersects")):
            wide = enclosing_rectangle(hole).width
            yield wide, (float(inside.x), float(inside.y)), ROUND_OPENING


def _bite_severity(depth: float, limits: Limits) -> Severity:
    """A jog is advice; a bite that makes an L is an error."""
    if depth <= JOG + MEASURE:
        return Severity.ADVICE
    return Severity.ERROR if _is_an_l(depth, limits) else Severity.WARNING


def _is_an_l(depth: float, limits: Limits) -> bool:
    """Whether a bite is as wide as a panel may be."""
    return depth > limits.width.bound + MEASURE


def _not_closed(at: Point, subject: str, message: str) -> Finding:
    return Finding(
        rule=Rule.SHAPE,
        severity=Severity.ERROR,
        at=at,
        subject=subject,
        measured=None,
        limit=None,
        message=message,
        source=str(SHAPE),
        remedy="Carry the joints round it on to the next edge or joint, or name the panels anew.",
    )
