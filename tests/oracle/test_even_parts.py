"""No even grid costs less than what the engine finds on halls of columns, on rooms between walls and on L, T and U shapes.

The lines of a grid go through all columns, under all walls and from every re-entrant corner; between them every part has
even bays. The price is written here once more, from what the weights are said to mean, read off the boxes of the panels
alone (``even_prices``). How even the bays are is left out of it: those of a grid are even
as far as whole inches allow.
"""

import math
from dataclasses import dataclass
from itertools import pairwise, product
from random import Random

import pytest

from kerfline.engine.options import Weights
from kerfline.model.slab import Boxout, Column
from oracle.even_prices import (
    BARE_ONCE,
    BARE_POINTS,
    BARE_WALL,
    COLUMN_INSIDE,
    FOOT,
    GREATEST,
    HIDDEN,
    INCH,
    LINE,
    LONG,
    NEAR,
    OPEN,
    OVER_SPAN,
    PASSED,
    SPAN,
    SQUARE,
    TEE,
    TEE_HIDDEN,
    UNEVEN,
    WARNED,
    panel_price,
)  # fmt: skip
from unit.engine.plans import feet, layout, ring, slab, wall

HALF_WALL = 0.19
"""Feet: half the thickness of the walls, 4 1/2 in, and a hair."""


@dataclass(frozen=True)
class Plan:
    """A slab in feet.

    Attributes:
        outline: Its corners, anticlockwise.
        walls: Both ends of each wall, along an axis.
        columns: Centres of columns in diamonds.
        parts: Ways to divide it in rectangles (x0, y0, x1, y1), each by lines that are there in any case.
    """

    outline: tuple
    parts: tuple
    walls: tuple = ()
    columns: tuple = ()

    @property
    def slab(self):
        return slab(
            ring(*self.outline),
            walls=tuple(wall(f"W{n}", *ends) for n, ends in enumerate(self.walls)),
            columns=tuple(
                Column(id=f"C{n}", at=feet(at)[0], boxout=Boxout.DIAMOND, size=300.0)
                for n, at in enumerate(self.columns)
            ),
        )

    @property
    def corners(self):
        """Its re-entrant corners."""
        points = self.outline
        threes = zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True)
        return [
            b for a, b, c in threes if (b[0] - a[0]) * (c[1] - b[1]) < (b[1] - a[1]) * (c[0] - b[0])
        ]


def joints_between(panels):
    """Where panels meet: axis, place, from, to."""
    for axis in (0, 1):
        for one, other in product(panels, repeat=2):
            low = max(one[1 - axis], other[1 - axis])
            high = min(one[3 - axis], other[3 - axis])
            if abs(one[axis + 2] - other[axis]) < NEAR and high - low > NEAR:
                yield axis, one[axis + 2], low, high


def overlap(low, high, start, end):
    return max(min(high, end) - max(low, start), 0.0)


def along(wall_ends):
    """A wall as axis, place, from, to."""
    (x0, y0), (x1, y1) = wall_ends
    return (0, x0, *sorted((y0, y1))) if x0 == x1 else (1, y0, *sorted((x0, x1)))


def price(plan, panels):
    """What a layout costs without the shapes of its panels."""
    joints = list(joints_between(panels))
    walls = [along(ends) for ends in plan.walls]
    served = [
        sum(
            overlap(low, high, start, end)
            for a, place, low, high in joints
            if a == axis and abs(place - at) <= HALF_WALL
        )
        for axis, at, start, end in walls
    ]
    length = sum(high - low for _, _, low, high in joints)
    bare = sum(
        (BARE_WALL + BARE_ONCE / (end - start)) * (end - start - under)
        for (_, _, start, end), under in zip(walls, served, strict=True)
    )
    lines = {(axis, round(place / NEAR)) for axis, place, _, _ in joints}
    return (
        OPEN * length
        - (OPEN - HIDDEN) * sum(served)
        + LINE * len(lines)
        + sum(TEE_HIDDEN if _is_hidden(walls, at) else TEE for at in tees(panels))
        + bare
        + PASSED * sum(_is_amid_side(panel, at) for panel in panels for at in plan.corners)
        + BARE_POINTS * sum(_is_amid_side(panel, at) for panel in panels for at in plan.columns)
        + COLUMN_INSIDE * sum(_holds(panel, at) for panel in panels for at in plan.columns)
    )


def tees(panels):
    """Where two panels have a corner that lies amid the side of a third."""
    spots = {(round(p[i], 2), round(p[j], 2)) for p in panels for i in (0, 2) for j in (1, 3)}
    return [
        at
        for at in sorted(spots)
        if sum(_is_corner(panel, at) for panel in panels) == 2
        and any(_is_amid_side(panel, at) for panel in panels)
    ]


def _is_corner(panel, at):
    return all(min(abs(panel[a] - at[a]), abs(panel[a + 2] - at[a])) < 2 * NEAR for a in (0, 1))


def _is_amid_side(panel, at):
    return any(
        min(abs(panel[a] - at[a]), abs(panel[a + 2] - at[a])) < 2 * NEAR
        and panel[1 - a] + 2 * NEAR < at[1 - a] < panel[3 - a] - 2 * NEAR
        for a in (0, 1)
    )


def _holds(panel, at):
    return all(panel[a] + 2 * NEAR < at[a] < panel[a + 2] - 2 * NEAR for a in (0, 1))


def _is_hidden(walls, at):
    return any(
        abs(at[axis] - place) <= HALF_WALL and start - NEAR <= at[1 - axis] <= end + NEAR
        for axis, place, start, end in walls
    )


def own_price(plan, found):
    """The price of a layout."""
    panels = [tuple(v / FOOT for v in p.polygon.bounds) for p in found.panels]
    return price(plan, panels) + sum(panel_price(x1 - x0, y1 - y0) for x0, y0, x1, y1 in panels)


def counts(side):
    """Into how many bays a side may go: as few as can be, as few as the advised span asks for, or one more."""
    return range(math.ceil(side / GREATEST - 1e-6), math.ceil(side / SPAN - 1e-6) + 2)


def cells(part, bays):
    """The panels of a part in even bays, and what their shapes cost at the most, their places rounded to whole inches."""
    sizes = [(part[a + 2] - part[a]) / bays[a] for a in (0, 1)]
    slips = [(0.0,) if n == 1 else (-INCH, 0.0, INCH) for n in bays]
    each = max(panel_price(sizes[0] + a, sizes[1] + b) for a, b in product(*slips))
    fewest = [math.ceil((part[a + 2] - part[a]) / SPAN - 1e-6) for a in (0, 1)]
    off = [
        0.0 if n == 1 else INCH / size + max(few / n - 1, 0)
        for n, size, few in zip(bays, sizes, fewest, strict=True)
    ]
    stops = [[part[a] + i * sizes[a] for i in range(bays[a] + 1)] for a in (0, 1)]
    boxes = [(x0, y0, x1, y1) for x0, x1 in pairwise(stops[0]) for y0, y1 in pairwise(stops[1])]
    return boxes, len(boxes) * (each + UNEVEN * sum(off))


def best_grid(plan):
    """The least price of the parts of a slab in even bays, as many in sides that are alike."""
    return min(grid_price(plan, parts, most) for parts in plan.parts for most in ways(parts))


def sides(part):
    """The lengths of a part along both axes, so that alike ones are the same."""
    return [(a, round(part[a + 2] - part[a], 3)) for a in (0, 1)]


def ways(parts):
    """How many bays go into each side."""
    every = sorted({side for part in parts for side in sides(part)})
    for choice in product(*(counts(length) for _, length in every)):
        yield dict(zip(every, choice, strict=True))


def grid_price(plan, parts, most):
    """The price of a grid; endless where a panel breaks a rule."""
    made = [cells(part, [most[side] for side in sides(part)]) for part in parts]
    shapes = sum(cost for _, cost in made)
    if math.isinf(shapes):
        return math.inf
    return shapes + price(plan, [panel for panels, _ in made for panel in panels])


def inches(value):
    return round(value * 12) / 12


def halls():
    """Columns in rows of one pitch each way, the outer bays alike or shorter."""
    random = Random(5)
    for number in range(22):
        stops = []
        for _ in (0, 1):
            pitch, most = inches(random.uniform(9, 29)), random.choice((2, 3))
            outer = pitch if number % 3 else inches(pitch * random.uniform(0.5, 1))
            stops.append([0, outer, *(outer + pitch * i for i in range(1, most - 1))])
            stops[-1].append(stops[-1][-1] + outer)
        xs, ys = stops
        yield Plan(
            outline=corners_of((0, 0, xs[-1], ys[-1])),
            parts=(bays_between(xs, ys),),
            columns=tuple(product(xs[1:-1], ys[1:-1])),
        )


def bays_between(xs, ys):
    return tuple((x0, y0, x1, y1) for x0, x1 in pairwise(xs) for y0, y1 in pairwise(ys))


def corners_of(part):
    """The corners of a rectangle."""
    x0, y0, x1, y1 = part
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def houses():
    """Rooms side by side between walls, some of them halved by a wall across."""
    random = Random(6)
    for _ in range(22):
        high = inches(random.uniform(12, 30))
        xs = [0]
        for _ in range(random.choice((2, 3))):
            xs.append(xs[-1] + inches(random.uniform(9, 22)))
        walls = [((x, 0), (x, high)) for x in xs[1:-1]]
        rooms = []
        for x0, x1 in pairwise(xs):
            if random.random() < 0.3 and high > 18:
                y = inches(high * random.uniform(0.4, 0.6))
                walls.append(((x0, y), (x1, y)))
                rooms += [(x0, 0, x1, y), (x0, y, x1, high)]
            else:
                rooms.append((x0, 0, x1, high))
        yield Plan(corners_of((0, 0, xs[-1], high)), (tuple(rooms),), tuple(walls))


def wings():
    """L, T and U shapes, each parted both ways at its re-entrant corners."""
    random = Random("7-2")
    for number in range(24):
        wide, high = inches(random.uniform(24, 55)), inches(random.uniform(18, 42))
        a, b = inches(wide * random.uniform(0.25, 0.45)), inches(high * random.uniform(0.35, 0.65))
        c = wide - a if number % 2 else inches(wide * random.uniform(0.55, 0.75))
        if number % 3 == 0:
            outline = ((0, 0), (wide, 0), (wide, b), (a, b), (a, high), (0, high))
            across = ((0, 0, wide, b), (0, b, a, high))
            upright = ((0, 0, a, high), (a, 0, wide, b))
        elif number % 3 == 1:
            outline = ((0, 0), (wide, 0), (wide, b), (c, b), (c, high), (a, high), (a, b), (0, b))
            across = ((0, 0, wide, b), (a, b, c, high))
            upright = ((0, 0, a, b), (a, 0, c, high), (c, 0, wide, b))
        else:
            outline = (
                (0, 0),
                (wide, 0),
                (wide, high),
                (c, high),
                (c, b),
                (a, b),
                (a, high),
                (0, high),
            )
            across = ((0, 0, wide, b), (0, b, a, high), (c, b, wide, high))
            upright = ((0, 0, a, high), (a, 0, c, b), (c, 0, wide, high))
        yield Plan(outline, (across, upright))


PLANS = {
    f"{kind} {number}": plan
    for kind, plans in (("hall", halls()), ("house", houses()), ("wing", wings()))
    for number, plan in enumerate(plans)
}


@pytest.mark.parametrize("name", PLANS)
def test_no_even_grid_costs_less(name):
    plan = PLANS[name]
    assert own_price(plan, layout(plan.slab)) <= best_grid(plan)


def test_the_prices_are_those_of_the_weights():
    weights = Weights()
    assert (
        weights.length_open, weights.length_hidden, weights.tee, weights.tee_hidden,
    ) == (OPEN, HIDDEN, TEE, TEE_HIDDEN)  # fmt: skip
    assert (
        weights.line, weights.square, weights.aspect_advised, weights.span_advised, weights.warned, weights.uneven,
    ) == (LINE, SQUARE, LONG, OVER_SPAN, WARNED, UNEVEN)  # fmt: skip
    assert (
        weights.wall_bare, weights.wall_bare_once, weights.column_points, weights.column_inside, weights.corner_passed,
    ) == (BARE_WALL, BARE_ONCE, 2 * BARE_POINTS, COLUMN_INSIDE, PASSED)  # fmt: skip
