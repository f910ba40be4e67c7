"""Rules on the size of panels: span, aspect, width, area."""

import math
from collections.abc import Iterator

import numpy as np
import shapely
from shapely import LineString

from kerfline.checks.closing import ClosedPanel
from kerfline.checks.grading import Grade, above, below
from kerfline.checks.measures import Measures
from kerfline.checks.wording import apart, fine, ratio
from kerfline.geometry.corners import direction, sine_between
from kerfline.geometry.faces import lines_of, points_of, polygons_of
from kerfline.geometry.rectangle import QUARTER, enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, RATIO, SAME, TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import KeepOut
from kerfline.rules.cover import SPARE_COVER
from kerfline.rules.limits import Figure, Limits

SIDE = 50.0
"""Panels that share less of a side than this (mm), or a quarter of the smaller one's, are no neighbours."""

MOST_BAYS = 40
"""Bays each way that a remedy goes up to."""

LITTLE = 1.2
"""A panel no longer than so many times the limit is mended by its joints set closer; cut in two it would be far too small."""

ASLANT = math.sin(math.radians(45.0))
"""A joint that runs less than 45 degrees from a way lies along it, another across."""

RUN_REMEDY = "End a joint on its longest side, near the middle of it."


def span(measures: Measures, panel: ClosedPanel, limits: Limits) -> Iterator[Finding]:
    """No panel is longer than the rule set's span at its thickness, nor leaves a longer straight run uncut."""
    words = measures.words
    grade = above(panel.span, limits.span, MEASURE)
    if grade:
        run, limit = words.lengths(panel.span, grade.limit)
        long = panel.span <= panel.box.length + MEASURE
        said = f"is {run} long" if long else f"leaves a straight run of {run} uncut"
        yield _finding(
            measures,
            panel,
            Rule.SPAN,
            grade,
            measured=panel.span,
            message=f"{name_of(measures, panel)} {said}; {_kind(grade)} {limit} at "
            f"{words.depth(limits.thickness)} thick.",
            remedy=_shortened(measures, panel, limits, grade) if long else RUN_REMEDY,
        )


def aspect(measures: Measures, panel: ClosedPanel, limits: Limits) -> Iterator[Finding]:
    """No panel is too long for its width."""
    grade = above(panel.box.aspect, limits.aspect, RATIO)
    if grade:
        times, limit = apart(panel.box.aspect, grade.limit, ratio, fine)
        yield _finding(
            measures,
            panel,
            Rule.ASPECT,
            grade,
            measured=panel.box.aspect,
            message=f"{name_of(measures, panel)}, {_size(measures, panel)}, is "
            f"{times} times as long as wide; {_kind(grade)} {limit}.",
            remedy=_divided(measures, panel, limits, grade, most_across=1),
        )


def width(measures: Measures, panel: ClosedPanel, limits: Limits) -> Iterator[Finding]:
    """No panel is narrower than the least width; where the slab itself is, that is advice."""
    grade = below(panel.box.width, limits.width, MEASURE)
    if not grade:
        return
    cut = _cut_too_close(measures, panel)
    own = Grade(severity=Severity.ADVICE, limit=grade.limit, source=grade.source)
    wide, limit = measures.words.lengths(panel.box.width, grade.limit)
    yield _finding(
        measures,
        panel,
        Rule.WIDTH,
        grade if cut else own,
        measured=panel.box.width,
        message=f"{name_of(measures, panel)} is {wide} wide; "
        f"the least {_step(grade)} is {limit}"
        f"{'' if cut else ', and the slab itself is no wider here'}.",
        remedy="Move or leave out a joint along it so that it joins its neighbour."
        if cut
        else "Widen the slab here or reinforce it, as the engineer decides.",
    )


def area(measures: Measures, panel: ClosedPanel, limits: Limits) -> Iterator[Finding]:
    """No panel is larger than the rule set's area, where it has one."""
    words = measures.words
    figure = limits.area
    grade = above(panel.polygon.area, figure, MEASURE * panel.box.length) if figure else None
    if grade:
        yield _finding(
            measures,
            panel,
            Rule.AREA,
            grade,
            measured=float(panel.polygon.area),
            message=f"{name_of(measures, panel)} is {words.area(panel.polygon.area)} large; "
            f"{_kind(grade)} {words.area(grade.limit)}.",
            remedy=_divided(measures, panel, limits, grade),
        )


PANEL_CHECKS = (span, aspect, area, width)


def panels_with_limits(measures: Measures) -> Iterator[tuple[ClosedPanel, Limits]]:
    """Each panel and the limits that hold in it."""
    for panel in measures.panels:
        yield panel, measures.limits_in(panel)


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
        subject=subject_of(measures, panel),
        measured=measured,
        limit=grade.limit,
        message=message,
        source=str(grade.source),
        remedy=remedy,
    )


def _shortened(measures: Measures, panel: ClosedPanel, limits: Limits, grade: Grade) -> str:
    """What to do about a panel that is too long: its joints closer by a little, or further ones in it."""
    box = panel.box
    sides = [(box.length, box.angle), (box.width, box.angle + QUARTER)]
    ways = [way for side, way in sides if side > grade.limit + MEASURE]
    if box.length > LITTLE * grade.limit or not all(_is_bounded(measures, panel, w) for w in ways):
        return _divided(measures, panel, limits, grade)
    where, rows = ("beside it", "its row") if len(ways) == 1 else ("all round it", "its rows")
    limit = measures.words.length(grade.limit)
    return f"Set the joints {where} at most {limit} apart, or divide {rows} into one bay more."


def _is_bounded(measures: Measures, panel: ClosedPanel, way: float) -> bool:
    """Whether a joint across a direction (degrees) bounds a panel."""
    along = (math.cos(math.radians(way)), math.sin(math.radians(way)))
    rim = panel.polygon.exterior.buffer(TOUCH)
    return any(
        part.length > SIDE and sine_between(direction(*_ends(part)), along) > ASLANT
        for index in measures.joints_near(panel.polygon, TOUCH)
        for part in lines_of(measures.lines[index].intersection(rim))
    )


def _ends(line: LineString) -> tuple[Point, Point]:
    points = points_of(line)
    return points[0], points[-1]


def _divided(
    measures: Measures,
    panel: ClosedPanel,
    limits: Limits,
    grade: Grade,
    most_across: int = MOST_BAYS,
) -> str:
    """The fewest bays of a panel that keep span, aspect and area, in a sentence."""
    words = measures.words
    in_the_way = _keep_out_across(measures, panel, limits)
    if in_the_way:
        return (
            f"No cut may divide it over {in_the_way.id} ({in_the_way.what}), which is too long to lie in "
            "one panel: shorten or lower what lies there so that a cut stays clear of it, or form a "
            "joint that it crosses in a sleeve; the engineer decides."
        )
    bays = fewest_bays(
        panel.box.length, panel.box.width, limits, bound=grade.error, most_across=most_across
    )
    if bays is None and not measures.joints_near(panel.polygon, TOUCH):
        return "No joint bounds it: the slab itself has this shape."
    if bays is None:
        return "Move the joints beside it so that it is nearer square."
    along, across = bays
    size = f"{words.length(panel.box.length / along)} x {words.length(panel.box.width / across)}"
    count = f"{along} x {across}" if across > 1 else f"{along}"
    return f"Divide it into {count} bays of {size} or so."


def _keep_out_across(measures: Measures, panel: ClosedPanel, limits: Limits) -> KeepOut | None:
    """A keep-out in a panel that no panel within the limits could hold."""
    reach = measures.rules.cut_depth(limits.thickness) + SPARE_COVER
    near = measures.keep_out_tree.query(panel.polygon, "intersects")
    for index in sorted(near.tolist()):
        keep_out = measures.slab.keep_outs[int(index)]
        if keep_out.cover is not None and keep_out.cover >= reach - SAME:
            continue
        for part in polygons_of(keep_out.outline.polygon.intersection(panel.polygon)):
            if enclosing_rectangle(part).length >= limits.span.bound - MEASURE:
                return keep_out
    return None


def fewest_bays(
    length: float, width: float, limits: Limits, *, bound: bool, most_across: int = MOST_BAYS
) -> tuple[int, int] | None:
    """The fewest even bays along and across a panel that keep every limit; None where none do.

    Args:
        length: Length of the panel, mm.
        width: Width of the panel, mm.
        limits: Span, aspect, width and area, of which the bounds are kept ...
        bound: ... or, where this is false, the advised values too.
        most_across: Most bays across the width.
    """

    def of(figure: Figure) -> float:
        return figure.bound if bound else figure.advised

    def counts(side: float, most: int) -> range:
        """How many bays can keep both the span and the least width, one to spare either way."""
        fewest = math.floor(side / (of(limits.span) + MEASURE))
        greatest = math.ceil(side / max(limits.width.bound - MEASURE, MEASURE))
        return range(max(1, fewest), min(most, greatest) + 1)

    across, along = np.meshgrid(
        counts(width, most_across), counts(length, MOST_BAYS), indexing="ij"
    )
    one, two = (
        np.minimum(length / along, width / across),
        np.maximum(length / along, width / across),
    )
    kept = (
        (along * across > 1)
        & (two <= of(limits.span) + MEASURE)
        & (two <= of(limits.aspect) * one + MEASURE)
        & (one >= limits.width.bound - MEASURE)
    )
    if limits.area:
        kept &= one * two <= of(limits.area) + MEASURE * two
    if not kept.any():
        return None
    _, fewest, by = min(
        zip(*(a[kept].tolist() for a in (along * across, across, along)), strict=True)
    )
    return by, fewest


def subject_of(measures: Measures, panel: ClosedPanel) -> str:
    """What a finding calls a panel: its id, or its place where the layout does not name it."""
    return panel.id or f"panel at {measures.words.near(panel.middle)}"


def name_of(measures: Measures, panel: ClosedPanel) -> str:
    """A panel at the head of a sentence: its id and place."""
    where = measures.words.near(panel.middle)
    return f"{panel.id} at {where}" if panel.id else f"The panel at {where}"


def _size(measures: Measures, panel: ClosedPanel) -> str:
    words = measures.words
    return f"{words.length(panel.box.length)} x {words.length(panel.box.width)}"


def _step(grade: Grade) -> str:
    return "allowed" if grade.error else "advised"


def _kind(grade: Grade) -> str:
    return "the greatest allowed is" if grade.error else "the greatest advised is"


def _cut_too_close(measures: Measures, panel: ClosedPanel) -> bool:
    """Whether a panel would be wider if a joint between it and a neighbour were left out."""
    side = min(SIDE, panel.box.length / 4)
    for index in measures.panel_tree.query(panel.polygon, "intersects").tolist():
        other = measures.panels[index]
        if other is not panel and panel.polygon.intersection(other.polygon).length > side:
            both = shapely.union(panel.polygon, other.polygon)
            if enclosing_rectangle(both).width > panel.box.width + MEASURE:
                return True
    return False
