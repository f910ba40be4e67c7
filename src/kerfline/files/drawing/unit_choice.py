"""Settles the unit of a drawing: as the user says, as it says itself, as its evidence shows, or by a question.

What is enough and what is ahead is common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from dataclasses import replace

from kerfline.errors import InputRefused
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import DrawnUnit, ask_for_unit, sizes_of, unlikely
from kerfline.files.drawing.unit_evidence import UnitEvidence, unit_evidence
from kerfline.units import enumerated

ENOUGH = 3.0
"""Points that a unit needs that the drawing does not state."""

AHEAD = 2.0
"""Points by which it must be ahead of every other."""

CONTRADICTED = 0.5
"""A stated unit is asked about where another comes this near to it in points, or goes beyond."""


def settled(drawing: Drawing, told: DrawnUnit | None = None) -> Drawing:
    """The drawing in its unit.

    Args:
        drawing: What was gathered.
        told: The unit that the user states; it wins over what the drawing says.

    Raises:
        InputRefused: The unit is open and the evidence does not settle it, or what is stated cannot be.
    """
    if told:
        return _as_told(drawing, told)
    if drawing.sure:
        return drawing
    evidence = unit_evidence(drawing)
    declared = next((e for e in evidence if e.unit == drawing.declared), None)
    if declared and declared.possible:
        return _as_declared(drawing, declared, evidence)
    said = "the drawing does not say its unit"
    if declared:
        said = f"the drawing says its unit is {declared.unit.name}, which cannot be right"
    return _as_shown(drawing, evidence, said)


def _as_shown(drawing: Drawing, evidence: tuple[UnitEvidence, ...], said: str) -> Drawing:
    """The drawing in the unit that the evidence shows.

    Raises:
        InputRefused: None is clearly ahead.
    """
    best, second = evidence[0], evidence[1]
    if best.possible and best.points >= ENOUGH and best.points - second.points >= AHEAD:
        note = (
            f"{said[:1].upper()}{said[1:]}: read in {best.unit.name}, since {enumerated(best.words)}. If that is "
            "wrong, say it with --units."
        )
        return replace(drawing.read_in(best.unit), notes=(*drawing.notes, note))
    raise _question(drawing, said)


def _as_told(drawing: Drawing, told: DrawnUnit) -> Drawing:
    read = drawing.read_in(told, told=True)
    if all(unlikely(size) for size in sizes_of(read.curves)):
        raise _question(drawing, f"the unit {told.name} cannot be right for this drawing")
    return read


def _as_declared(
    drawing: Drawing, declared: UnitEvidence, evidence: tuple[UnitEvidence, ...]
) -> Drawing:
    name = declared.unit.name
    other = next((e for e in evidence if e is not declared and e.possible), None)
    if other and other.words and other.points >= declared.points - CONTRADICTED:
        raise _question(
            drawing,
            f"the drawing says its unit is {name}, but what is drawn looks like {other.unit.name}: "
            f"{enumerated(other.words)}",
        )
    return drawing.read_in(declared.unit)


def _question(drawing: Drawing, what: str) -> InputRefused:
    size = sizes_of(drawing.curves)[0].divided(drawing.factor)
    return ask_for_unit(drawing.path, size, what)
