"""How far joints are over their bound, and how much of that is the layout's own choice.

Run as a script for the table in the developers' guide; with ``footprints`` for those of the corpus::

    PYTHONPATH=tests python tests/benchmarks/bounds.py [footprints]
"""

import statistics
import sys
from collections.abc import Iterator

from corpus.footprints import footprints, slab_on
from golden.plans import PLANS
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.model.slab import Slab
from kerfline.units import Display
from unit.engine.plans import RULES

LOOKS = ("tee", "tee_hidden", "line", "square", "small", "uneven", "landing")
"""The weights of what is not joint, not a limit, and not an advised value."""

BARE = dict.fromkeys(LOOKS, 0.0)
THICKNESS = 150.0


def over(length: float, least: float) -> float:
    """By what share a length is over a bound; none where there is no bound."""
    return max(0.0, length / least - 1.0) if least else float("nan")


def slabs(which: str) -> Iterator[tuple[str, Slab, Display]]:
    """The slabs by name, and the units in which each is laid out."""
    if which == "footprints":
        yield from ((n, slab_on(o, THICKNESS), Display.METRIC) for n, o in footprints())
    else:
        yield from ((name, plan, Display.FEET_INCHES) for name, plan in PLANS.items())


def main(which: str = "golden") -> None:
    """Prints a row for each slab, then mean and median of the square ones and of the others."""
    print("| slab | joint over its bound | laid out without looks, over the bound of that |")
    print("|---|---|---|")
    found: dict[str, list[tuple[float, ...]]] = {"square": [], "not square": []}
    for name, slab, display in slabs(which):
        options = EngineOptions(display=display)
        bare_options = EngineOptions(display=display, weights=BARE)
        layout, bare = lay_out(slab, RULES, options), lay_out(slab, RULES, bare_options)
        least, own = layout.solution.length_bound, bare.solution.length_bound
        row = (over(layout.joint_length, least), over(bare.joint_length, own))
        square = all(place.orthogonal for place in regions_of(slab, RULES, options))
        if layout.joints and least:
            found["square" if square else "not square"].append(row)
        print(f"| {name} |" + "".join(f" {share:.1%} |" for share in row), flush=True)
    for kind, rows in found.items():
        for word, of in (("mean", statistics.mean), ("median", statistics.median)):
            if rows:
                shares = [of(column) for column in zip(*rows, strict=True)]
                print(f"| {word} of {len(rows)} {kind} |" + "".join(f" {s:.1%} |" for s in shares))


if __name__ == "__main__":
    main(*sys.argv[1:])
