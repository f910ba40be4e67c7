"""The direction that a figure mostly lies along."""

import math

import numpy as np
import shapely
from shapely import Polygon

QUARTER = 90.0

SHARP = 0.5
"""Edges whose directions differ by less than this (degrees) count together."""

CANDIDATES = 100
"""Only the directions of this many longest edges are tried."""


def main_direction(polygon: Polygon) -> float:
    """Direction (degrees, 0 <= angle < 90) along or square to which most of the boundary runs.

    Edges count by their length; of equal directions the one nearest to x is taken.
    """
    points = shapely.get_coordinates(polygon.exterior)
    edges = np.diff(points, axis=0)
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    angles = np.degrees(np.arctan2(edges[:, 1], edges[:, 0])) % QUARTER
    longest = np.argsort(-lengths, kind="stable")[:CANDIDATES]
    best = (-1.0, 0.0)
    for angle in sorted(set(np.round(angles[longest], 6).tolist())):
        away = np.abs(angles - angle)
        away = np.minimum(away, QUARTER - away)
        weight = float(lengths[away < SHARP].sum())
        if weight > best[0] + 1.0:
            best = (weight, angle)
    return best[1] if math.isfinite(best[1]) else 0.0
