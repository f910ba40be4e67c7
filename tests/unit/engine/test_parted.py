"""Slabs that boxouts part from edge to edge: every piece is laid out."""

import pytest
import shapely
from shapely.geometry import box

from kerfline.engine.lay_out import lay_out
from kerfline.engine.regions.placing import unparted
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT as FOOT

RULES = SlabRules(rule_set=load("floor"))


def square(name, x, y, size):
    return Column(id=name, at=(x * FOOT, y * FOOT), boxout=Boxout.SQUARE, size=size * FOOT)


def slab_with(*columns, length=40.0, width=5.0):
    points = ((0.0, 0.0), (length * FOOT, 0.0), (length * FOOT, width * FOOT), (0.0, width * FOOT))
    return Slab(outline=Ring(points), thickness=101.6, columns=columns)


@pytest.mark.parametrize(
    ("columns", "pieces", "area"),
    [
        ((square("C1", 22, 2.5, 5),), 2, 35 * 5),
        ((square("C1", 12, 2.5, 6), square("C2", 27, 2.5, 6)), 3, 28 * 5),
        ((square("C1", 20, 1.5, 3), square("C2", 20, 4.5, 3)), 2, 37 * 5),
    ],
)
def test_every_piece_is_laid_out(columns, pieces, area):
    """The areas are those of the strips that are left between the boxouts, in square feet."""
    slab = slab_with(*columns)
    assert len(slab.pieces) == pieces
    layout = lay_out(slab, RULES)
    assert sum(p.area for p in layout.panels) == pytest.approx(area * FOOT**2)
    assert max(p.length for p in layout.panels) <= 10 * FOOT + 0.5
    for piece in slab.pieces:
        assert any(piece.covers(p.polygon.representative_point()) for p in layout.panels)


def test_a_boxout_that_only_notches_a_piece_stays_in_it():
    gross = box(0, 0, 1000, 200)
    parting, notch = box(400, -10, 500, 210), box(100, 150, 150, 250)
    left, right = unparted(gross, [parting, notch])
    assert left.equals(box(0, 0, 400, 200))
    assert right.equals(box(500, 0, 1000, 200))
    assert unparted(gross, [notch]) == [gross]


def test_pieces_and_boxouts_make_up_the_slab():
    slab = slab_with(square("C1", 12, 2.5, 6), square("C2", 30, 2.5, 2))
    parts = unparted(slab.gross, slab.boxouts)
    whole = shapely.union_all([*parts, *slab.boxouts])
    assert whole.covers(slab.gross.buffer(-0.01))
