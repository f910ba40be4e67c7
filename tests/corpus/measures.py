"""What is counted on the layouts of a corpus, and the table of it.

Run as a script for the table in the developers' guide::

    python tests/corpus/measures.py 100 150 200
"""

import sys
import time
from collections import Counter
from pathlib import Path

import shapely

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.corners import corners
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Rule, Severity
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display

FULL = 0.9
"""Share of its convex hull that a panel fills and still is no L, T or hook."""

TILED = 1e-6
"""Share of the area by which the panels may miss the slab."""


def floor_rules() -> SlabRules:
    """The rule set that the corpus is laid out by."""
    return SlabRules(rule_set=load("floor"))


def laid_out(slab):
    """A layout in metric positions."""
    return lay_out(slab, floor_rules(), EngineOptions(display=Display.METRIC))


def counted(slab) -> Counter:
    """Counts on the layout of one slab."""
    rules = floor_rules()
    began = time.process_time()
    layout = laid_out(slab)
    seconds = time.process_time() - began
    found = check(slab, layout, rules, Display.METRIC)
    limits = rules.working(slab.thickness)
    shapes = [p.polygon for p in layout.panels]
    tiled = abs(sum(s.area for s in shapes) / slab.concrete.area - 1) < TILED
    return Counter(
        panels=len(shapes),
        hard=sum(p.length > 1.05 * limits.span + 0.5 for p in layout.panels) + (not tiled),
        aspect=sum(p.aspect > limits.aspect + 1e-4 for p in layout.panels),
        narrow=sum(p.width < limits.width - 0.5 for p in layout.panels),
        odd=sum(s.area < FULL * s.convex_hull.area for s in shapes),
        sharp=sum(f.rule is Rule.ANGLE and f.severity is Severity.ERROR for f in found),
        corners=len(slab.reentrant_corners),
        unmet=unmet(slab, layout),
        bare=sum(any(c.reentrant for c in corners(s)) for s in shapes),
        seconds=seconds,
        slowest=seconds,
    )


def unmet(slab, layout) -> int:
    """How many of the slab's own re-entrant corners no joint leaves."""
    joints = shapely.union_all([j.line for j in layout.joints])
    spots = [shapely.Point(c.at) for c in slab.reentrant_corners]
    return sum(joints.is_empty or joints.distance(s) > TOUCH for s in spots)


def table(slabs) -> Counter:
    """The counts over many slabs."""
    total = Counter()
    for slab in slabs:
        counts = counted(slab)
        slowest = max(total["slowest"], counts["slowest"])
        total.update(counts)
        total["slowest"] = slowest
    return total


def row(name, thickness, total) -> str:
    """One line of the table, in Markdown."""
    share = {k: 100 * total[k] / total["panels"] for k in ("aspect", "narrow", "odd", "sharp")}
    return (
        f"| {name} | {thickness:.0f} | {total['panels']} | {total['hard']} | "
        + " | ".join(f"{share[k]:.2f} %" for k in share)
        + f" | {total['unmet']} of {total['corners']} | {total['bare']} | {total['seconds']:.0f} | {total['slowest']:.1f} |"
    )


def main(arguments) -> None:
    """Prints the table for the thicknesses (mm) that are asked for."""
    sys.path.insert(0, str(Path(__file__).parents[1]))
    from corpus.floors import floor_slab, floors
    from corpus.footprints import footprints, slab_on

    print(
        "| slabs | mm | panels | hard rules broken | over aspect | narrow | odd | sharp | corners unmet "
        "| panels with one | seconds | slowest |"
    )
    print("|---|---|---|---|---|---|---|---|---|---|---|---|")
    for thickness in map(float, arguments or ("100", "150", "200")):
        plans = table(floor_slab(outline, walls, thickness) for _, outline, walls in floors())
        print(row("6 floors with walls", thickness, plans), flush=True)
        surveyed = table(slab_on(outline, thickness) for _, outline in footprints())
        print(row("160 surveyed footprints", thickness, surveyed), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
