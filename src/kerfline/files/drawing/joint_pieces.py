"""Joints brought together out of the pieces that are drawn: dashes, doubles, the sides of joint formers.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from shapely import LineString

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.wording import wide
from kerfline.geometry.arcs import ArcRun, arc_runs, paired_arcs
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.chains import MEET, unlike
from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.dashes import WIDEST, undashed
from kerfline.geometry.parallel import paired
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Arc, Point, arc_of
from kerfline.geometry.smooth import Line, smooth_chains, split_at_corners
from kerfline.geometry.tolerance import SAME
from kerfline.model.slab import JointKind
from kerfline.units import Display, counted

BRIDGED = 50.8
"""A gap up to this (mm, 2 in) between two joints in one line is closed, dashed or not."""

DOUBLE = 65.0
"""Two parallel lines no further apart than this (mm, about 2 1/2 in) are the sides of one joint former."""

SIDE_BY_SIDE = 0.8
"""Share of the longer of two lines that must run beside the other for them to be one former."""


@dataclass(frozen=True, kw_only=True)
class Found:
    """A joint in the making.

    Attributes:
        line: Its line, flattened.
        kind: Its kind; None where its layer does not say it.
        repairs: What was done to it so far, in words.
        dash_gap: Widest gap (mm) between its dashes; 0 where it is not dashed.
    """

    line: Line
    kind: JointKind | None
    repairs: tuple[str, ...] = ()
    dash_gap: float = 0.0

    @property
    def shape(self) -> LineString:
        """The line as a shape."""
        return LineString(self.line)


@dataclass(kw_only=True)
class _Pieces:
    """Straight pieces, arcs and free curves of one kind of joint, and joints that are known to bend."""

    straight: list[tuple[Point, Point]] = field(default_factory=list)
    arcs: list[Arc] = field(default_factory=list)
    free: list[Line] = field(default_factory=list)
    bent: list[Line] = field(default_factory=list)


def brought_together(
    curves: Sequence[Curve], kind: JointKind | None, display: Display
) -> tuple[list[Found], list[str]]:
    """The joints of one kind, out of all their pieces."""
    pieces = _sorted_out(curves)
    straight, notes = _straight(pieces.straight, kind, display)
    free = unlike([Path(line) for line in pieces.free])
    if twice := len(pieces.free) - len(free):
        notes.append(f"{counted(twice, 'curved joint')} drawn twice; each was taken once.")
    arcs, more = _arcs(pieces.arcs, kind, display)
    notes += more
    every = [
        *straight,
        *arcs,
        *(Found(line=p.points, kind=kind) for p in free),
    ]
    chains = smooth_chains([f.line for f in every])
    return [
        *(Found(line=line, kind=kind) for line in pieces.bent),
        *(
            Found(
                line=line,
                kind=kind,
                repairs=tuple(r for m in members for r in every[m].repairs),
                dash_gap=max(every[m].dash_gap for m in members),
            )
            for line, members in chains
        ),
    ], notes


def _arcs(
    pieces: Sequence[Arc], kind: JointKind | None, display: Display
) -> tuple[list[Found], list[str]]:
    """Joints along arcs: pieces joined, the two sides of a joint former merged to their centre."""
    runs = arc_runs(pieces, MEET, WIDEST)
    strips = paired_arcs([r.arc for r in runs], MEET, DOUBLE, SIDE_BY_SIDE)
    used = {face for strip in strips for face in strip.faces}
    found = [_on_arc(run, kind, display) for i, run in enumerate(runs) if i not in used]
    found += [Found(line=s.points, kind=kind) for s in strips]
    widest = max((s.thickness for s in strips), default=0.0)
    return found, [_former_note(len(strips), widest, display)] if strips else []


def _former_note(count: int, widest: float, display: Display) -> str:
    return (
        f"{counted(count, 'pair')} of parallel lines up to {wide(widest, display)} apart, taken as joint "
        "formers and read at their centre."
    )


def _on_arc(run: ArcRun, kind: JointKind | None, display: Display) -> Found:
    words = (
        (
            f"joined from {len(run.pieces)} pieces on one arc, the widest gap {wide(run.gap, display)}",
        )
        if run.gap > MEET
        else ()
    )
    return Found(line=run.points, kind=kind, repairs=words, dash_gap=run.gap)


def _sorted_out(curves: Sequence[Curve]) -> _Pieces:
    pieces = _Pieces()
    for curve in curves:
        runs = list(_runs_of(curve.path))
        if curve.one_joint and len(runs) > 1:
            pieces.bent.append(tuple((float(x), float(y)) for x, y in curve.path.line.coords))
            continue
        for run in runs:
            if isinstance(run, Arc):
                pieces.arcs.append(run)
            elif _is_straight(run):
                pieces.straight.append((run[0], run[-1]))
            else:
                pieces.free.append(run)
    return pieces


def _runs_of(path: Path) -> Iterator[Arc | Line]:
    """The arcs of a path, and its straight stretches cut at their corners."""
    stretch: list[Point] = []
    for segment in path.segments():
        if segment.bulge:
            if len(stretch) > 1:
                yield from split_at_corners(tuple(stretch))
            stretch = []
            yield arc_of(segment.start, segment.end, segment.bulge)
            continue
        stretch = stretch or [segment.start]
        stretch.append(segment.end)
    if len(stretch) > 1:
        yield from split_at_corners(tuple(stretch))


def _is_straight(line: Line) -> bool:
    """Whether every point lies within a millimetre of the line between the ends."""
    if len(line) == 2:  # noqa: PLR2004 - two points
        return True
    if math.dist(line[0], line[-1]) < SAME:
        return False
    chord = LineString([line[0], line[-1]])
    return all(chord.distance(shapely.Point(p)) <= 1.0 for p in line[1:-1])


def _straight(
    pieces: Sequence[tuple[Point, Point]], kind: JointKind | None, display: Display
) -> tuple[list[Found], list[str]]:
    """Straight joints: dashes and pieces in a line joined, doubles merged to their centre."""
    found, notes = _in_line(_rows(pieces), kind, display)
    centred, more = _centred(found, kind, display)
    notes += more
    if more:
        found, again = _in_line(_rows([(f.line[0], f.line[-1]) for f in centred]), kind, display)
        return _repairs_kept(found, centred), notes + again
    return centred, notes


def _repairs_kept(found: Sequence[Found], before: Sequence[Found]) -> list[Found]:
    """Joints that were brought together once more, with the repairs made to them before."""
    tree = shapely.STRtree([f.shape for f in found])
    repairs: list[list[str]] = [[] for _ in found]
    for old in before:
        if old.repairs:
            nearest = int(tree.nearest(old.shape.interpolate(0.5, normalized=True)))
            repairs[nearest] += old.repairs
    return [replace(f, repairs=(*own, *f.repairs)) for f, own in zip(found, repairs, strict=True)]


def _rows(pieces: Sequence[tuple[Point, Point]]) -> Numbers:
    return np.asarray([(*a, *b) for a, b in pieces], dtype=float).reshape(-1, 4)


def _in_line(
    rows: Numbers, kind: JointKind | None, display: Display
) -> tuple[list[Found], list[str]]:
    found, doubled, notes = [], 0, []
    for run in collinear_runs(rows, WIDEST):
        doubled += run.doubled > MEET
        for line, gaps in undashed(run, BRIDGED):
            words = _gap_words(gaps, display)
            found.append(
                Found(line=line, kind=kind, repairs=words, dash_gap=max(gaps, default=0.0))
            )
    if doubled:
        notes.append(
            f"{counted(doubled, 'joint')} drawn twice, in all or part; each was taken once."
        )
    return found, notes


def _gap_words(gaps: Sequence[float], display: Display) -> tuple[str, ...]:
    if not gaps:
        return ()
    return (
        f"joined from {len(gaps) + 1} pieces in one line, the widest gap {wide(max(gaps), display)}",
    )


def _centred(
    found: Sequence[Found], kind: JointKind | None, display: Display
) -> tuple[list[Found], list[str]]:
    """Pairs of lines that are the two sides of a joint former, as their centre lines."""
    rows = _rows([(f.line[0], f.line[-1]) for f in found])
    lengths = np.hypot(*(rows[:, 2:] - rows[:, :2]).T)
    used: set[int] = set()
    centres = []
    widths = []
    for strip in paired(rows, MEET, DOUBLE).strips:
        a, b = strip.faces
        if strip.length < SIDE_BY_SIDE * max(lengths[a], lengths[b]) or used & {a, b}:
            continue
        used |= {a, b}
        widths.append(strip.thickness)
        centres.append(Found(line=(strip.start, strip.end), kind=kind))
    if not centres:
        return list(found), []
    note = _former_note(len(centres), max(widths), display)
    return [*(f for i, f in enumerate(found) if i not in used), *centres], [note]
