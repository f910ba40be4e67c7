"""Drawings that came in and are not yet taken: a few, in memory, each under a name of its own."""

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from kerfline.app.brought import Brought
from kerfline.app.look_at_drawing import SeenDrawing
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


@dataclass(frozen=True)
class Arrival:
    """A file that came in.

    Attributes:
        data: Its bytes.
        brought: What was said of it so far.
    """

    data: bytes
    brought: Brought


class Arrivals:
    """Keeps what was dropped on the page until the user has said what it is."""

    def __init__(self) -> None:
        self.kept: dict[str, Arrival] = {}

    def keep(self, arrival: Arrival, name: str = "") -> str:
        """Keeps a file, under the name that it had or a new one, and tells the name."""
        name = name or secrets.token_urlsafe(NAME_BYTES)
        self.kept.pop(name, None)
        self.kept[name] = arrival
        while len(self.kept) > KEPT:
            self.kept.pop(next(iter(self.kept)))
        return name

    def drop(self, name: object) -> None:
        """Lets a file go that nobody wants any more."""
        if isinstance(name, str):
            self.kept.pop(name, None)

    def find(self, name: object) -> Arrival:
        """The file of that name.

        Raises:
            InputRefused: It is not there any more.
        """
        arrival = self.kept.get(name) if isinstance(name, str) else None
        if arrival is None:
            raise InputRefused(
                Mistake(what="that drawing is not here any more", remedy="drop it again")
            )
        return arrival


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
        "measured": seen.measured,
        "units": [_unit_data(unit, seen) for unit in Unit],
        "model": seen.model,
        "storeys": list(seen.storeys),
        "asks": seen.asks,
        "together": seen.together,
        "thickness": seen.thickness,
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


def _unit_data(unit: Unit, seen: SeenDrawing) -> Data:
    """What it would mean if the drawing were in this unit; where it is measured, how its size is written."""
    mm = 1.0 if seen.measured else unit.mm
    width, height = (side * mm for side in seen.size)
    return {
        "unit": unit.value,
        "width": width,
        "height": height,
        "text": " x ".join(_text(side, unit) for side in (width, height)),
        "likely": LIKELY[0] <= max(width, height) <= LIKELY[1],
    }


def _text(mm: float, unit: Unit) -> str:
    return format_run(mm, unit.display) if unit is Unit.M else format_length(mm, unit.display)
