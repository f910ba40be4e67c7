"""On small slabs a second method, written apart from the engine, confirms that no layout costs less.

The engine's programme says that panels follow one another along rows; the one here says that every cell
is covered once, takes tees and chalk lines from pairs of panels' sides, and is solved by SciPy. The
enumeration tries every choice of panels there is.
"""

from itertools import combinations

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

from kerfline.engine.effort import Effort
from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition import on_grid
from kerfline.engine.partition.grid import grid
from kerfline.engine.partition.on_grid import solve_exact
from kerfline.engine.partition.rectangle_costs import panel_costs
from kerfline.engine.partition.rectangles import all_panels
from kerfline.engine.regions.orientation import canonical
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, Slab, Wall
from kerfline.rules import rule_set
from kerfline.rules.slab_rules import SlabRules

FOOT = 304.8
RULES = SlabRules(rule_set=rule_set.load("floor"))
WEIGHTS = Weights()


def ring(*points):
    return Ring(tuple((x * FOOT, y * FOOT) for x, y in points))


def slab(*outline, **more):
    return Slab(outline=ring(*outline), thickness=101.6, **more)


EL = ((0, 0), (22, 0), (22, 9), (12, 9), (12, 18), (0, 18))
PLANS = {
    "rectangle": slab((0, 0), (19, 0), (19, 13), (0, 13)),
    "el": slab(*EL),
    "el with a wall": slab(
        *EL, walls=(Wall(id="W1", path=((0, 8 * FOOT), (12 * FOOT, 8 * FOOT))),)
    ),
    "column": slab(
        (0, 0), (18, 0), (18, 16), (0, 16), columns=(Column(id="C1", at=(8 * FOOT, 9 * FOOT)),)
    ),
}


class CandidatePanel:
    """The panels of a small slab, as the engine lists them, with their costs."""

    def __init__(self, given, lines):
        place = placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0)
        self.region = canonical(place.region)[0]
        self.grid = grid(
            self.region, lattice(self.region, lines, self.region.working.span), WEIGHTS
        )
        self.panels = all_panels(self.grid, self.region, self.region.working.span)
        self.costs = panel_costs(self.grid, self.region, self.panels, WEIGHTS)

    def cells(self, p):
        low, high = self.panels.low, self.panels.high
        return [(i, j) for i in range(low[0][p], high[0][p]) for j in range(low[1][p], high[1][p])]

    def pieces(self, p):
        """The pieces of line around a panel that have slab on both sides."""
        (x0, y0), (x1, y1) = ((e[0][p], e[1][p]) for e in (self.panels.low, self.panels.high))
        up = [(0, x, j) for x in (x0, x1) for j in range(y0, y1)]
        across = [(1, y, i) for y in (y0, y1) for i in range(x0, x1)]
        return [s for s in (*up, *across) if self.grid.interior[s[0]][s[1], s[2]]]

    def inner_vertices(self):
        inside = self.grid.inside
        return [
            (i, j)
            for i in range(1, inside.shape[0])
            for j in range(1, inside.shape[1])
            if inside[i - 1 : i + 1, j - 1 : j + 1].all()
        ]

    def looks(self, joints):
        """What tees and chalk lines cost, given the set of pieces that are joints."""
        tees = sum(
            ((0, i, j) in joints) != ((0, i, j - 1) in joints)
            or ((1, j, i) in joints) != ((1, j, i - 1) in joints)
            for i, j in self.inner_vertices()
        )
        lines = len({(axis, line) for axis, line, _ in joints})
        return (WEIGHTS.tee * tees + WEIGHTS.line * lines) * FOOT


def best_by_trying_everything(choice):
    """The least cost over every exact cover, by depth-first search."""
    cells = [(int(i), int(j)) for i, j in np.argwhere(choice.grid.inside)]
    by_first = {cell: [] for cell in cells}
    for p in range(len(choice.panels)):
        by_first[choice.cells(p)[0]].append(p)
    best = [np.inf]

    def place(covered, chosen, cost):
        if cost >= best[0]:
            return
        free = next((c for c in cells if c not in covered), None)
        if free is None:
            joints = {s for p in chosen for s in choice.pieces(p)}
            best[0] = min(best[0], cost + choice.looks(joints))
            return
        for p in by_first[free]:
            own = set(choice.cells(p))
            if not own & covered:
                place(covered | own, [*chosen, p], cost + choice.costs[p])

    place(frozenset(), [], 0.0)
    return best[0]


def best_by_cells(choice):
    """The least cost by SciPy: each cell covered once, a tee where a line stops, a line where used."""
    count = len(choice.panels)
    cells = {tuple(c): k for k, c in enumerate(np.argwhere(choice.grid.inside))}
    vertices = choice.inner_vertices()
    lines = sorted({s[:2] for p in range(count) for s in choice.pieces(p)})
    sides = {}
    for p in range(count):
        for s in choice.pieces(p):
            sides.setdefault(s, []).append(p)
    size = count + len(vertices) + len(lines)
    cover = lil_matrix((len(cells), size))
    for p in range(count):
        for cell in choice.cells(p):
            cover[cells[cell], p] = 1
    rows = []
    for k, (i, j) in enumerate(vertices):
        for one, other in (((0, i, j), (0, i, j - 1)), ((1, j, i), (1, j, i - 1))):
            for plus, minus in combinations((one, other), 2):
                rows += [(plus, minus, count + k, 0.5), (minus, plus, count + k, 0.5)]
    rows += [(s, None, count + len(vertices) + lines.index(s[:2]), 0.5) for s in sorted(sides)]
    at_most = lil_matrix((len(rows), size))
    for r, (plus, minus, column, half) in enumerate(rows):
        for p in sides.get(plus, []):
            at_most[r, p] += half
        for p in sides.get(minus, []) if minus else []:
            at_most[r, p] -= half
        at_most[r, column] -= 1
    cost = np.r_[
        choice.costs,
        np.full(len(vertices), WEIGHTS.tee * FOOT),
        np.full(len(lines), WEIGHTS.line * FOOT),
    ]
    found = milp(
        cost,
        constraints=[
            LinearConstraint(cover.tocsr(), 1, 1),
            LinearConstraint(at_most.tocsr(), -np.inf, 0),
        ],
        integrality=np.r_[np.ones(count), np.zeros(size - count)],
        bounds=Bounds(0, 1),
    )
    assert found.success
    return found.fun


def on_lines(monkeypatch, count):
    """The search takes so many lines on an axis, of narrow slabs as of others."""
    monkeypatch.setattr(on_grid, "MOST_LINES", (count,))
    monkeypatch.setattr(on_grid, "NARROW", 0)


@pytest.mark.parametrize("name", ["rectangle", "el"])
def test_no_choice_of_panels_costs_less(name, monkeypatch):
    """Every exact cover of a coarse grid is tried."""
    on_lines(monkeypatch, 5)
    choice = CandidatePanel(PLANS[name], 5)
    found = solve_exact(choice.region, WEIGHTS, Effort(5.0))
    assert found.answer.cover.proven
    assert found.answer.cover.cost == pytest.approx(best_by_trying_everything(choice), rel=2e-4)


@pytest.mark.parametrize("name", sorted(PLANS))
def test_a_second_solver_finds_the_same_cost(name, monkeypatch):
    on_lines(monkeypatch, 9)
    choice = CandidatePanel(PLANS[name], 9)
    weights = Weights(tee_hidden=WEIGHTS.tee)
    found = solve_exact(choice.region, weights, Effort(5.0))
    assert found.answer.cover.cost == pytest.approx(best_by_cells(choice), rel=2e-4)
