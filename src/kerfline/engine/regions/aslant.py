"""What asks for a joint that runs along neither axis of a region's frame."""

from collections.abc import Iterator

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.regions.region import Region
from kerfline.geometry.faces import lines_of
from kerfline.model.slab import Wall

DRIFT = 5.0
"""A line that strays from its axis by no more than this (mm) runs along it: it was drawn, not surveyed."""


def asks_aslant(region: Region) -> bool:
    """Whether a wall, a given joint or the border of a zone asks for a joint aslant of both axes."""
    return must_slant(region) or any(
        drift_of(w.line) > max(w.thickness, DRIFT) for w in _walls(region)
    )


def must_slant(region: Region) -> bool:
    """The same for what can not be left without its joint: given joints, borders, long walls."""
    return any(drift_of(line) > DRIFT for line in _settled(region)) or any(
        drift_of(w.line) > max(w.thickness, DRIFT) and w.id not in region.wishes
        for w in _walls(region)
    )


def drift_of(line: LineString) -> float:
    """How far the straight pieces of a line stray from the nearer axis, mm."""
    steps = np.abs(np.diff(shapely.get_coordinates(line), axis=0))
    return float(steps.min(axis=1).max()) if len(steps) else 0.0


def _walls(region: Region) -> list[Wall]:
    return [w for w in region.walls if w.takes_joint]


def _settled(region: Region) -> Iterator[LineString]:
    for joint in region.pinned:
        yield LineString(joint.path)
    for zone in region.zones:
        if zone.joint_at_border:
            yield from lines_of(zone.area.exterior.intersection(region.gross))
