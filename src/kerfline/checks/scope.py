"""What each rule is held against on one layout, and where it has nothing to say."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from kerfline.checks.angles import sharpest_angle
from kerfline.checks.corners import corner_places
from kerfline.checks.grading import Held
from kerfline.checks.measures import Measures
from kerfline.checks.panels import panels_with_limits
from kerfline.model.finding import Rule
from kerfline.model.slab import BearingRule, JointKind


@dataclass(frozen=True, kw_only=True)
class Scope:
    """What a rule is held against.

    Attributes:
        held: Every measure with its figure, for rules that have one.
        absent: Why the rule does not apply; empty where it does.
        unchecked: Why it could not be checked; empty where it could.
    """

    held: tuple[Held, ...] = ()
    absent: str = ""
    unchecked: str = ""


def scope_of(rule: Rule, measures: Measures) -> Scope:
    """What a rule is held against."""
    return SCOPES[rule](measures)


def _spans(measures: Measures) -> Scope:
    return Scope(
        held=tuple(Held(value=p.span, figure=s.span) for p, s in panels_with_limits(measures))
    )


def _aspects(measures: Measures) -> Scope:
    return Scope(
        held=tuple(
            Held(value=p.box.aspect, figure=s.aspect) for p, s in panels_with_limits(measures)
        )
    )


def _areas(measures: Measures) -> Scope:
    held = tuple(
        Held(value=float(p.polygon.area), figure=s.area)
        for p, s in panels_with_limits(measures)
        if s.area
    )
    name = measures.slab_limits.rule_set
    return Scope(held=held, absent="" if held else f"the rule set {name} has no limit on area")


def _widths(measures: Measures) -> Scope:
    return Scope(
        held=tuple(
            Held(value=p.box.width, figure=s.width, greatest=False)
            for p, s in panels_with_limits(measures)
        )
    )


def _angles(measures: Measures) -> Scope:
    figure = measures.slab_limits.angle
    held = tuple(
        Held(value=sharpest[0], figure=figure, greatest=False)
        for node in measures.net.nodes
        if (sharpest := sharpest_angle(measures, node))
    )
    return Scope(held=held, absent="" if held else "no joint meets a joint or an edge")


def _depths(measures: Measures) -> Scope:
    sawn = [j for j in measures.joints if j.kind is JointKind.CONTROL]
    held = tuple(
        Held(
            value=j.depth,
            figure=measures.rules.cut_limit(measures.thickest_along(j.line)),
            greatest=False,
        )
        for j in sawn
        if j.depth
    )
    bare = len(sawn) - len(held)
    return Scope(
        held=held,
        absent="" if sawn else "there is no sawn joint",
        unchecked=f"{bare} of {len(sawn)} sawn joints have no depth noted" if bare else "",
    )


def _always(measures: Measures) -> Scope:
    return Scope(absent="" if measures.panels else "there is no panel")


def _corners(measures: Measures) -> Scope:
    return Scope(absent="" if corner_places(measures) else "there is no re-entrant corner")


def _joints(measures: Measures) -> Scope:
    return Scope(absent="" if measures.joints else "there is no joint")


def _edges(measures: Measures) -> Scope:
    wanted = measures.joints or measures.slab.pinned or measures.slab.zones
    return Scope(absent="" if wanted else "there is no joint")


def _walls(measures: Measures) -> Scope:
    hiding = [w for w in measures.slab.walls if w.takes_joint]
    return Scope(absent="" if hiding else "there is no wall that a joint may lie under")


def _bearing_walls(measures: Measures) -> Scope:
    bearing = [w for w in measures.slab.walls if w.bearing]
    plain = [w for w in bearing if w.bearing_rule is not BearingRule.DOWELED]
    if not bearing:
        return Scope(absent="no wall is given as bearing")
    return Scope(absent="" if plain else "joints under bearing walls are doweled")


def _columns(measures: Measures) -> Scope:
    return Scope(absent="" if measures.slab.columns else "there is no column")


def _penetrations(measures: Measures) -> Scope:
    return Scope(absent="" if measures.slab.penetrations else "there is no penetration")


def _keep_outs(measures: Measures) -> Scope:
    given = measures.slab.keep_outs or measures.slab.forbidden
    return Scope(absent="" if given else "no keep-out is given")


SCOPES: Mapping[Rule, Callable[[Measures], Scope]] = {
    Rule.SPAN: _spans,
    Rule.ASPECT: _aspects,
    Rule.AREA: _areas,
    Rule.WIDTH: _widths,
    Rule.SHAPE: _always,
    Rule.ANGLE: _angles,
    Rule.CORNER: _corners,
    Rule.FREE_END: _joints,
    Rule.TEE_END: _joints,
    Rule.WALL: _walls,
    Rule.BEARING_WALL: _bearing_walls,
    Rule.COLUMN: _columns,
    Rule.PENETRATION: _penetrations,
    Rule.KEEP_OUT: _keep_outs,
    Rule.DEPTH: _depths,
    Rule.EDGE: _edges,
}
"""A scope for every rule."""
