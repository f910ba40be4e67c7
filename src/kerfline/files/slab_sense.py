"""Whether a slab that was read makes sense, whatever file it came from."""

import math
from collections import Counter
from typing import Protocol

import shapely

from kerfline.errors import Mistake
from kerfline.files.sense_features import endless, features
from kerfline.files.sense_rings import LEAST_AREA, edges, openings, rings, size
from kerfline.files.sense_teller import CHECK_UNITS, Teller, Where, place_in
from kerfline.model.slab import Slab
from kerfline.units import Display

LEAST_THICKNESS = 25.0
"""No slab on ground is thinner than this (mm)."""

GREATEST_THICKNESS = 1000.0
"""No slab on ground that takes sawn joints is thicker than this (mm); 4 ft is a slip for 4 in."""


class Named(Protocol):
    """Whatever lies on a slab under a name."""

    @property
    def id(self) -> str:
        """Its name on the sheets."""


def check_slab(
    slab: Slab, where: Where | str = "", display: Display = Display.METRIC
) -> list[Mistake]:
    """Every mistake in the sense of a slab.

    Args:
        slab: The slab as it was read.
        where: Name of the file, or what turns a subject (``outline``, ``opening 1``, ``thickness``,
            ``edge 0/3``, an id such as ``W3``) into the place that the user is told.
        display: How lengths in the sentences are written.
    """
    teller = Teller(place_in(where) if isinstance(where, str) else where, display)
    mistakes = [*_names(teller, slab), *_thicknesses(teller, slab)]
    broken = [*endless(teller, slab), *rings(teller, slab)]
    if broken:  # nothing can be measured
        return [*mistakes, *broken]
    for look in (size, openings, features, edges):
        mistakes.extend(look(teller, slab))
    return mistakes or _concrete(teller, slab)


def _names(teller: Teller, slab: Slab) -> list[Mistake]:
    """Two things with one name."""
    things: tuple[Named, ...] = (
        *slab.walls, *slab.columns, *slab.penetrations, *slab.zones, *slab.keep_outs,
        *slab.joints, *slab.patterns, *slab.falls,
    )  # fmt: skip
    counts = Counter(thing.id for thing in things)
    return [
        teller.mistake(
            name, f"{count} things are called {name}", remedy="give each an id of its own"
        )
        for name, count in counts.items()
        if count > 1
    ]


def _thicknesses(teller: Teller, slab: Slab) -> list[Mistake]:
    """Thicknesses that no slab has."""
    every = [("thickness", slab.thickness), *((zone.id, zone.thickness) for zone in slab.zones)]
    return [
        teller.mistake(
            subject,
            "a slab on ground does not have this thickness",
            found=teller.depth(mm) if math.isfinite(mm) else str(mm),
            allowed=f"{teller.depth(LEAST_THICKNESS)} to {teller.depth(GREATEST_THICKNESS)}",
            remedy=CHECK_UNITS,
        )
        for subject, mm in every
        if not LEAST_THICKNESS <= mm <= GREATEST_THICKNESS
    ]


def _concrete(teller: Teller, slab: Slab) -> list[Mistake]:
    """Slabs of which openings and boxouts leave next to nothing."""
    left = slab.gross.difference(shapely.union_all(slab.boxouts))
    if left.area >= LEAST_AREA / 2:
        return []
    remedy = "check their sizes"
    return [teller.mistake("outline", "openings and boxouts leave no concrete", remedy=remedy)]
