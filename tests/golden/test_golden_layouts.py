"""Layouts that a person has looked at: some thirty slabs, each a drawing of edges, walls and joints in mm.

Renew them, then look at each in a browser and ask what a finisher would say:

    KERFLINE_RENEW=1 pytest -n 0 tests/golden/test_golden_layouts.py
"""

import os
import re
from pathlib import Path

import pytest

from golden.plans import PLANS
from kerfline.engine.lay_out import lay_out
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

FOLDER = Path(__file__).parent / "layouts"
RULES = SlabRules(rule_set=load("floor"))
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SLIGHT = 0.21
"""Millimetres by which a place may move unseen: the last digit, either way, on another machine."""

MARGIN = 300
STYLE = (
    "<style>*{fill:none;stroke:#000;stroke-width:30}.joint{stroke:#080}"
    ".wall{stroke:#bbb;stroke-width:100}.keep{fill:#fcc;stroke:none}"
    ".paper{fill:#fff;stroke:none}</style>"
)


def drawing(slab, layout):
    """A layout as SVG: edges, walls, keep-outs and joints, one a line, in tenths of a millimetre."""
    x0, y0, x1, y1 = slab.gross.bounds
    corner = f"{x0 - MARGIN:.1f} {-y1 - MARGIN:.1f}"
    size = f"{x1 - x0 + 2 * MARGIN:.1f} {y1 - y0 + 2 * MARGIN:.1f}"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{corner} {size}">',
        STYLE,
        shape("paper", corners_of(x0 - MARGIN, y0 - MARGIN, x1 + MARGIN, y1 + MARGIN), closed=True),
        f"<title>{len(layout.joints)} joints, {len(layout.panels)} panels</title>",
        *(shape("keep", k.outline.points, closed=True) for k in slab.keep_outs),
        *(shape("wall", w.path) for w in slab.walls),
        *(shape("edge", r.coords[:-1], closed=True) for r in rings(slab.concrete)),
        *(shape(f"joint {j.reason}", j.path) for j in layout.joints),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def corners_of(x0, y0, x1, y1):
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def rings(concrete):
    return [concrete.exterior, *concrete.interiors]


def shape(kind, points, *, closed=False):
    places = " ".join(f"{x + 0.0:.1f},{-y + 0.0:.1f}" for x, y in points)
    name = "polygon" if closed else "polyline"
    return f'<{name} class="{kind}" points="{places}"/>'


@pytest.mark.parametrize("name", PLANS)
def test_a_layout_is_as_it_was_looked_at(name):
    """The same joints for the same reasons in the same order, every place within two tenths of a millimetre."""
    made = drawing(PLANS[name], lay_out(PLANS[name], RULES))
    path = FOLDER / f"{name}.svg"
    if os.environ.get("KERFLINE_RENEW"):
        path.write_text(made)
    kept = path.read_text()
    assert NUMBER.sub("#", made).splitlines() == NUMBER.sub("#", kept).splitlines()
    new, known = ([float(n) for n in NUMBER.findall(text)] for text in (made, kept))
    assert new == pytest.approx(known, abs=SLIGHT)


def test_every_drawing_that_is_kept_has_its_slab():
    assert sorted(p.stem for p in FOLDER.glob("*.svg")) == sorted(PLANS)
