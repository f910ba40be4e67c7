"""A joint along the border of a thicker zone is cut as deep as the thicker side asks."""

import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab, Zone
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

IN = 25.4
FT = 304.8


def test_the_border_takes_the_deeper_cut_and_the_open_floor_its_own() -> None:
    """A quarter of the thickness, conventional saw (ACI 302.1R): 2 in of 8 in, 1 1/4 in of 5 in."""
    rules = SlabRules(rule_set=load("floor"))
    room = Ring(((0, 0), (30 * FT, 0), (30 * FT, 10 * FT), (0, 10 * FT)))
    pad = Ring(((20 * FT, 0), (30 * FT, 0), (30 * FT, 10 * FT), (20 * FT, 10 * FT)))
    slab = Slab(
        outline=room,
        thickness=5 * IN,
        zones=(Zone(id="Z1", outline=pad, thickness=8 * IN),),
    )
    depths = {round(j.path[0][0] / FT, 2): j.depth for j in lay_out(slab, rules).joints}
    assert depths[20.0] == pytest.approx(2 * IN)
    assert depths[10.0] == pytest.approx(1.25 * IN)
