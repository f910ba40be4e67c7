"""Joints out of a drawing: pieces brought together, doubles and duplicates merged, ends fitted."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.joint_labels import JointLabel, kinds_by_label
from kerfline.files.drawing.wording import counted, place, wide
from kerfline.geometry.arcs import ArcRun, arc_runs, paired_arcs
from kerfline.geometry.chains import MEET, unlike
from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.dashes import WIDEST, undashed
from kerfline.geometry.faces import lines_of
from kerfline.geometry.fitting import EDGE, Fit, fitted
from kerfline.geometry.near import Floats
from kerfline.geometry.parallel import paired
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Arc, Point, arc_of
from kerfline.geometry.smooth import Line, smooth_chains, split_at_corners
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import Display

REACH = 50.8
"""How far (mm, 2 in) a joint that stops short or runs over is carried on or cut back."""

DOUBLE = 65.0
"""Two parallel lines no further apart than this (mm, about 2 1/2 in) are the sides of one joint former."""

SIDE_BY_SIDE = 0.8
"""Share of the longer of two lines that must run beside the other for them to be one former."""

ALONG_EDGE = 0.9
"""A joint with more than this share on the slab's edge is the edge's own."""

END_GAP = 1.1
"""A dashed line may end in a gap, this many times as wide as its widest: along an arc it is met at a slant."""

SHORTEST = 10.0
"""Joints shorter than this (mm) are specks."""


@dataclass(frozen=True, kw_only=True)
class _Found:
    """A joint in the making: its line, its kind, the repairs made to it so far, its widest gap between dashes."""

    line: Line
    kind: JointKind | None
    repairs: tuple[str, ...] = ()
    dash_gap: float = 0.0

    @property
    def shape(self) -> LineString:
        return LineString(self.line)


@dataclass(kw_only=True)
class _Pieces:
    """Straight pieces, arcs and free curves of one kind of joint."""

    straight: list[tuple[Point, Point]] = field(default_factory=list)
    arcs: list[Arc] = field(default_factory=list)
    free: list[Line] = field(default_factory=list)


def read_joints(
    drawn: Sequence[tuple[JointKind | None, Sequence[Curve]]],
    concrete: Polygon | None,
    display: Display,
    *,
    reach: float = REACH,
    labels: Sequence[JointLabel] = (),
) -> tuple[tuple[GivenJoint, ...], tuple[str, ...]]:
    """The joints, and a note on every repair.

    Args:
        drawn: The curves of each kind of joint, None where their layers do not say it: their labels do, else
            they are control joints.
        concrete: The slab without openings and boxouts; None where it is not known, and then nothing is cut
            at its edge.
        display: How lengths are written.
        reach: How far an end is carried on or cut back, mm.
        labels: The labels that say a kind of joint.

    Raises:
        InputRefused: A label says CJ, which has two meanings.
    """
    notes: list[str] = []
    found: list[_Found] = []
    for kind, curves in drawn:
        lines, more = _brought_together(curves, kind, display)
        found += lines
        notes += more
    if concrete is not None:
        found, more = _on_slab(found, concrete, display)
        notes += more
    found, more = _fitted(found, concrete, display, reach)
    notes += more
    found, more = _labelled(found, labels, display)
    return _named(found, (*notes, *more))


def _labelled(
    found: Sequence[_Found], labels: Sequence[JointLabel], display: Display
) -> tuple[list[_Found], list[str]]:
    """Joints whose layers do not say their kind, with the kind that their labels say."""
    told = [f.kind is not None for f in found]
    if all(told):
        return list(found), []
    said = kinds_by_label([f.shape for f in found], told, labels, display)
    kept = [
        replace(f, kind=f.kind or kind or JointKind.CONTROL)
        for f, kind in zip(found, said, strict=True)
    ]
    by_label = sum(kind is not None for kind in said)
    assumed = told.count(False) - by_label
    notes = []
    if by_label:
        notes.append(f"{counted(by_label, 'joint')} of the kind that the label beside it says.")
    if assumed:
        notes.append(
            f"{counted(assumed, 'joint')} of which neither layer nor label says the kind, taken as control "
            "joints."
        )
    return kept, notes


def _brought_together(
    curves: Sequence[Curve], kind: JointKind | None, display: Display
) -> tuple[list[_Found], list[str]]:
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
        *(_Found(line=p.points, kind=kind) for p in free),
    ]
    chains = smooth_chains([f.line for f in every])
    return [
        _Found(
            line=line,
            kind=kind,
            repairs=tuple(r for m in members for r in every[m].repairs),
            dash_gap=max(every[m].dash_gap for m in members),
        )
        for line, members in chains
    ], notes


def _arcs(
    pieces: Sequence[Arc], kind: JointKind | None, display: Display
) -> tuple[list[_Found], list[str]]:
    """Joints along arcs: pieces joined, the two sides of a joint former merged to their centre."""
    runs = arc_runs(pieces, MEET, WIDEST)
    strips = paired_arcs([r.arc for r in runs], MEET, DOUBLE, SIDE_BY_SIDE)
    used = {face for strip in strips for face in strip.faces}
    found = [_on_arc(run, kind, display) for i, run in enumerate(runs) if i not in used]
    found += [_Found(line=s.points, kind=kind) for s in strips]
    widest = max((s.thickness for s in strips), default=0.0)
    return found, [_former_note(len(strips), widest, display)] if strips else []


def _former_note(count: int, widest: float, display: Display) -> str:
    return (
        f"{counted(count, 'pair')} of parallel lines up to {wide(widest, display)} apart, taken as joint "
        "formers and read at their centre."
    )


def _on_arc(run: ArcRun, kind: JointKind | None, display: Display) -> _Found:
    words = (
        (
            f"joined from {len(run.pieces)} pieces on one arc, the widest gap {wide(run.gap, display)}",
        )
        if run.gap > MEET
        else ()
    )
    return _Found(line=run.points, kind=kind, repairs=words, dash_gap=run.gap)


def _sorted_out(curves: Sequence[Curve]) -> _Pieces:
    pieces = _Pieces()
    for curve in curves:
        for run in _runs_of(curve.path):
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
) -> tuple[list[_Found], list[str]]:
    """Straight joints: dashes and pieces in a line joined, doubles merged to their centre."""
    found, notes = _in_line(_rows(pieces), kind, display)
    centred, more = _centred(found, kind, display)
    notes += more
    if more:
        found, again = _in_line(_rows([(f.line[0], f.line[-1]) for f in centred]), kind, display)
        return _repairs_kept(found, centred), notes + again
    return centred, notes


def _repairs_kept(found: Sequence[_Found], before: Sequence[_Found]) -> list[_Found]:
    """Joints that were brought together once more, with the repairs made to them before."""
    tree = shapely.STRtree([f.shape for f in found])
    repairs: list[list[str]] = [[] for _ in found]
    for old in before:
        if old.repairs:
            nearest = int(tree.nearest(old.shape.interpolate(0.5, normalized=True)))
            repairs[nearest] += old.repairs
    return [replace(f, repairs=(*own, *f.repairs)) for f, own in zip(found, repairs, strict=True)]


def _rows(pieces: Sequence[tuple[Point, Point]]) -> Floats:
    return np.asarray([(*a, *b) for a, b in pieces], dtype=float).reshape(-1, 4)


def _in_line(
    rows: Floats, kind: JointKind | None, display: Display
) -> tuple[list[_Found], list[str]]:
    found, doubled, notes = [], 0, []
    for run in collinear_runs(rows, WIDEST):
        doubled += run.doubled > MEET
        for line, gaps in undashed(run, REACH):
            words = _gap_words(gaps, display)
            found.append(
                _Found(line=line, kind=kind, repairs=words, dash_gap=max(gaps, default=0.0))
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
    found: Sequence[_Found], kind: JointKind | None, display: Display
) -> tuple[list[_Found], list[str]]:
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
        centres.append(_Found(line=(strip.start, strip.end), kind=kind))
    if not centres:
        return list(found), []
    note = _former_note(len(centres), max(widths), display)
    return [*(f for i, f in enumerate(found) if i not in used), *centres], [note]


def _on_slab(
    found: Sequence[_Found], concrete: Polygon, display: Display
) -> tuple[list[_Found], list[str]]:
    """The joints cut at the slab's edge, those outside and those along the edge left out."""
    within = concrete.buffer(SAME)
    edge = concrete.boundary.buffer(TOUCH)
    shapely.prepare(within)
    kept, notes = [], []
    for joint in found:
        shape = joint.shape
        if not within.intersects(shape):
            notes.append(
                f"A joint at {place(joint.line[0], display)} lies outside the slab: left out."
            )
        elif shape.intersection(edge).length > ALONG_EDGE * shape.length:
            notes.append(
                f"A joint along the slab's edge from {place(joint.line[0], display)} to "
                f"{place(joint.line[-1], display)} left out: the edge parts the concrete already."
            )
        elif within.covers(shape):
            kept.append(joint)
        else:
            kept += _cut_at_edge(joint, concrete, display)
    return kept, notes


def _cut_at_edge(joint: _Found, concrete: Polygon, display: Display) -> list[_Found]:
    parts = [p for p in lines_of(joint.shape.intersection(concrete)) if p.length > SHORTEST]
    over = joint.shape.difference(Polygon(concrete.exterior)).length
    words = []
    if over > TOUCH:
        words.append(f"ran over the slab's edge: {wide(over, display)} cut off")
    if joint.shape.length - over - sum(p.length for p in parts) > TOUCH:
        words.append("interrupted where the concrete has an opening or a boxout")
    lines = [tuple((float(x), float(y)) for x, y in part.coords) for part in parts]
    return [replace(joint, line=line, repairs=(*joint.repairs, *words)) for line in lines]


def _fitted(
    found: Sequence[_Found], concrete: Polygon | None, display: Display, reach: float
) -> tuple[list[_Found], list[str]]:
    """The joints with their ends on what they stop on, specks left out."""
    edges = [LineString(r) for r in _rings(concrete)] if concrete is not None else []
    reaches = [max(reach, END_GAP * f.dash_gap) for f in found]
    lines, fits = fitted([f.line for f in found], edges, reaches)
    repairs: dict[int, list[str]] = {}
    slight = 0
    for fit in fits:
        if abs(fit.by) <= TOUCH:
            slight += 1
        else:
            repairs.setdefault(fit.line, []).append(_fit_words(fit, display))
    kept = [
        replace(f, line=line, repairs=(*f.repairs, *repairs.get(i, ())))
        for i, (f, line) in enumerate(zip(found, lines, strict=True))
    ]
    long = [f for f in kept if f.shape.length >= SHORTEST]
    notes = []
    if slight:
        notes.append(
            f"{counted(slight, 'joint end')} within {TOUCH} mm of a line put exactly on it."
        )
    if len(long) < len(kept):
        notes.append(f"{counted(len(kept) - len(long), 'speck')} among the joints left out.")
    return long, notes


def _rings(concrete: Polygon) -> list[shapely.LinearRing]:
    return [concrete.exterior, *concrete.interiors]


def _fit_words(fit: Fit, display: Display) -> str:
    onto = "the edge" if fit.onto == EDGE else "the joint"
    done = "stopped short: carried on" if fit.by > 0 else "ran over: cut back"
    return f"{done} {wide(abs(fit.by), display)} to {onto} at {place(fit.at, display)}"


def _named(
    found: Sequence[_Found], notes: Sequence[str]
) -> tuple[tuple[GivenJoint, ...], tuple[str, ...]]:
    """The joints in reading order, each repair under its joint's name."""
    ordered = sorted((replace(f, line=_left_first(f.line)) for f in found), key=_reading)
    joints = tuple(
        GivenJoint(id=f"G{n}", path=f.line, kind=f.kind or JointKind.CONTROL)
        for n, f in enumerate(ordered, start=1)
    )
    repairs = [
        f"{joint.id} {words}."
        for joint, f in zip(joints, ordered, strict=True)
        for words in f.repairs
    ]
    return joints, (*notes, *repairs)


def _left_first(line: Line) -> Line:
    start, end = ((round(p[0], 1), round(p[1], 1)) for p in (line[0], line[-1]))
    return line if start <= end else line[::-1]


def _reading(found: _Found) -> tuple[float, float, float]:
    x0, y0, x1, _ = found.shape.bounds
    return (round(y0, 1), round(x0, 1), round(x1, 1))
