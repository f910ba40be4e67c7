"""The solver for near-orthogonal regions: the steps in order."""

import math
from dataclasses import replace

from kerfline.engine.effort import Effort
from kerfline.engine.general import lay_out_region
from kerfline.engine.large.blockwise import is_large, solve_large
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition.on_grid import ATTEMPTS, SECOND, layout_of, solve_exact
from kerfline.engine.regions.canonical import Move, canonical, cut_back
from kerfline.engine.regions.region import Region, RegionLayout


def solve(region: Region, options: EngineOptions, effort: Effort) -> RegionLayout:
    """The best layout of a near-orthogonal region, or of any large one: exact, or in blocks.

    A slab that is too irregular for either goes to the general method.

    Args:
        region: The region, in its frame.
        options: What the user chose.
        effort: What may be spent.
    """
    found = _exact(region, options, effort)
    if found is not None:
        return found
    turned, move = canonical(region)
    return _turned_back(lay_out_region(turned, options, effort.share(1.0)), move)


def second_opinion(region: Region, options: EngineOptions, effort: Effort) -> RegionLayout | None:
    """The exact layout of a region that the general method has laid out already; None where none fits.

    Args:
        region: The region, in its frame.
        options: What the user chose.
        effort: What may be spent.
    """
    return _exact(region, options, effort, SECOND)


def _exact(
    region: Region, options: EngineOptions, effort: Effort, attempts: int = ATTEMPTS
) -> RegionLayout | None:
    """The exact layout of a region, in blocks where it is large."""
    weights = Weights.of(options.weights)
    turned, move = canonical(region)
    if is_large(turned):
        return _turned_back(
            solve_large(turned, weights, replace(effort, patience=math.inf), options), move
        )
    found = solve_exact(turned, weights, effort, attempts)
    return _turned_back(layout_of(turned, found), move) if found else None


def _turned_back(layout: RegionLayout, move: Move) -> RegionLayout:
    return replace(layout, cuts=tuple(cut_back(cut, move) for cut in layout.cuts))
