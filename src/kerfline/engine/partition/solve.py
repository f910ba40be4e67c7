"""The best cover of a set partition: a linear programme grown by its best columns, then whole choices.

The search begins with the panels that cost least for their area. The duals of the linear programme price
all others; those that would pay are added until none would. Its value is a lower bound. If its answer is
whole it is the best.

Otherwise two quick dives look for whole choices: a dive takes the most likely choice that is still open as given
and solves again, until every choice is whole. One dive goes panel by panel, the other line by line; on most slabs one
of them ends at the best cover or within a few thousandths of it. HiGHS starts from there, in a counted search for
proof, among the panels whose reduced cost is within the gap: no other can be part of a better cover.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.effort import ROUND, Effort
from kerfline.engine.partition.set_partition import (
    GAP,
    LEAST_ITERATIONS,
    WHOLE,
    Master,
    RoundCount,
    SetPartition,
)
from kerfline.geometry.arrays import Flags, Integers, Numbers

FARTHEST = 0.03
"""Share of the cost up to which panels are looked at beyond the linear programme."""

BLIND = (0.002, 0.02, 0.2)
"""The same, one after the other, where no dive ended at a cover."""

LEAST_ROUNDS = 3
"""Rounds of proof in any case."""

BLIND_ROUNDS = 40
"""Rounds in any case where there is no cover yet."""

PAYS = 0.05
"""Slack when a reduced cost is held against the gap, mm of joint."""

UNHELPFUL = (
    "mip_heuristic_run_feasibility_jump",
    "mip_heuristic_run_rins",
    "mip_heuristic_run_rens",
    "mip_heuristic_run_root_reduced_cost",
)
"""Heuristics that cost more than they find once a dive has found a cover."""

FIRST = 6000
"""Most panels that the search begins with, single cells not counted."""

BATCH = 3000
"""Most panels that are added in one round."""

ROUNDS = 60
"""Most rounds of adding panels; reached only by the largest programmes, which then stay unproven."""

MANY = 400
"""With more new panels than this the linear programme is solved afresh, which is then quicker."""

INSIDE_ROWS = 2400
"""Programmes of so many rows, and more, of hard kinds are looked at from the inside first: below, the simplex method is
as quick."""

NEARLY = 5e-4
"""Share of the cost up to which panels that the inside prices are begun with: the best among them is found at once."""

TO_DIVE = 2e-3
"""The same for those that dives may take besides."""

DIGITS = 6
"""Prices are compared to this many digits of a millimetre of joint."""

HALF = 0.5
"""A column above this is taken."""


@dataclass(frozen=True, kw_only=True)
class WholeAnswer:
    """Whole choices.

    Attributes:
        values: Of all columns.
        cost: The cost.
    """

    values: Numbers
    cost: float


def dives(master: Master, effort: Effort) -> WholeAnswer | None:
    """The better of two dives from the linear programme's answer; None where both end nowhere."""
    start = master.solver.getBasis()
    best: WholeAnswer | None = None
    for by_line in (False, True):
        if by_line:
            if effort.left <= 0.0 and best is not None:
                break
            master.solver.setBasis(start)
            master.solve(effort)
        found = _dive(master, effort, by_line=by_line)
        master.open_all()
        if found and (best is None or round(found.cost) < round(best.cost)):
            best = found
    return best


def _dive(master: Master, effort: Effort, *, by_line: bool) -> WholeAnswer | None:
    """Takes the likeliest open choice as given, again and again."""
    while not effort.over:
        values = master.values()
        panels = values[master.fixed :]
        if not _open(panels).any():
            return WholeAnswer(values=values, cost=master.cost)
        lines = values[master.model.first_line : master.fixed]
        if by_line and _open(lines).any():
            given = _line_given(master, effort, lines)
        else:
            likely = int(np.argmax(np.where(_open(panels), panels, 0.0)))
            given = master.give(master.fixed + likely, 1.0, effort)
        if not given:
            return None
    return None


def _line_given(master: Master, effort: Effort, lines: Numbers) -> bool:
    """The line that is nearest to being used or not taken as used or not; else the other way."""
    near = np.where(_open(lines), np.minimum(lines, 1.0 - lines), 1.0)
    line = int(np.argmin(near))
    wish = float(round(float(lines[line])))
    column = master.model.first_line + line
    return master.give(column, wish, effort) or master.give(column, 1.0 - wish, effort)


def _open(values: Numbers) -> Flags:
    """Choices that are neither taken nor left."""
    return np.asarray(np.minimum(values, 1.0 - values) > WHOLE)


def proven(
    master: Master, start: WholeAnswer | None, bound: float, priced: Numbers, effort: Effort
) -> tuple[WholeAnswer | None, float]:
    """The best cover found and the bound reached, with the effort that is left.

    Args:
        master: The programme, solved over all panels.
        start: A cover to begin with.
        bound: Value of the linear programme.
        priced: Reduced costs of all orbits.
        effort: What may be spent.
    """
    if start is not None:
        reach = min(start.cost - bound + PAYS, FARTHEST * start.cost)
        found, low = _searched(master, start, priced, reach, LEAST_ROUNDS, effort)
        return found, max(bound, min(low, bound + reach))
    for share in BLIND:
        reach = share * bound
        found, low = _searched(master, None, priced, reach, BLIND_ROUNDS, effort)
        if found is not None:
            return found, max(bound, min(low, bound + reach))
    return None, bound


def _searched(
    master: Master,
    start: WholeAnswer | None,
    priced: Numbers,
    reach: float,
    least: int,
    effort: Effort,
) -> tuple[WholeAnswer | None, float]:
    """Whole choices among the panels within reach."""
    master.add(np.flatnonzero(priced <= reach))
    master.close(priced > reach)
    master.make_whole()
    for name in UNHELPFUL:
        master.solver.setOptionValue(name, start is None)
    if start is not None:
        master.begin_with(start.values)
    rows = master.model.rows.count
    rounds = RoundCount(master.solver, max(least, effort.rounds(rows)))
    master.solver.setOptionValue(
        "simplex_iteration_limit", effort.iterations(rows, LEAST_ITERATIONS)
    )
    master.solver.run()
    effort.spend(rounds.done * ROUND, rows)
    low = float(master.solver.getInfo().mip_dual_bound)
    if not master.has_answer():
        return start, low
    found = WholeAnswer(values=master.values(), cost=master.cost)
    return (found if start is None or found.cost < start.cost else start), low


@dataclass(frozen=True, kw_only=True)
class Cover:
    """A choice of panels.

    Attributes:
        chosen: Indices of the panels.
        cost: Its cost, mm of joint.
        bound: No choice of the panels costs less than this.
        proven: Whether the search was carried to its end.
        hard: Whether the linear programme took the simplex method more iterations than it has rows, which few do: one a
            little larger may then take many times as long.
    """

    chosen: Integers
    cost: float
    bound: float
    proven: bool
    hard: bool = False


@dataclass(frozen=True, kw_only=True)
class Relaxed:
    """The linear programme over all panels.

    Attributes:
        bound: No cover costs less than this, mm of joint.
        priced: Costs of all orbits beyond what the duals pay for them.
        complete: Whether no panel is left out that would pay.
        iterations: Of the simplex method, in all.
    """

    bound: float
    priced: Numbers
    complete: bool = True
    iterations: int = 0


def best_cover(
    model: SetPartition, likely: Flags, effort: Effort, *, gap: float = GAP, hard: bool = False
) -> Cover | None:
    """The best cover; None where the search found none.

    Args:
        model: The programme.
        likely: The panels to begin with: those that break no rule.
        effort: What may be spent.
        gap: Share of the cost by which it may be off the bound when the search ends.
        hard: Whether the programme is of a kind that takes the simplex method more iterations than it has rows.
    """
    if effort.over:
        return None
    inside = _from_inside(model, effort) if hard and model.rows.count >= INSIDE_ROWS else None
    master = Master(model)
    master.add(_first_orbits(master, likely) if inside is None else _near(master, inside, NEARLY))
    relaxed = _linear(master, effort, inside)
    if relaxed is None:
        return None
    bound, priced = relaxed.bound, relaxed.priced
    values, cost = master.values(), master.cost
    panels = values[master.fixed :]
    best: WholeAnswer | None
    if (np.minimum(panels, 1.0 - panels) < WHOLE).all():
        best, reached = WholeAnswer(values=values, cost=cost), bound
    else:
        if inside is relaxed:
            master.add(_near(master, inside, TO_DIVE))
            master.solve(effort)
        best, reached = dives(master, effort), bound
        if best is None or (best.cost - bound > gap * best.cost and effort.left > 0.0):
            best, reached = proven(master, best, bound, priced, effort)
    if best is None:
        return None
    hard = relaxed.iterations > model.rows.count
    return _cover(master, best, reached if relaxed.complete else bound, relaxed.complete, hard)


def _from_inside(model: SetPartition, effort: Effort) -> Relaxed | None:
    """The bound and prices of a method that goes through the inside: it looks at all panels at once."""
    master = Master(model)
    master.add(np.arange(len(master.heads)))
    duals = master.duals_from_inside(effort)
    if duals is None:
        return None
    priced = np.round(master.by_orbit(model.reduced_costs(duals)), DIGITS)
    return Relaxed(bound=model.bound(duals, priced), priced=priced)


def _near(master: Master, inside: Relaxed, share: float) -> Integers:
    """Orbits priced within a share of the bound, and the single cells."""
    return np.flatnonzero((inside.priced <= share * inside.bound) | _single(master))


def _single(master: Master) -> Flags:
    """The orbits that hold a single cell: with those there is always some cover."""
    return np.asarray(master.by_orbit(master.model.single.astype(float)) > 0.0)


def _first_orbits(master: Master, likely: Flags) -> Integers:
    """The likely orbits, the cheapest for their area where they are many, and the single cells."""
    price = np.round(
        master.by_orbit(master.model.panel_cost) / master.by_orbit(master.model.area), DIGITS
    )
    good = master.by_orbit((~likely).astype(float)) == 0
    order = np.lexsort((price, ~good))[: min(int(good.sum()), FIRST)]
    return np.union1d(order, np.flatnonzero(_single(master)))


def _linear(master: Master, effort: Effort, inside: Relaxed | None) -> Relaxed | None:
    """The linear programme over all panels; at once where the value reaches a bound that is known from the inside."""
    solver, iterations = master.solver, 0
    for _ in range(ROUNDS):
        solved = master.solve(effort)
        iterations += master.iterations
        if effort.over or master.was_stopped():
            return None
        if not solved:
            if master.added.all():
                return None
            master.add(np.arange(len(master.heads)))
            solver.clearSolver()
            continue
        value = master.cost
        if inside is not None and value - inside.bound <= GAP * value:
            return inside
        duals = np.asarray(solver.getSolution().row_dual)
        priced = np.round(master.by_orbit(master.model.reduced_costs(duals)), DIGITS)
        pays = np.flatnonzero((priced < 0.0) & ~master.added)
        bound = value + float(priced[pays].sum())
        if value - bound <= GAP * value:
            return Relaxed(bound=bound, priced=priced, iterations=iterations)
        best = pays[np.argsort(priced[pays], kind="stable")[:BATCH]]
        master.add(np.sort(best))
        if len(best) > MANY:
            solver.clearSolver()
    # What the last round added has unset the solver's answer.
    if not master.solve(effort):
        return None
    return Relaxed(bound=bound, priced=priced, complete=False, iterations=iterations)


def _cover(
    master: Master,
    best: WholeAnswer,
    bound: float,
    complete: bool,  # noqa: FBT001
    hard: bool,  # noqa: FBT001
) -> Cover:
    panels = best.values[master.fixed :]
    orbits = master.listed[: len(panels)][panels > HALF]
    chosen, _ = master.panels_of(orbits)
    proof = complete and best.cost - bound <= max(1.0, GAP * best.cost)
    return Cover(
        chosen=np.sort(chosen),
        cost=best.cost,
        bound=min(bound, best.cost),
        proven=proof,
        hard=hard,
    )
