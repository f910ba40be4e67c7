"""Rules on walls: a joint under each interior wall, none that is plain sawn under one that bears."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely import LineString

from kerfline.checks.along import ALONG, Run, Span, left_of, merged, runs_of
from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE
from kerfline.checks.sources import LINE_LOAD, PRACTICE
from kerfline.checks.wording import listed
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import BearingRule, JointKind, Wall
from kerfline.rules.limits import LONG_WALL
from kerfline.units import in_words

FULL = 0.9
"""Share of a wall that a joint must run under: the rest is its ends, where it meets other walls."""

HALF = 0.5
"""A wall with a joint under more than this share is partly served: advice."""

NOTHING = 0.01
"""A share of a wall below this is told as none."""

UNDER_BEARING = 100.0
"""A joint that runs along under a bearing wall for less than this (mm) only crosses it."""


@dataclass(frozen=True)
class Bare:
    """What of a wall has no joint under it.

    Attributes:
        share: Share of the wall on concrete with a joint under it.
        at: Middle of the longest stretch without.
        crowded: Whether a joint there would be nearer to an edge or another joint than a panel's least
            width.
    """

    share: float
    at: Point
    crowded: bool


@dataclass(frozen=True)
class Under:
    """The joints along under a wall, and the stretches of the wall that they lie under."""

    joints: list[str]
    stretches: list[tuple[Run, Span]]


def walls(measures: Measures) -> Iterator[Finding]:
    """Each interior wall that may has a joint hidden within its thickness."""
    for wall in measures.slab.walls:
        if wall.takes_joint:
            bare = _bare(measures, wall)
            if bare and bare.share < FULL:
                yield _without_joint(measures, wall, bare)


def bearing_walls(measures: Measures) -> Iterator[Finding]:
    """No plain joint runs under a bearing wall: it would be an edge under the wall's load."""
    words = measures.words
    for wall in measures.slab.walls:
        if not wall.bearing or wall.bearing_rule is BearingRule.DOWELED:
            continue
        under = _under(measures, wall)
        length = sum(end - start for _, (start, end) in under.stretches)
        if length > UNDER_BEARING:
            run, (start, end) = max(under.stretches, key=lambda row: row[1][1] - row[1][0])
            at = run.at((start + end) / 2)
            verb = "runs" if len(under.joints) == 1 else "run"
            yield Finding(
                rule=Rule.BEARING_WALL,
                severity=Severity.WARNING,
                at=at,
                subject=wall.id,
                measured=length,
                limit=0.0,
                message=f"{listed(under.joints)} {verb} {words.length(length)} along under the bearing "
                f"wall {wall.id} at {words.place(at)}, where a plain joint is an edge under its load.",
                source=str(LINE_LOAD),
                remedy=f"Move it beside the {'strip' if wall.strip_width else 'wall'}, dowel it, or thicken "
                "the slab there, as the engineer decides.",
            )


CHECKS = (walls, bearing_walls)


def _without_joint(measures: Measures, wall: Wall, bare: Bare) -> Finding:
    least, span = measures.slab_limits.width.bound, measures.slab_limits.span.advised
    minor = bare.crowded or bare.share >= HALF or wall.line.length < max(least, LONG_WALL * span)
    words = measures.words
    reason = in_words(measures.layout.walls_left.get(wall.id, ""), words.display)
    said = f" The layout says: {reason.rstrip('.')}." if reason else ""
    close = (
        f" A joint there would lie within {words.length(least)} of an edge or another joint."
        if bare.crowded
        else ""
    )
    some = f"a joint under {bare.share:.0%} of it only"
    what = some if bare.share >= NOTHING else "no joint under it"
    return Finding(
        rule=Rule.WALL,
        severity=Severity.ADVICE if minor else Severity.WARNING,
        at=bare.at,
        subject=wall.id,
        measured=bare.share,
        limit=FULL,
        message=f"Wall {wall.id} at {words.place(bare.at)} has {what}.{close}{said}",
        source=str(PRACTICE),
        remedy=f"Run a joint within its {words.depth(wall.thickness)} of thickness, on to the next edge or joint.",
    )


def _bare(measures: Measures, wall: Wall) -> Bare | None:
    """How much of a wall has a joint under it; None where the wall is not on the concrete."""
    total, served = 0.0, 0.0
    gaps: list[tuple[float, Run, Span]] = []
    for run in runs_of(wall.path):
        on_concrete = _on_concrete(measures, run)
        covered = merged((a, b) for _, a, b in _alongside(measures, run, wall.thickness))
        for start, end in on_concrete:
            total += end - start
            free = left_of((start, end), covered)
            served += end - start - sum(b - a for a, b in free)
            gaps.extend((round(b - a, 3), run, (a, b)) for a, b in free)
    if total <= SAME:
        return None
    if not gaps:
        return Bare(share=1.0, at=wall.path[0], crowded=False)
    _, run, (a, b) = max(gaps, key=lambda g: g[0])
    middle = (a + b) / 2
    crowded = _crowded(measures, run, middle, wall.thickness)
    return Bare(share=served / total, at=run.at(middle), crowded=crowded)


def _under(measures: Measures, wall: Wall) -> Under:
    """The control and construction joints along under a wall or its thickened strip."""
    width = max(wall.strip_width, wall.thickness)
    joints: set[int] = set()
    stretches: list[tuple[Run, Span]] = []
    for run in runs_of(wall.path):
        plain = [
            row
            for row in _alongside(measures, run, width)
            if measures.joints[row[0]].kind is not JointKind.ISOLATION
        ]
        joints.update(index for index, _, _ in plain)
        stretches.extend((run, span) for span in merged((a, b) for _, a, b in plain))
    return Under([measures.joints[i].id for i in sorted(joints)], stretches)


def _on_concrete(measures: Measures, run: Run) -> list[Span]:
    inside = lines_of(measures.on_concrete(run.line))
    return [
        (min(a, b), max(a, b))
        for part in inside
        for a, b in [(run.local(part.coords[0])[0], run.local(part.coords[-1])[0])]
    ]


def _alongside(measures: Measures, run: Run, width: float) -> list[tuple[int, float, float]]:
    """Stretches of a run that joints lie along within a width: joint, start, end."""
    strip = run.line.buffer(width / 2, cap_style="flat")
    return [
        (index, beside.start, beside.end)
        for index in measures.joints_near(strip, TOUCH)
        for beside in run.alongside(measures.lines[index], width / 2 + TOUCH)
    ]


def _crowded(measures: Measures, run: Run, middle: float, thickness: float) -> bool:
    """Whether an edge or joint beside a wall leaves no room for a panel of the least width."""
    reach = measures.slab_limits.width.bound
    probe = LineString([run.at(middle, -reach), run.at(middle, reach)])
    net = measures.net
    for index in net.tree.query(probe, "intersects").tolist():
        hit = net.pieces[index].intersection(probe)
        beside = abs(run.local(shapely.get_coordinates(hit)[0])[1])
        if beside > thickness / 2 and (
            net.owners[index] == EDGE or _parallel(run, net.pieces[index])
        ):
            return True
    return False


def _parallel(run: Run, piece: LineString) -> bool:
    (x0, y0), (x1, y1) = piece.coords[0], piece.coords[-1]
    way = direction((x0, y0), (x1, y1))
    return abs(way[0] * run.way[0] + way[1] * run.way[1]) >= ALONG
