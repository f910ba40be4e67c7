"""Every kind of boxout is known by its form: what joints meet depends on it."""

import pytest

from kerfline.model.slab import Boxout, Column

FORMS = {
    Boxout.DIAMOND: (4, False, False),
    Boxout.SQUARE: (0, True, False),
    Boxout.CIRCLE: (0, False, True),
    Boxout.NONE: (0, False, False),
}


@pytest.mark.parametrize("boxout", Boxout)
def test_a_boxout_has_points_or_sides_or_a_round_edge(boxout):
    column = Column(id="C1", at=(1000.0, 2000.0), boxout=boxout, size=600.0)
    assert (len(column.points), column.is_square, column.is_round) == FORMS[boxout]
    assert (column.outline is None) is (boxout is Boxout.NONE)


def test_a_diamonds_points_lie_along_the_columns_axes():
    points = Column(id="C1", at=(0.0, 0.0), size=600.0).points
    reach = 300.0 * 2**0.5
    found = sorted((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in points)
    expected = sorted([(reach, 0.0), (-reach, 0.0), (0.0, reach), (0.0, -reach)])
    assert found == [(round(x, 3), round(y, 3)) for x, y in expected]
