"""Drawings that came in and are not yet taken: a few, in memory, each under a name of its own."""

import secrets
from collections.abc import Iterable
from typing import Any

from kerfline.app.import_drawing import Brought, SeenDrawing
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.units import Unit, depth_unit, format_length, format_run

Data = dict[str, Any]

KEPT = 3
"""Drawings kept; the oldest goes when another comes."""

NAME_BYTES = 12
PLACES = 1

LIKELY = (3_000.0, 300_000.0)
"""Longer sides (mm) that a slab usually has: 3 m to 300 m."""


class Arrivals:
    """Keeps what was dropped on the page until the user has said what it is."""

    def __init__(self) -> None:
        self.kept: dict[str, Brought] = {}

    def keep(self, brought: Brought) -> str:
        """Keeps a drawing and gives it a name."""
        name = secrets.token_urlsafe(NAME_BYTES)
        self.kept[name] = brought
        while len(self.kept) > KEPT:
            self.kept.pop(next(iter(self.kept)))
        return name

    def take(self, name: object) -> Brought:
        """The drawing of that name.

        Raises:
            InputRefused: It is not there any more.
        """
        brought = self.kept.get(name) if isinstance(name, str) else None
        if brought is None:
            raise InputRefused(
                Mistake(what="that drawing is not here any more", remedy="drop it again")
            )
        return brought


def _rounded(points: Iterable[Point]) -> list[list[float]]:
    return [[round(x, PLACES), round(y, PLACES)] for x, y in points]


def seen_data(name: str, seen: SeenDrawing) -> Data:
    """A drawing as the page shows it before anything is taken."""
    return {
        "name": name,
        "unit": seen.unit.value,
        "known": seen.known,
        "slab": seen.slab,
        "candidates": [
            {
                "number": each.number,
                "ring": _rounded(each.ring),
                "courts": [_rounded(court) for court in each.courts],
                "label": _rounded([each.label])[0],
                "words": each.words,
            }
            for each in seen.candidates
        ],
        "depthUnit": depth_unit(seen.unit).value,
        "declared": seen.declared,
        "units": [_unit_data(unit, seen.size) for unit in Unit],
        "layers": [
            {
                "name": layer.name,
                "role": layer.role,
                "hidden": layer.hidden,
                "count": layer.count,
                "paths": [_rounded(p) for p in layer.paths],
            }
            for layer in seen.layers
        ],
        "notes": list(seen.notes),
    }


def _unit_data(unit: Unit, size: tuple[float, float]) -> Data:
    """What it would mean if the drawing were in this unit."""
    width, height = size[0] * unit.mm, size[1] * unit.mm
    return {
        "unit": unit.value,
        "width": width,
        "height": height,
        "text": " x ".join(_text(side, unit) for side in (width, height)),
        "likely": LIKELY[0] <= max(width, height) <= LIKELY[1],
    }


def _text(mm: float, unit: Unit) -> str:
    return format_run(mm, unit.display) if unit is Unit.M else format_length(mm, unit.display)
