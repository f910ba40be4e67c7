"""The division of small floors against every division there is, tried one by one.

The search cuts along whole joint lines only. The oracle knows of no cuts: it takes every way to put up to nine panels
into connected placements, prices each by the words of the module (a placement, a wrapped corner, likeness of size, feet
of bulkhead), and no way may be cheaper than what was found, but for whirls: placements around one in their middle, whose
bulkheads all end on each other, can be more alike by a hair than any that whole lines part.
"""

from collections.abc import Iterator
from functools import cache

import networkx as nx
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon, box

from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.division import DayLimit, Sizes, divide, members
from kerfline.placement.panel_graph import borders
from shapes import layout_of

FOOT = 304.8
PLACEMENT, CORNER, OVER, LIKENESS, BULKHEAD = 1.0, 2.0, 1000.0, 0.2, 0.1
"""Prices, as the search states them: a corner is worth two placements, a bulkhead as long as the floor's side a tenth."""


def partitions(items: list[int]) -> Iterator[list[list[int]]]:
    """Every way to part a list into sets."""
    if not items:
        yield []
        return
    first, *rest = items
    for parts in partitions(rest):
        for i, part in enumerate(parts):
            yield [*parts[:i], [first, *part], *parts[i + 1 :]]
        yield [[first], *parts]


def turns_in(area: Polygon) -> int:
    """Corners of an outer edge that turn into it, counted from the signs of its turns."""
    points = list(shapely.normalize(area.simplify(1.0)).exterior.coords)[:-1]
    count = 0
    for a, b, c in zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True):
        cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        count += cross > 1.0
    return count  # a normalised ring runs clockwise: a left turn is re-entrant


def cheapest(panels: list[Polygon], limit: float) -> tuple[float, int]:
    """Least price of all divisions into connected placements, and how many placements it takes."""
    graph = nx.Graph()
    graph.add_nodes_from(range(len(panels)))
    for i, one in enumerate(panels):
        for j in range(i):
            shared = one.intersection(panels[j]).length
            if shared > 1.0:
                graph.add_edge(i, j, feet=shared)
    side = sum(p.area for p in panels) ** 0.5

    @cache
    def price(part: frozenset[int]) -> float:
        if not nx.is_connected(graph.subgraph(part)):
            return float("inf")
        share = sum(panels[i].area for i in part) / limit
        if share > 1 + 1e-6:
            return PLACEMENT + LIKENESS * share**2 + OVER * share
        corners = turns_in(shapely.union_all([panels[i] for i in sorted(part)]))
        return PLACEMENT + LIKENESS * share**2 + CORNER * corners

    best = (float("inf"), 0)
    for parts in partitions(list(range(len(panels)))):
        total = sum(price(frozenset(part)) for part in parts)
        if total >= best[0]:
            continue
        home = {i: n for n, part in enumerate(parts) for i in part}
        feet = sum(d["feet"] for i, j, d in graph.edges(data=True) if home[i] != home[j])
        best = min(best, (total + BULKHEAD * feet / side, len(parts)))
    return best


def found(panels: list[Polygon], regions: list[list[int]], limit: float) -> float:
    """The price of one division by the same measures."""
    side = sum(p.area for p in panels) ** 0.5
    home = {i: n for n, part in enumerate(regions) for i in part}
    feet = sum(
        panels[i].intersection(panels[j]).length
        for i in range(len(panels))
        for j in range(i)
        if home[i] != home[j]
    )
    total = BULKHEAD * feet / side
    for part in regions:
        share = sum(panels[i].area for i in part) / limit
        over = share > 1 + 1e-6
        corners = 0 if over else turns_in(shapely.union_all([panels[i] for i in part]))
        total += PLACEMENT + LIKENESS * share**2 + CORNER * corners + OVER * share * over
    return total


def floor(columns: list[int], rows: list[int], *, notch: bool):
    """A layout of bays so many feet wide and deep, the last bay of the last row left out or not."""
    xs = [FOOT * sum(columns[:i]) for i in range(len(columns) + 1)]
    ys = [FOOT * sum(rows[:i]) for i in range(len(rows) + 1)]
    whole = box(0, 0, xs[-1], ys[-1])
    if notch:
        whole = whole.difference(box(xs[-2], ys[-2], xs[-1], ys[-1]))
    points = tuple((float(x), float(y)) for x, y in whole.exterior.coords[:-1])
    slab = Slab(outline=Ring(points), thickness=100.0)
    lines = [((x, 0.0), (x, ys[-2] if notch and x == xs[-2] else ys[-1])) for x in xs[1:-1]]
    lines += [((0.0, y), (xs[-2] if notch and y == ys[-2] else xs[-1], y)) for y in ys[1:-1]]
    return layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, line) for line in lines])


WHIRL = 0.002
"""Share of the price that a whirl may save; in hundreds of floors one did, 0.0008."""

BAYS = st.lists(st.integers(10, 18), min_size=2, max_size=3)


@settings(max_examples=25)
@given(columns=BAYS, rows=BAYS, days=st.floats(1.2, 5.0), notch=st.booleans())
def test_no_division_of_a_small_floor_is_cheaper(columns, rows, days, notch):
    layout = floor(columns, rows, notch=notch)
    panels = [panel.polygon for panel in layout.panels]
    limit = sum(p.area for p in panels) / days
    assume(limit > max(p.area for p in panels))  # a panel that is too large alone stands alone
    sizes = Sizes(volumes=[p.area for p in panels], polygons=panels, holes=MultiPolygon())
    regions = divide(
        sizes, borders(layout), DayLimit(volume=limit, area=float("inf")), always_split=False
    )
    parts = [members(region) for region in regions]
    best, count = cheapest(panels, limit)
    price = found(panels, parts, limit)
    assert price <= best * (1 + WHIRL) + 1e-3
    assert len(parts) == count
    if min(len(columns), len(rows)) == 2:
        assert price == pytest.approx(best, abs=1e-3)
