"""Numbers in circles, for cuts and findings."""

import math
from collections.abc import Iterator
from dataclasses import replace

from shapely import LineString

from kerfline.geometry.ring import Point, circle
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Path, Text
from kerfline.sheets.placer import Spot
from kerfline.sheets.spots import around, beside, middle_of, over

ROOM = 0.6
"""Room in mm between a number and its circle."""


def circle_radius(text: Text) -> float:
    """Radius in mm of the circle around a number."""
    return math.hypot(text_width(text.text, text.height) / 2, text.height / 2) + ROOM


def number_spots(at: Point, text: Text) -> Iterator[Spot]:
    """Places for a number in a circle: on its point, then around it with a leader."""
    radius = circle_radius(text)
    for spot in over(at, text):
        yield ringed(spot, radius)
    for spot in around(at, text):
        yield ringed(spot, radius)


def line_spots(line: LineString, text: Text) -> Iterator[Spot]:
    """Places for a number in a circle beside a line, then with a leader to its middle."""
    radius = circle_radius(text)
    for spot in beside(line, text, radius - text.height / 2 + ROOM):
        yield ringed(spot, radius)
    for spot in around(middle_of(line), text):
        yield ringed(spot, radius)


def ringed(spot: Spot, radius: float) -> Spot:
    """The same spot with room for a circle, its text upright."""
    height = spot.text.height
    turn = math.radians(spot.text.turn)
    x, y = spot.text.at
    centre = (x - math.sin(turn) * height / 2, y + math.cos(turn) * height / 2)
    if spot.leader:
        side = 1.0 if spot.text.anchor is Anchor.START else -1.0
        knee = spot.leader[-1]
        centre = (knee[0] + side * radius, knee[1])
    text = replace(
        spot.text, at=(centre[0], centre[1] - height / 2), turn=0.0, anchor=Anchor.MIDDLE
    )
    return Spot(text, spot.leader, radius)


def ring_mark(spot: Spot) -> Path:
    """The circle around a number that has found its place."""
    text = spot.text
    ring = circle((text.at[0], text.at[1] + text.height / 2), spot.radius)
    return Path(
        layer=text.layer,
        points=ring.points,
        bulges=ring.bulges,
        closed=True,
        width=0.35,
        in_plan=True,
    )
