"""Rules on the panels: span, aspect, width, area, shape, and whether they tile the slab."""

import math
from collections.abc import Iterator

import shapely
from shapely import Polygon

from kerfline.checks.closing import ClosedPanel
from kerfline.checks.grading import Grade, above, below
from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE
from kerfline.checks.sources import JOG, SHAPE
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.ends import STRAIGHT_ON
from kerfline.geometry.faces import SLIVER
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, RATIO, SAME
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.rules.limits import Limits

HALF_TURN = 180.0
TIP = 1.0
"""A panel's corner this near (mm) to the point of a diamond is that point."""


def span(measures: Measures) -> Iterator[Finding]:
    """No panel is longer than the rule set's span at its thickness."""
    words = measures.words
    for panel, limits in _panels(measures):
        grade = above(panel.box.length, limits.span, MEASURE)
        if grade:
            bays = math.ceil(panel.box.length / limits.span.advised - SAME)
            yield _finding(
                measures,
                panel,
                Rule.SPAN,
                grade,
                measured=panel.box.length,
                message=f"{_name(measures, panel)} is {words.length(panel.box.length)} long; "
                f"{_kind(grade)} {words.length(grade.limit)} at {words.depth(limits.thickness)} thick.",
                remedy=f"Divide its length into {bays} bays of "
                f"{words.length(panel.box.length / bays)} or so.",
            )


def aspect(measures: Measures) -> Iterator[Finding]:
    """No panel is too long for its width."""
    words = measures.words
    for panel, limits in _panels(measures):
        grade = above(panel.box.aspect, limits.aspect, RATIO)
        if grade:
            bays = math.ceil(panel.box.aspect / grade.limit - RATIO)
            yield _finding(
                measures,
                panel,
                Rule.ASPECT,
                grade,
                measured=panel.box.aspect,
                message=f"{_name(measures, panel)}, {_size(measures, panel)}, is "
                f"{panel.box.aspect:.2f} times as long as wide; {_kind(grade)} {grade.limit:g}.",
                remedy=f"Divide its length into {bays} bays of "
                f"{words.length(panel.box.length / bays)} or so, or make it wider.",
            )


def width(measures: Measures) -> Iterator[Finding]:
    """No panel is narrower than the least width; where the slab itself is, that is advice."""
    words = measures.words
    for panel, limits in _panels(measures):
        grade = below(panel.box.width, limits.width, MEASURE)
        if not grade:
            continue
        cut = _cut_lengthwise(measures, panel)
        own = Grade(severity=Severity.ADVICE, limit=grade.limit, source=grade.source)
        yield _finding(
            measures,
            panel,
            Rule.WIDTH,
            grade if cut else own,
            measured=panel.box.width,
            message=f"{_name(measures, panel)} is {words.length(panel.box.width)} wide; "
            f"the least {_step(grade)} is {words.length(grade.limit)}"
            f"{'' if cut else ', and the slab itself is no wider here'}.",
            remedy="Move or leave out a joint along it so that it joins its neighbour."
            if cut
            else "Widen the slab here or reinforce it, as the engineer decides.",
        )


def area(measures: Measures) -> Iterator[Finding]:
    """No panel is larger than the rule set's area, where it has one."""
    words = measures.words
    for panel, limits in _panels(measures):
        figure = limits.area
        grade = above(panel.polygon.area, figure, MEASURE * panel.box.length) if figure else None
        if grade:
            yield _finding(
                measures,
                panel,
                Rule.AREA,
                grade,
                measured=float(panel.polygon.area),
                message=f"{_name(measures, panel)} is {words.area(panel.polygon.area)} large; "
                f"{_kind(grade)} {words.area(grade.limit)}.",
                remedy="Divide it by a joint across its length.",
            )


def shape(measures: Measures) -> Iterator[Finding]:
    """No panel is L-shaped, T-shaped, hooked or wrapped round an opening."""
    tips = _tips(measures)
    for panel, limits in _panels(measures):
        bite = _bite(measures, panel, tips)
        if bite:
            depth, at, why = bite
            yield Finding(
                rule=Rule.SHAPE,
                severity=_bite_severity(depth, limits),
                at=at,
                subject=_subject(measures, panel),
                measured=depth,
                limit=0.0,
                message=f"{_name(measures, panel)} {why} {measures.words.length(depth)} deep.",
                source=str(SHAPE),
                remedy=f"Run a joint from {measures.words.place(at)} to the next edge or joint, or place "
                "bars across the corner; the engineer decides.",
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
            yield _not_closed(at, claim.id, f"No joints close off {claim.id} as it is drawn, near "
                              f"{measures.words.place(at)}.")  # fmt: skip
    for panel in measures.panels:
        if not panel.id:
            where = measures.words.place(panel.middle)
            yield _not_closed(panel.middle, _subject(measures, panel),
                              f"The area round {where} is none of the panels that the layout names.")  # fmt: skip


CHECKS = (span, aspect, area, width, shape, tiling)


def _panels(measures: Measures) -> Iterator[tuple[ClosedPanel, Limits]]:
    for panel, thickness in zip(measures.panels, measures.thicknesses, strict=True):
        yield panel, measures.limits(thickness)


def _finding(
    measures: Measures,
    panel: ClosedPanel,
    rule: Rule,
    grade: Grade,
    *,
    measured: float,
    message: str,
    remedy: str,
) -> Finding:
    return Finding(
        rule=rule,
        severity=grade.severity,
        at=panel.middle,
        subject=_subject(measures, panel),
        measured=measured,
        limit=grade.limit,
        message=message,
        source=str(grade.source),
        remedy=remedy,
    )


def _subject(measures: Measures, panel: ClosedPanel) -> str:
    return panel.id or f"panel at {measures.words.place(panel.middle)}"


def _name(measures: Measures, panel: ClosedPanel) -> str:
    where = measures.words.place(panel.middle)
    return f"{panel.id} at {where}" if panel.id else f"The panel at {where}"


def _size(measures: Measures, panel: ClosedPanel) -> str:
    words = measures.words
    return f"{words.length(panel.box.length)} x {words.length(panel.box.width)}"


def _step(grade: Grade) -> str:
    return "allowed" if grade.error else "advised"


def _kind(grade: Grade) -> str:
    return "the greatest allowed is" if grade.error else "the greatest advised is"


def _cut_lengthwise(measures: Measures, panel: ClosedPanel) -> bool:
    """Whether a joint runs along the panel's length, so that moving it would widen the panel."""
    along = panel.box.angle
    border = panel.polygon.exterior.buffer(SAME, cap_style="flat", quad_segs=1)
    for index in measures.net.tree.query(border, "intersects"):
        piece = measures.net.pieces[int(index)]
        if measures.net.owners[int(index)] == EDGE:
            continue
        (x0, y0), (x1, y1) = piece.coords[0], piece.coords[-1]
        turn = abs(math.degrees(math.atan2(y1 - y0, x1 - x0)) - along) % HALF_TURN
        lengthwise = min(turn, HALF_TURN - turn) < STRAIGHT_ON
        if lengthwise and piece.intersection(border).length > piece.length / 2:
            return True
    return False


def _tips(measures: Measures) -> shapely.STRtree:
    return shapely.STRtree([shapely.Point(p) for c in measures.slab.columns for p in c.points])


def _bite(
    measures: Measures, panel: ClosedPanel, tips: shapely.STRtree
) -> tuple[float, Point, str] | None:
    """The deepest bite out of a panel: depth, place and what it does to the panel."""
    full = panel.polygon.convex_hull
    if full.area - panel.polygon.area <= SLIVER:
        return None
    outer = Polygon(panel.polygon.exterior)
    hull = full.boundary
    turns = [
        (float(hull.distance(shapely.Point(c.at))), c.at, "turns a corner")
        for c in reentrant_corners(outer)
        if not len(tips.query(shapely.Point(c.at), "dwithin", TIP))
    ]
    return max([*turns, *_holes(measures, panel)], default=None)


def _holes(measures: Measures, panel: ClosedPanel) -> Iterator[tuple[float, Point, str]]:
    """Openings wholly inside a panel; boxouts are left to the rule on columns."""
    for ring in panel.polygon.interiors:
        hole = Polygon(ring)
        inside = hole.representative_point()
        if not any(box.contains(inside) for box in measures.slab.boxouts):
            wide = enclosing_rectangle(hole).width
            yield wide, (float(inside.x), float(inside.y)), "wraps round an opening"


def _bite_severity(depth: float, limits: Limits) -> Severity:
    """A jog is advice; a bite as wide as a panel may be makes an L of it: an error."""
    if depth <= JOG:
        return Severity.ADVICE
    return Severity.ERROR if depth > limits.width.bound else Severity.WARNING


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
