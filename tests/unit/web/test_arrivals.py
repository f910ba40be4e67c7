"""Drawings that came in and are not yet taken."""

import pytest

from drawn_plans import plan_dxf
from kerfline.app.brought import Brought
from kerfline.app.look_at_drawing import look_at
from kerfline.errors import InputRefused
from kerfline.web.arrivals import KEPT, Arrival, Arrivals, seen_data
from paged import client, look, opened, take


@pytest.fixture
def page(tmp_path):
    desk, _ = opened(tmp_path)
    return client(desk)


def test_only_the_last_few_drawings_are_kept(page, tmp_path):
    path = plan_dxf(tmp_path / "plan.dxf")
    first = look(page, path).json()
    for _ in range(3):
        look(page, path)

    assert take(page, first).status_code == 422


def arrival(data=b"x"):
    return Arrival(data, Brought())


def test_the_oldest_goes_when_another_comes():
    arrivals = Arrivals()
    names = [arrivals.keep(arrival()) for _ in range(KEPT + 1)]
    assert len(set(names)) == KEPT + 1
    with pytest.raises(InputRefused, match="not here any more; drop it again"):
        arrivals.find(names[0])
    assert all(arrivals.find(name) for name in names[1:])


def test_one_that_is_kept_again_under_its_name_is_the_newest():
    arrivals = Arrivals()
    first, *_ = [arrivals.keep(arrival()) for _ in range(KEPT)]
    assert arrivals.keep(arrival(b"again"), first) == first
    for _ in range(KEPT - 1):
        arrivals.keep(arrival())
    assert arrivals.find(first).data == b"again"


@pytest.mark.parametrize("name", [None, 3, "nothing", ["x"]])
def test_a_name_that_is_none_finds_and_drops_nothing(name):
    arrivals = Arrivals()
    kept = arrivals.keep(arrival())
    arrivals.drop(name)
    with pytest.raises(InputRefused):
        arrivals.find(name)
    arrivals.drop(kept)
    with pytest.raises(InputRefused):
        arrivals.find(kept)


def test_each_unit_says_what_it_would_mean(tmp_path):
    """30 x 20 drawn is likely in feet and metres: 9.1 m and 30 m, not 0.03 m or 0.76 m."""
    seen = seen_data("n", look_at(plan_dxf(tmp_path / "plan.dxf", unit=0), Brought()))
    units = {each["unit"]: each for each in seen["units"]}
    assert units["ft"]["text"] == "30'-0\" x 20'-0\""
    assert units["m"]["text"] == "30.0 m x 20.0 m"
    assert {name for name, each in units.items() if each["likely"]} == {"ft", "m"}
    assert seen["name"] == "n"
    assert seen["known"] is False
