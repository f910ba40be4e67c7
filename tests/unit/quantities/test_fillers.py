"""Filler and curing compound by hand."""

import pytest

from kerfline.quantities.fillers import curing_compound, filler_volume


def test_filler_fills_the_cut():
    """A cut 10 m long, 3 mm wide and 25 mm deep takes three quarters of a litre."""
    assert filler_volume(10_000, 3, 25) == 750_000
    assert filler_volume(10_000, 0, 25) == 0


def test_a_gallon_of_curing_compound_covers_its_area():
    """100 m2 at 5 m2 a litre are 20 litres."""
    assert curing_compound(100e6, 5.0) == pytest.approx(20e6)
