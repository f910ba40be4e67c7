"""The solver for near-orthogonal regions: the steps in order."""

from dataclasses import replace

from kerfline.engine.options import Weights
from kerfline.engine.orthogonal.canonical import canonical, cut_back
from kerfline.engine.orthogonal.exact import layout_of, solve_exact
from kerfline.engine.orthogonal.large import is_large, solve_large
from kerfline.engine.region import Region, RegionLayout


def solve(region: Region, weights: Weights, seconds: float) -> RegionLayout:
    """The best layout of a near-orthogonal region: exact, or in blocks where it is large.

    Args:
        region: The region, in its frame.
        weights: What each thing is worth.
        seconds: Effort of the search.
    """
    turned, move = canonical(region)
    if is_large(turned):
        layout = solve_large(turned, weights, seconds)
    else:
        layout = layout_of(turned, solve_exact(turned, weights, seconds))
    return replace(layout, cuts=tuple(cut_back(cut, move) for cut in layout.cuts))
