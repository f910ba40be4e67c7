"""A house to hold candidates for the slab against, and what is said of one of them."""

from kerfline.files.drawing import read_drawing
from kerfline.files.drawing.candidates import gathered, judged, scene_of


def rectangle(x0, y0, x1, y1):
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def signs_of(drawn, bounds):
    """The candidate of these bounds, judged among all that the drawing holds."""
    scene = scene_of(read_drawing(drawn.save()))
    candidates = judged(scene, gathered(scene))
    near = [
        c
        for c in candidates
        if max(abs(a - b) for a, b in zip(c.polygon.bounds, bounds, strict=True)) < 5
    ]
    assert near, [c.polygon.bounds for c in candidates]
    return near[0]


def says(candidate, words):
    return [s for s in candidate.signs if words in s.words]


def house(drawn, layer="A-WALL", at=(0, 0)):
    """Walls of 200 mm around 12 x 8 m and one across."""
    x, y = at
    drawn.poly(layer, rectangle(x, y, x + 12_000, y + 8_000))
    drawn.poly(layer, rectangle(x + 200, y + 200, x + 11_800, y + 7_800))
    drawn.wall(layer, (x + 6_000, y + 200), (x + 6_000, y + 7_800), 200)


def tiles(drawn, x0, y0, x1, y1, layer="Flooring", tile=1_000):
    """Lines of tiles, of 1 m where nothing else is said, from corner to corner."""
    for x in range(x0, x1 + 1, tile):
        drawn.line(layer, (x, y0), (x, y1))
    for y in range(y0, y1 + 1, tile):
        drawn.line(layer, (x0, y), (x1, y))
