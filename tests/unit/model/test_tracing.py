"""A picture under the drawing: how it lies on the plan, and how much of it is shown."""

import pytest

from kerfline.model.tracing import Tracing

SIZE = (400.0, 300.0)
CORNERS = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0))


def tracing(picture, plan):
    return Tracing(file="floor.jpg", size=SIZE, picture=picture, plan=plan)


def test_two_points_turn_scale_and_shift_a_picture_whose_y_runs_down():
    """Ten millimetres a pixel, the picture's upper left at (1000, 5000)."""
    laid = tracing(((0, 0), (400, 0)), ((1000, 5000), (5000, 5000)))
    assert laid.onto.at((0, 300)) == pytest.approx((1000, 2000))
    assert laid.seen == [
        pytest.approx(p) for p in ((1000, 5000), (5000, 5000), (5000, 2000), (1000, 2000))
    ]


def test_a_quarter_turn_by_hand():
    """What runs right in the picture runs up on the plan; what runs down in it then runs right."""
    laid = tracing(((100, 100), (200, 100)), ((0, 0), (0, 100)))
    assert laid.onto.at((100, 150)) == pytest.approx((50, 0))


def test_four_points_take_the_perspective_away():
    trapezium = ((100.0, 0.0), (300.0, 0.0), (400.0, 300.0), (0.0, 300.0))
    laid = tracing(trapezium, ((0, 3000), (4000, 3000), (4000, 0), (0, 0)))
    for pixel, place in zip(laid.picture, laid.plan, strict=True):
        assert laid.onto.at(pixel) == pytest.approx(place, abs=1e-6)
    assert laid.onto.rows[2][:2] != (0.0, 0.0)


def test_of_a_picture_from_aslant_what_is_much_farther_than_its_points_is_not_shown():
    """The floor's far side is half as wide as its near one; a strip above it goes on to the horizon."""
    aslant = ((150.0, 150.0), (250.0, 150.0), (300.0, 300.0), (100.0, 300.0))
    laid = tracing(aslant, ((0, 3000), (1000, 3000), (1000, 0), (0, 0)))
    least = min(laid.onto.depth(p) for p in aslant) / 3
    assert max(y for _, y in laid.seen) < laid.onto.at((200, 10))[1]
    assert all(laid.onto.inverse().at(p)[1] > 0 for p in laid.seen)
    top = min(laid.onto.inverse().at(p)[1] for p in laid.seen)
    assert laid.onto.depth((200, top)) == pytest.approx(least)


@pytest.mark.parametrize(
    ("picture", "plan"),
    [
        (((0, 0), (400, 0)), ((0, 0),)),
        (((5, 5), (5, 5)), ((0, 0), (10, 0))),
        (((0, 0), (1, 0), (1, 1)), ((0, 0), (1, 0), (1, 1))),
        ((), ()),
    ],
)
def test_points_that_tell_no_place_show_nothing(picture, plan):
    laid = tracing(picture, plan)
    assert laid.onto is None
    assert laid.seen == []


def test_the_corners_of_a_picture_run_round_it_from_its_upper_left():
    assert tracing((), ()).corners == CORNERS
