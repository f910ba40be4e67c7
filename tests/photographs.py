"""Plans on paper and photographs of them, made by a pinhole camera that shares no code with the program."""

import functools
import io
import math

import numpy as np
from PIL import Image, ImageDraw

FT = 304.8
PAPER = "white"


class Camera:
    """A pinhole camera over a flat plan.

    The plan's x, y (mm, y up) are seen by an eye that stands off it and is turned about all three axes.

    Args:
        middle: The point of the plan that it looks at.
        away: How far it is from there, mm.
        tilt, swing, roll: How it is turned, degrees.
        size: Width and height of the picture, pixels.
        focus: Its focal length, in pixels.
    """

    def __init__(self, middle, away, tilt, swing, roll, size, focus):
        self.size = size
        a, b, c = (math.radians(t) for t in (tilt, swing, roll))
        about_x = [[1, 0, 0], [0, math.cos(a), -math.sin(a)], [0, math.sin(a), math.cos(a)]]
        about_y = [[math.cos(b), 0, math.sin(b)], [0, 1, 0], [-math.sin(b), 0, math.cos(b)]]
        about_z = [[math.cos(c), -math.sin(c), 0], [math.sin(c), math.cos(c), 0], [0, 0, 1]]
        self.turn = np.array(about_z) @ np.array(about_y) @ np.array(about_x)
        self.middle, self.away, self.focus = np.array([*middle, 0.0]), away, focus

    def sees(self, point):
        """The pixel, from the upper left corner, at which a point of the plan is seen."""
        x, y, z = self.turn @ (np.array([*point, 0.0]) - self.middle)
        depth = self.away - z
        assert depth > 0
        return (
            self.size[0] / 2 + self.focus * x / depth,
            self.size[1] / 2 - self.focus * y / depth,
        )

    def photograph(self, flat, extent):
        """What it takes of a flat picture that covers an extent (left, bottom, right, top, mm)."""
        x0, y0, x1, y1 = extent
        corners = [(x0, y1), (x1, y1), (x1, y0), (x0, y0)]
        width, height = flat.size
        pixels = [(0, 0), (width, 0), (width, height), (0, height)]
        rows, values = [], []
        # From the photograph back to the flat picture: eight unknowns, two equations for each corner.
        for (u, v), (x, y) in zip(map(self.sees, corners), pixels, strict=True):
            rows.append([u, v, 1, 0, 0, 0, -u * x, -v * x])
            rows.append([0, 0, 0, u, v, 1, -u * y, -v * y])
            values += [x, y]
        back = np.linalg.solve(np.array(rows), np.array(values))
        return flat.transform(
            self.size, Image.Transform.PERSPECTIVE, list(back), Image.Resampling.BICUBIC, fillcolor="#8a7f70"
        )  # fmt: skip


def plan_on_paper(outline, walls, extent, fineness=0.12):
    """A plan drawn in ink: thick outline, thinner walls; ``fineness`` in pixels for each mm."""
    x0, y0, x1, y1 = extent
    flat = Image.new("RGB", (round((x1 - x0) * fineness), round((y1 - y0) * fineness)), PAPER)
    ink = ImageDraw.Draw(flat)

    def spot(point):
        return ((point[0] - x0) * fineness, (y1 - point[1]) * fineness)

    ink.line([spot(p) for p in (*outline, outline[0])], fill="black", width=12, joint="curve")
    for wall in walls:
        ink.line([spot(p) for p in wall], fill="#303030", width=7)
    return flat


def as_bytes(image, kind="JPEG", **more):
    """A picture as a file."""
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


HOUSE = [(0, 0), (40 * FT, 0), (40 * FT, 28 * FT), (28 * FT, 28 * FT), (28 * FT, 20 * FT), (0, 20 * FT)]  # fmt: skip
WALLS = [[(0, 10 * FT), (28 * FT, 10 * FT)], [(28 * FT, 0), (28 * FT, 20 * FT)]]
EXTENT = (-6 * FT, -6 * FT, 46 * FT, 34 * FT)


def aslant():
    """The camera of a hurried telephone over the plan of the house."""
    return Camera((20 * FT, 14 * FT), 90 * FT, -24, 16, 7, (2400, 1800), 4000)


@functools.lru_cache
def photograph():
    """A photograph of the plan of the house, and the camera that took it."""
    camera = aslant()
    return as_bytes(camera.photograph(plan_on_paper(HOUSE, WALLS, EXTENT), EXTENT)), camera
