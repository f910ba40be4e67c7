"""What an element of a building model covers in plan, and from which level to which."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from kerfline.errors import InputRefused, Mistake
from kerfline.files.building.model_file import Model
from kerfline.geometry.arrays import Integers, Numbers
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import ARC_STEP, FARTHEST, SAGITTA, SAME
from kerfline.units import MM_PER_METRE, counted

MOST_ELEMENTS = 20_000
"""Slabs, walls, columns and footings that a model may have, each kind."""

MOST_NAMED = 5

_SETTINGS = {
    "use-world-coords": True,
    "weld-vertices": True,
    "mesher-linear-deflection": SAGITTA / MM_PER_METRE,
    "mesher-angular-deflection": math.radians(ARC_STEP),
}

LEVEL = 0.1
"""Faces whose heights agree to this (mm) are one level."""

FLAT = 0.999
"""Upward part of the normal of a face that counts as level: within 2.6 degrees."""

FINEST = 4
"""Decimals of a mm that corners are rounded to before faces are put together: equal corners are one."""

HAIR = 0.1
"""What is narrower than this (mm) all along is a seam between faces."""

UPWARD = 1e-3
"""Upward part of a normal below which a face is upright."""


@dataclass(frozen=True)
class Body:
    """One element with a body.

    Attributes:
        element: The element of the model.
        corners: Its corners, mm, one row each.
        faces: Its triangles, three indices of corners a row.
    """

    element: Any
    corners: Numbers
    faces: Integers

    @property
    def kind(self) -> str:
        """What the model calls it more closely, such as ``BASESLAB``; empty where it does not say."""
        from ifcopenshell.util.element import get_predefined_type

        said = str(get_predefined_type(self.element) or "")
        return "" if said in ("NOTDEFINED", "USERDEFINED") else said

    @property
    def bottom(self) -> float:
        """Its lowest level."""
        return float(self.corners[:, 2].min())

    @property
    def top(self) -> float:
        """Its highest level."""
        return float(self.corners[:, 2].max())

    @cached_property
    def upward(self) -> Numbers:
        """For each triangle the upward part of its normal times twice its area."""
        a, b, c = (self.corners[self.faces[:, i]] for i in range(3))
        return np.asarray(np.cross(b - a, c - a), dtype=float)

    @cached_property
    def footprint(self) -> MultiPolygon:
        """What it covers in plan."""
        seen = self.upward[:, 2] > UPWARD * np.linalg.norm(self.upward, axis=1)
        rings = np.round(self.corners[self.faces[seen]][:, :, :2], FINEST)
        area = shapely.union_all([Polygon(ring) for ring in rings])
        pieces = [p for part in polygons_of(area) for p in polygons_of(part.simplify(SAME))]
        pieces.sort(key=lambda piece: -piece.area)
        return MultiPolygon([without_hairs(piece) for piece in pieces if _is_wide(piece)])

    def level_faces(self, way: int) -> dict[float, float]:
        """The area (mm2) of its level faces by height, those that face up (1) or down (-1)."""
        length = np.linalg.norm(self.upward, axis=1)
        level = way * self.upward[:, 2] > FLAT * length
        heights = self.corners[self.faces[level]][:, :, 2].mean(axis=1)
        found: dict[float, float] = {}
        for height, area in zip(heights, length[level] / 2, strict=True):
            key = round(float(height) / LEVEL) * LEVEL
            found[key] = found.get(key, 0.0) + float(area)
        return found


class Bodies:
    """The bodies of a model's elements, each made once.

    Attributes:
        model: The model.
        path: Its file, for refusals.
        unread: The elements whose body cannot be made, by their kind.
    """

    def __init__(self, model: Model, path: Path) -> None:
        self.model = model
        self.path = path
        self.unread: dict[str, set[str]] = {}
        self._made: dict[tuple[str, bool], list[Body]] = {}

    def of(self, kind: str, *, whole: bool = False) -> list[Body]:
        """The elements of a kind that have a body and cover something in plan, in the order of the model.

        Args:
            kind: Name of the class, such as ``IfcSlab``.
            whole: Whether doors and other voids are left in.

        Raises:
            InputRefused: There are more of them than a building of one slab has.
        """
        key = (kind, whole)
        if key not in self._made:
            elements = sorted(self.model.by_type(kind), key=lambda e: int(e.id()))
            if len(elements) > MOST_ELEMENTS:
                raise InputRefused(
                    Mistake(
                        what=f"this model has {len(elements):,} elements of the class {kind}",
                        where=self.path.name,
                        allowed=f"up to {MOST_ELEMENTS:,}",
                        remedy="export the lowest storey alone",
                    )
                )
            made = self._bodies(elements, whole=whole)
            self._made[key] = [body for body in made if body.footprint.geoms]
        return self._made[key]

    def notes(self) -> list[str]:
        """Sentences on what could not be read."""
        return [
            f"{counted(len(names), 'element')} of the class {kind} not read, as no body can be made of "
            f"what the model says: {', '.join(sorted(names)[:MOST_NAMED])}."
            for kind, names in sorted(self.unread.items())
        ]

    def _bodies(self, elements: Sequence[Any], *, whole: bool) -> Iterator[Body]:
        from ifcopenshell import geom
        from ifcopenshell.util.shape import get_faces, get_vertices

        settings = geom.settings()
        for name, value in _SETTINGS.items():
            settings.set(name, value)
        settings.set("disable-opening-subtractions", whole)
        for element in elements:
            if element.Representation is None:
                continue
            try:
                shape = geom.create_shape(settings, element)
                corners, faces = get_vertices(shape.geometry), get_faces(shape.geometry)
            except Exception:  # whatever a damaged solid makes the kernel do
                corners, faces = np.empty((0, 3)), np.empty((0, 3))
            if len(faces) and np.isfinite(corners).all() and np.abs(corners).max() < FARTHEST:
                yield Body(element, corners * MM_PER_METRE, faces.astype(np.int64))
            else:
                name = f"{element.Name or 'no name'} (#{element.id()})"
                self.unread.setdefault(str(element.is_a()), set()).add(name)


def without_hairs(piece: Polygon) -> Polygon:
    """An area without holes that are mere seams."""
    holes = [ring for ring in piece.interiors if _is_wide(Polygon(ring))]
    return Polygon(piece.exterior, holes)


def _is_wide(piece: Polygon) -> bool:
    return not piece.buffer(-HAIR / 2).is_empty


def largest(area: MultiPolygon) -> Polygon:
    """The largest piece of an area that is not empty."""
    return max(area.geoms, key=lambda p: p.area)
