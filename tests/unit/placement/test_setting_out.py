"""Squaring, marking and acceptance as they stand on the sheet."""

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.placement.setting_out import setting_out_notes
from kerfline.units import Display
from shapes import feet, workshop_slab


def notes(points, display=Display.FEET_INCHES):
    return setting_out_notes(Slab(outline=Ring(points), thickness=101.6), display)


def test_a_rectangle_has_its_diagonals():
    """40 x 30 ft: 50 ft, and half an inch leans 5/16 in."""
    first = notes(feet((0, 0), (40, 0), (40, 30), (0, 30)))[0]
    assert "50'-0\"" in first
    assert '5/16"' in first


def test_other_shapes_have_none():
    """An L, and a trapezium with its equal diagonals."""
    trapezium = notes(feet((0, 0), (40, 0), (30, 20), (10, 20)))
    workshop = setting_out_notes(workshop_slab(), Display.FEET_INCHES)
    assert len(trapezium) == len(workshop) == 2
    assert "Both diagonals" not in " ".join((*trapezium, *workshop))


def test_tolerances_are_told_in_the_users_units():
    """3/4 in, or 19 mm."""
    square = feet((0, 0), (20, 0), (20, 20), (0, 20))
    assert '3/4" of plan' in " ".join(notes(square))
    assert "19 mm of plan" in " ".join(notes(square, Display.METRIC))
