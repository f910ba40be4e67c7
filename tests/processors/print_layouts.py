"""Prints what the engine makes of a sample of slabs, one line each: started as a process of its own.

python tests/processors/print_layouts.py short|long
"""

import hashlib
import sys
from itertools import islice

from corpus.footprints import footprints, slab_on
from corpus.measures import laid_out
from golden.plans import PLANS
from kerfline.app.demo import demo, demo_contents, demo_job
from kerfline.app.lay_out import lay_out_job
from kerfline.engine.lay_out import lay_out
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

RULES = SlabRules(rule_set=load("floor"))

FEW = ("ell", "ring-walk", "tapered-drive", "wing-at-45-degrees", "kidney", "columns-in-walls")
"""Square, round, tapered and turned slabs."""

SURVEYED = ("buildings-7", "buildings-97")
"""One that ends on a grid, and one whose nets are priced from the inside."""

EVERY = 4
"""Of 160 footprints 40."""

THICKNESS = 150.0


def told(layout) -> str:
    """A layout in short: every digit of its joints and their reasons counts."""
    text = repr([(j.id, j.path, str(j.reason), j.note) for j in layout.joints])
    return f"{len(layout.joints)} joints {hashlib.sha256(text.encode()).hexdigest()[:16]}"


def short():
    """Golden plans of each kind, the demonstration and two footprints."""
    for name in FEW:
        yield name, told(lay_out(PLANS[name], RULES))
    yield "demo", told(lay_out_job(demo_job()).layout)
    outlines = dict(footprints())
    for name in SURVEYED:
        yield name, told(laid_out(slab_on(outlines[name], THICKNESS)))


def long():
    """All golden plans, 40 footprints, and every file of the demonstration."""
    for name, slab in PLANS.items():
        yield name, told(lay_out(slab, RULES))
    for name, outline in islice(footprints(), 2, None, EVERY):
        yield name, told(laid_out(slab_on(outline, THICKNESS)))
    for name, content in sorted(demo_contents(demo()).items()):
        yield name, hashlib.sha256(content).hexdigest()[:16]


if __name__ == "__main__":
    for name, line in {"short": short, "long": long}[sys.argv[1]]():
        print(name, line)
