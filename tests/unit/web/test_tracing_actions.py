"""What the page can do to the picture under the drawing."""

import pytest

from kerfline.errors import InputRefused
from kerfline.units import Unit
from kerfline.web.actions import read_action
from kerfline.web.tracing_actions import on_tracing

FT = 304.8
LAY = {
    "do": "lay-tracing",
    "file": "plan.png",
    "page": 0,
    "size": [400, 300],
    "view": [0, 0, 400, 300],
}


def do(tracing, **said):
    return on_tracing(read_action(said), tracing, Unit.FT)


@pytest.fixture
def laid():
    return do(None, **LAY)


def apart(tracing):
    """How far the picture's left and right edge lie apart on the plan, mm."""
    (x0, y0), (x1, y1) = tracing.onto.at((0.0, 0.0)), tracing.onto.at((400.0, 0.0))
    return ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5


def test_a_stretch_gets_its_length_in_the_unit_of_the_job(laid):
    ends = [laid.onto.at((0.0, 0.0)), laid.onto.at((400.0, 0.0))]
    assert apart(do(laid, do="scale-tracing", ends=ends, text="40")) == pytest.approx(40 * FT)
    assert apart(do(laid, do="scale-tracing", ends=ends, text="10 m")) == pytest.approx(10_000)


def test_four_corners_become_a_rectangle_of_these_sides(laid):
    corners = [laid.onto.at(p) for p in ((0.0, 300.0), (400.0, 300.0), (400.0, 0.0), (0.0, 0.0))]
    squared = do(laid, do="square-tracing", corners=corners, texts=["40 ft", "30 ft"])
    assert apart(squared) == pytest.approx(40 * FT)


def test_it_moves_as_a_whole(laid):
    moved = do(laid, do="move-tracing", by=[100, -50])
    x, y = laid.onto.at((7.0, 9.0))
    assert moved.onto.at((7.0, 9.0)) == pytest.approx((x + 100, y - 50))


def test_what_is_not_said_of_how_it_is_shown_stays(laid):
    faded = do(laid, do="show-tracing", fade=0.25)
    assert (faded.fade, faded.shown, faded.locked) == (0.25, laid.shown, laid.locked)
    hidden = do(faded, do="show-tracing", shown=False, locked=True)
    assert (hidden.fade, hidden.shown, hidden.locked) == (0.25, False, True)
    assert do(hidden, do="show-tracing", fade=0).fade == 0


def test_it_goes_and_then_nothing_can_be_done_to_it(laid):
    assert do(laid, do="remove-tracing") is None
    with pytest.raises(InputRefused, match="there is no picture under the drawing"):
        do(None, do="move-tracing", by=[1, 1])
