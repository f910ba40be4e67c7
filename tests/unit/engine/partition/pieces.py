"""Pieces of slab that the tests of nets share, and lines across them."""

from shapely import Polygon

from kerfline.engine.lines.candidates import CandidateLine, straight
from kerfline.model.layout import Reason

SIZE = 12000.0

PIECES = {
    "square": Polygon([(0, 0), (SIZE, 0), (SIZE, SIZE), (0, SIZE)]),
    "slanted": Polygon([(0, 3000), (SIZE, 0), (SIZE - 2500, SIZE), (1000, SIZE - 4000)]),
    "court": Polygon(
        [(0, 0), (SIZE, 0), (SIZE, SIZE), (0, SIZE)],
        [[(3000, 3500), (9000, 3500), (9000, 8500), (3000, 8500)]],
    ),
    "fork": Polygon(
        [
            (0, 0),
            (SIZE, 0),
            (SIZE, SIZE),
            (8000, SIZE),
            (8000, 4000),
            (4000, 4000),
            (4000, SIZE),
            (0, SIZE),
        ]
    ),
}


def lines(axis, count):
    places = [SIZE * (i + 1) / (count + 1) for i in range(count)]
    return [CandidateLine(straight(p, axis, (0.0, SIZE)), Reason.SPAN) for p in places]
