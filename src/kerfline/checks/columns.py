"""The rule on columns: joints meet the points of their isolation, and none runs through it."""

from collections.abc import Iterator

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.checks.measures import Measures
from kerfline.checks.sources import COLUMN, PRACTICE
from kerfline.geometry.corners import angle_between
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, SAME, TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import Column
from kerfline.rules.limits import Source

TANGENT = 10.0
"""A joint that leaves a round boxout within this (degrees) of its tangent is tangent to it."""

SQUARE = 90.0


def diamonds(measures: Measures) -> Iterator[Finding]:
    """A joint meets each point of a diamond."""
    words = measures.words
    for column in measures.slab.columns:
        for tip in column.points:
            if not _in_slab(measures, tip) or measures.net.leaves(tip):
                continue
            near = measures.nearest_joint(tip)
            misses = (
                f"; the nearest, {near[0].id}, misses it by {words.length(near[1])}" if near else ""
            )
            yield _finding(
                column,
                tip,
                Severity.WARNING,
                COLUMN,
                measured=near[1] if near else None,
                message=f"No joint meets the point of column {column.id}'s diamond at "
                f"{words.place(tip)}{misses}.",
                remedy="Move a joint to the point, or place a bar across it as at a re-entrant corner.",
            )


def rounds(measures: Measures) -> Iterator[Finding]:
    """Joints meet a round boxout square or along its tangent, and one at least meets it."""
    least = measures.slab_limits.angle
    for column in measures.slab.columns:
        edge = _round_edge(measures, column)
        if edge is None:
            continue
        meeting = [
            (node.at, arm.way, arm.joint)
            for node in (measures.net.nodes[i] for i in _nodes_on(measures, edge))
            for arm in node.joints
        ]
        if not meeting:
            yield _unmet(measures, column)
        for at, way, joint in meeting:
            angle = _to_tangent(column, at, way)
            if TANGENT < angle < least.bound - DEGREES:
                yield _finding(
                    column,
                    at,
                    Severity.WARNING,
                    PRACTICE,
                    measured=angle,
                    message=f"{measures.joints[joint].id} meets the round boxout of column {column.id} at "
                    f"{angle:.0f} degrees at {measures.words.place(at)}.",
                    remedy="Aim the joint at the column's centre, or run it along the tangent.",
                    limit=least.bound,
                )


def through(measures: Measures) -> Iterator[Finding]:
    """No joint runs through a column's isolation; drawn from point to point it need only stop."""
    for column in measures.slab.columns:
        if column.outline is None:
            continue
        area = column.outline.polygon
        for index in measures.joints_near(area):
            inside = measures.lines[index].intersection(area)
            if inside.length > 2 * TOUCH:
                yield _through(measures, column, index, inside)


def not_isolated(measures: Measures) -> Iterator[Finding]:
    """Every column is isolated from the slab."""
    for column in measures.slab.columns:
        if column.outline is None and measures.concrete.contains(shapely.Point(column.at)):
            yield _finding(
                column,
                column.at,
                Severity.ADVICE,
                COLUMN,
                measured=None,
                message=f"Column {column.id} at {measures.words.place(column.at)} has no isolation joint "
                "round it.",
                remedy="Isolate it by a diamond or a circle whose edge the joints meet, unless the engineer "
                "ties it to the slab.",
                limit=None,
            )


CHECKS = (diamonds, rounds, through, not_isolated)


def _finding(
    column: Column,
    at: Point,
    severity: Severity,
    source: Source,
    *,
    measured: float | None,
    message: str,
    remedy: str,
    limit: float | None = 0.0,
) -> Finding:
    return Finding(
        rule=Rule.COLUMN,
        severity=severity,
        at=at,
        subject=column.id,
        measured=measured,
        limit=limit,
        message=message,
        source=str(source),
        remedy=remedy,
    )


def _in_slab(measures: Measures, tip: Point) -> bool:
    """Whether a point of a diamond has concrete before it: not cut off by an edge or another boxout."""
    spot = shapely.Point(tip)
    gross = measures.slab.gross
    return (
        bool(gross.contains(spot))
        and gross.boundary.distance(spot) > TOUCH
        and bool(shapely.dwithin(measures.boundary, spot, SAME))
    )


def _round_edge(measures: Measures, column: Column) -> Polygon | None:
    """A round boxout that lies wholly in the slab; None for others."""
    if not column.is_round or column.outline is None:
        return None
    area = column.outline.polygon
    return area if measures.slab.gross.contains_properly(area) else None


def _nodes_on(measures: Measures, area: Polygon) -> list[int]:
    """The nodes on a boxout's edge that a joint leaves."""
    landings = measures.net.landing_nodes
    hits = measures.net.landings.query(area.exterior, "dwithin", 2 * TOUCH)
    return sorted(landings[int(i)] for i in hits)


def _to_tangent(column: Column, at: Point, way: Point) -> float:
    """Angle between a joint and the tangent of a round boxout, 0 to 90 degrees."""
    out = (at[0] - column.at[0], at[1] - column.at[1])
    return abs(SQUARE - angle_between(out, way))


def _unmet(measures: Measures, column: Column) -> Finding:
    near = measures.nearest_joint(column.at)
    gap = near[1] - column.size / 2 if near else None
    misses = (
        f"; the nearest, {near[0].id}, misses it by {measures.words.length(gap)}"
        if near and gap
        else ""
    )
    return _finding(
        column,
        column.at,
        Severity.WARNING,
        COLUMN,
        measured=gap,
        message=f"No joint meets the round boxout of column {column.id} at "
        f"{measures.words.place(column.at)}{misses}.",
        remedy="Run joints to it, aimed at its centre.",
    )


def _through(measures: Measures, column: Column, index: int, inside: BaseGeometry) -> Finding:
    joint = measures.joints[index]
    spot = inside.representative_point()
    at = (float(spot.x), float(spot.y))
    met = _from_point_to_point(measures, column, inside)
    where = f"the boxout of column {column.id} at {measures.words.place(column.at)}"
    return _finding(
        column,
        at,
        Severity.WARNING if met else Severity.ERROR,
        COLUMN,
        measured=float(inside.length),
        message=f"{joint.id} is drawn through {where}"
        f"{', from point to point' if met else ', past its points'}.",
        remedy="Stop the cut at its points."
        if met
        else "Move the joint to the points of the boxout and stop it there.",
    )


def _from_point_to_point(measures: Measures, column: Column, inside: BaseGeometry) -> bool:
    """Whether a line runs over a boxout's centre, between points of its diamond or the slab's edge."""
    if inside.distance(shapely.Point(column.at)) > 2 * TOUCH:
        return False
    if not column.points:
        return True
    stops = shapely.union(shapely.MultiPoint(column.points), measures.slab.gross.boundary)
    coords = shapely.get_coordinates(inside)
    return all(stops.distance(shapely.Point(c)) <= 2 * TOUCH for c in (coords[0], coords[-1]))
