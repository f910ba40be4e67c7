"""The direction that a figure mostly lies along."""

import math

import pytest
from shapely import Polygon, affinity

from kerfline.geometry.directions import main_direction


@pytest.mark.parametrize("turn", [0, 12.5, 45, 89])
def test_the_main_direction(turn):
    shape = Polygon([(0, 0), (9000, 0), (9000, 3000), (6000, 3000), (4000, 5000), (0, 5000)])
    found = main_direction(affinity.rotate(shape, turn))
    assert math.isclose(found, turn, abs_tol=1e-4) or math.isclose(
        abs(found - turn), 90, abs_tol=1e-4
    )
