"""Cuts reach a hair beyond what they end on."""

import pytest

from kerfline.engine.regions.region import HAIR, overshot


def test_a_path_reaches_a_hair_beyond_both_ends():
    (x0, y0), (x1, y1) = overshot(((0.0, 0.0), (3000.0, 4000.0)))
    assert (x0, y0) == pytest.approx((-0.6 * HAIR, -0.8 * HAIR))
    assert (x1, y1) == pytest.approx((3000 + 0.6 * HAIR, 4000 + 0.8 * HAIR))
