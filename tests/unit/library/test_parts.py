"""Joints, panels and findings as plain data."""

import pytest
import shapely

from boathouses import FT, laid_out


@pytest.fixture(scope="module")
def result():
    return laid_out()


def test_the_parts_tile_the_slab(result):
    """As shapely sees them, against areas worked by hand: 40 x 24 ft less a pit of 12 ft2 and a boxout."""
    union = shapely.union_all([panel.polygon for panel in result.panels])
    assert union.symmetric_difference(result.concrete).area < 1.0
    boxout = shapely.Point(32 * FT, 12 * FT).buffer(3 * FT).difference(result.concrete).area
    assert sum(p.area for p in result.panels) == pytest.approx((960 - 12) * FT**2 - boxout, abs=10)
    assert sum(j.line.length for j in result.joints) == pytest.approx(result.joint_length, abs=0.1)
    assert result.clean is (result.errors == 0)
