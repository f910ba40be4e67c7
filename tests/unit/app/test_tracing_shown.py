"""Where a picture under the drawing lies, and how it is drawn without its perspective."""

from dataclasses import replace

import pytest

from kerfline.app.tracing import laid, scaled, squared
from kerfline.app.tracing_shown import placed
from kerfline.model.tracing import Tracing
from photographs import FT, aslant

VIEW = (0.0, 0.0, 40 * FT, 30 * FT)
SIDES = (40 * FT, 28 * FT)
RECTANGLE = [(0, 0), (40 * FT, 0), (40 * FT, 28 * FT), (0, 28 * FT)]


def fresh(size=(2400.0, 1800.0)):
    return laid("plan.jpg", 0, size, VIEW)


def on_plan(tracing, pixels):
    return [tracing.onto.at(p) for p in pixels]


def test_where_it_is_drawn_is_where_its_points_lie():
    """What the page is told puts every pixel where the map of the picture does."""
    for tracing in (fresh(), scaled(fresh(), ((0.0, 0.0), (900.0, 400.0)), 7000.0, "upright")):
        place = placed(tracing)
        a, b, c, d, x, y = place.onto
        for u, v in ((0, 0), (2400, 0), (17, 1800)):
            at = (a * u + c * -v + x, b * u + d * -v + y)
            assert at == pytest.approx(tracing.onto.at((u, v)))
        assert place.box == (0.0, -1800.0, 2400.0, 0.0)


def test_a_squared_picture_is_drawn_around_its_first_point():
    camera, before = aslant(), fresh()
    tracing = squared(before, on_plan(before, map(camera.sees, RECTANGLE)), SIDES)
    place = placed(tracing)
    assert place.onto == (1.0, 0.0, 0.0, 1.0, *tracing.plan[0])
    x, y = tracing.plan[0]
    whole = [(px - x, py - y) for px, py in tracing.seen]
    assert place.box == pytest.approx(
        (
            min(p[0] for p in whole),
            min(p[1] for p in whole),
            max(p[0] for p in whole),
            max(p[1] for p in whole),
        )
    )


@pytest.mark.parametrize("points", [1, 3])
def test_other_numbers_of_points_tell_no_place(points):
    tracing = replace(fresh(), picture=((0.0, 0.0),) * points, plan=((0.0, 0.0),) * points)
    assert tracing.onto is None
    assert placed(tracing) is None
    assert tracing.seen == []


def test_points_that_do_not_pair_tell_no_place():
    assert Tracing(file="a.png", size=(9, 9), picture=((0, 0), (1, 1)), plan=((0, 0),)).onto is None
