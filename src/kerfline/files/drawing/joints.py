"""Joints out of a drawing, put on the slab: cut at its edge, their ends fitted, their kinds settled.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.joint_labels import JointLabel, kinds_by_label
from kerfline.files.drawing.joint_pieces import Found, brought_together
from kerfline.files.drawing.wording import place, wide
from kerfline.geometry.faces import Area, lines_of, polygons_of, rings_of
from kerfline.geometry.fitting import EDGE, Fit, fitted
from kerfline.geometry.smooth import Line
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import Display, counted

REACH = 50.8
"""How far (mm, 2 in) a joint that stops short or runs over is carried on or cut back."""

ALONG_EDGE = 0.9
"""A joint with more than this share on the slab's edge is the edge's own."""

END_GAP = 1.1
"""A dashed line may end in a gap, this many times as wide as its widest: along an arc it is met at a slant."""

SHORTEST = 10.0
"""Joints shorter than this (mm) are specks."""


def read_joints(
    drawn: Sequence[tuple[JointKind | None, Sequence[Curve]]],
    concrete: Area | None,
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
    found: list[Found] = []
    for kind, curves in drawn:
        lines, more = brought_together(curves, kind, display)
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
    found: Sequence[Found], labels: Sequence[JointLabel], display: Display
) -> tuple[list[Found], list[str]]:
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


def _on_slab(
    found: Sequence[Found], concrete: Area, display: Display
) -> tuple[list[Found], list[str]]:
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


def _cut_at_edge(joint: Found, concrete: Area, display: Display) -> list[Found]:
    parts = [p for p in lines_of(joint.shape.intersection(concrete)) if p.length > SHORTEST]
    over = joint.shape.difference(
        shapely.union_all([Polygon(p.exterior) for p in polygons_of(concrete)])
    ).length
    words = []
    if over > TOUCH:
        words.append(f"ran over the slab's edge: {wide(over, display)} cut off")
    if joint.shape.length - over - sum(p.length for p in parts) > TOUCH:
        words.append("interrupted where the concrete has an opening or a boxout")
    lines = [tuple((float(x), float(y)) for x, y in part.coords) for part in parts]
    return [replace(joint, line=line, repairs=(*joint.repairs, *words)) for line in lines]


def _fitted(
    found: Sequence[Found], concrete: Area | None, display: Display, reach: float
) -> tuple[list[Found], list[str]]:
    """The joints with their ends on what they stop on, specks left out."""
    edges = [LineString(r) for r in rings_of(concrete)] if concrete is not None else []
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


def _fit_words(fit: Fit, display: Display) -> str:
    onto = "the edge" if fit.onto == EDGE else "the joint"
    done = "stopped short: carried on" if fit.by > 0 else "ran over: cut back"
    return f"{done} {wide(abs(fit.by), display)} to {onto} at {place(fit.at, display)}"


def _named(
    found: Sequence[Found], notes: Sequence[str]
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


def _reading(found: Found) -> tuple[float, float, float]:
    x0, y0, x1, _ = found.shape.bounds
    return (round(y0, 1), round(x0, 1), round(x1, 1))
