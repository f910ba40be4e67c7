"""The solver for near-orthogonal regions: the steps in order."""

from dataclasses import replace

from kerfline.engine.oblique import lay_out_region
from kerfline.engine.options import Weights
from kerfline.engine.orthogonal.canonical import canonical, cut_back
from kerfline.engine.orthogonal.exact import layout_of, solve_exact
from kerfline.engine.orthogonal.large import is_large, solve_large
from kerfline.engine.region import Region, RegionLayout


def solve(region: Region, weights: Weights, seconds: float) -> RegionLayout:
    """The best layout of a near-orthogonal region: exact, or in blocks where it is large.

    A slab that is too irregular for either goes to the general method.

    Args:
        region: The region, in its frame.
        weights: What each thing is worth.
        seconds: Effort of the search.
    """
    turned, move = canonical(region)
    if is_large(turned):
        layout = solve_large(turned, weights, seconds)
    else:
        found = solve_exact(turned, weights, seconds)
        layout = layout_of(turned, found) if found else lay_out_region(turned)
    return replace(layout, cuts=tuple(cut_back(cut, move) for cut in layout.cuts))
