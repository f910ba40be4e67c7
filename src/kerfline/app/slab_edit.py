"""Adds, moves, changes and takes away what stands on a slab or goes through it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_build import distinct, ring
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    KeepOut,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import Unit, depth_unit, parse_length

Thing = Wall | Column | Penetration | KeepOut | GivenJoint | Zone
Value = str | bool

LETTERS = {
    "wall": "W", "column": "C", "penetration": "N", "keep-out": "K", "forbidden": "F", "zone": "Z",
}  # fmt: skip
"""First letter of the names of what the page adds."""

FIELDS = {
    "wall": "walls",
    "column": "columns",
    "penetration": "penetrations",
    "keep-out": "keep_outs",
    "forbidden": "joints",
    "zone": "zones",
}
"""Where each kind is kept in a slab."""

AREAS = ("keep-out", "zone")
"""Kinds that are closed areas with corners of their own."""

DRAIN_DIAMETER = 101.6
"""Diameter (mm) of a drain that the user has only pointed at: 4 in, to be corrected."""

LENGTHS = {
    "wall": ("thickness", "strip_width", "strip_depth"),
    "column": ("size",),
    "penetration": ("diameter", "clear"),
    "zone": ("thickness",),
}
"""Fields that take a length, by kind."""


def things(slab: Slab, kind: str) -> tuple[Thing, ...]:
    """All of one kind.

    Raises:
        InputRefused: There is no such kind.
    """
    if kind not in FIELDS:
        raise InputRefused(Mistake(what="there is no such kind of thing", found=kind))
    found: tuple[Thing, ...] = getattr(slab, FIELDS[kind])
    return found


def find(slab: Slab, kind: str, name: str) -> Thing:
    """The thing of that name.

    Raises:
        InputRefused: There is none.
    """
    found = next((t for t in things(slab, kind) if t.id == name), None)
    if found is None:
        raise InputRefused(Mistake(what=f"there is no such {kind}", where=name))
    return found


def with_things(slab: Slab, kind: str, new: tuple[Thing, ...]) -> Slab:
    """The slab with all of one kind replaced."""
    changes: dict[str, tuple[Thing, ...]] = {FIELDS[kind]: new}
    return replace(slab, **changes)  # type: ignore[arg-type]  # the field's name is looked up


def add(slab: Slab, kind: str, points: tuple[Point, ...], name: str) -> Slab:
    """The slab with one thing more, of the usual size, at the points that were tapped.

    A point that was tapped twice counts once, as in a job file.

    Raises:
        InputRefused: There are too few different points for it.
    """
    least = {"wall": 2, "forbidden": 2, **dict.fromkeys(AREAS, 3)}.get(kind, 1)
    closed = kind in AREAS
    points = ring([(x, y, 0.0) for x, y in points]).points if closed else distinct(points)
    if len(points) < least:
        raise InputRefused(
            Mistake(
                what=f"a {kind} needs {least} different points or more",
                where=name,
                found=f"{len(points)}",
                remedy="tap each of its points once",
            )
        )
    return with_things(slab, kind, (*things(slab, kind), _new(slab, kind, points, name)))


def _new(slab: Slab, kind: str, points: tuple[Point, ...], name: str) -> Thing:
    if kind == "wall":
        return Wall(id=name, path=points)
    if kind == "column":
        return Column(id=name, at=points[0])
    if kind == "penetration":
        return Penetration(
            id=name, at=points[0], diameter=DRAIN_DIAMETER, kind=PenetrationKind.DRAIN
        )
    if kind == "keep-out":
        return KeepOut(id=name, outline=Ring(points))
    if kind == "zone":  # as thick as the slab until the user writes how thick it is
        return Zone(id=name, outline=Ring(points), thickness=slab.thickness)
    return GivenJoint(id=name, path=points, forbidden=True)


def new_id(slab: Slab, kind: str, also: set[str]) -> str:
    """The next free name of a kind, such as ``W4``; ``also`` are the names of joints."""
    things(slab, kind)
    taken = {t.id for field in FIELDS.values() for t in getattr(slab, field)} | also
    taken |= {p.id for p in slab.patterns} | {f.id for f in slab.falls}
    number = 1
    while f"{LETTERS[kind]}{number}" in taken:
        number += 1
    return f"{LETTERS[kind]}{number}"


def remove(slab: Slab, kind: str, name: str) -> Slab:
    """The slab without one thing."""
    find(slab, kind, name)
    return with_things(slab, kind, tuple(t for t in things(slab, kind) if t.id != name))


def move(slab: Slab, kind: str, name: str, by: Point) -> Slab:
    """The slab with one thing moved, mm."""
    return changed(slab, kind, moved(find(slab, kind, name), by))


def moved(thing: Thing, by: Point) -> Thing:
    """A thing moved, mm."""

    def shifted(point: Point) -> Point:
        return (point[0] + by[0], point[1] + by[1])

    if isinstance(thing, Wall):
        return replace(thing, path=tuple(shifted(p) for p in thing.path))
    if isinstance(thing, GivenJoint):
        return replace(thing, path=tuple(shifted(p) for p in thing.path))
    if isinstance(thing, KeepOut | Zone):
        ring = Ring(tuple(shifted(p) for p in thing.outline.points), thing.outline.bulges)
        return replace(thing, outline=ring)
    return replace(thing, at=shifted(thing.at))


def set_field(slab: Slab, kind: str, name: str, field: str, value: Value, unit: Unit) -> Slab:
    """The slab with one value of one thing changed.

    Args:
        slab: The slab.
        kind: Kind of the thing.
        name: Its name.
        field: A length (``thickness``, ``size``, ``diameter``), a word (``boxout``, ``kind``,
            ``what``) or a yes or no (``bearing``).
        value: The new value as the user wrote it.
        unit: Unit of the job; a bare thickness or size is in its smaller unit, as it is shown.

    Raises:
        InputRefused: The field is not one that can be set, or the value is not one that it takes.
    """
    thing = find(slab, kind, name)
    changes: Mapping[str, Any] = {field: _value(kind, field, value, unit)}
    return changed(slab, kind, replace(thing, **changes))


def _value(kind: str, field: str, value: Value, unit: Unit) -> object:
    if isinstance(value, bool):
        if (kind, field) == ("wall", "bearing"):
            return value
    elif field in LENGTHS.get(kind, ()):
        return positive_length(value, depth_unit(unit), field)
    elif (kind, field) == ("keep-out", "what") and value.strip():
        return value.strip()
    elif (kind, field) == ("column", "boxout") and value in [b.value for b in Boxout]:
        return Boxout(value)
    elif (kind, field) == ("penetration", "kind") and value in [k.value for k in PenetrationKind]:
        return PenetrationKind(value)
    raise InputRefused(
        Mistake(what="this cannot be set", where=f"{kind} {field}", found=str(value))
    )


def positive_length(text: str, unit: Unit, where: str) -> float:
    """A length above nothing, mm.

    Raises:
        InputRefused: It is none.
    """
    length = parse_length(text, unit, where=where)
    if length <= 0:
        raise InputRefused(Mistake(what="this must be above zero", where=where, found=text))
    return length


def changed(slab: Slab, kind: str, new: Thing) -> Slab:
    """The slab with one thing in the place of the one of its name."""
    return with_things(slab, kind, tuple(new if t.id == new.id else t for t in things(slab, kind)))
