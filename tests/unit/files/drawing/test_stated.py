"""The lengths that dimensions state, and the unit that they speak for."""

import ezdxf
import pytest

from kerfline.files.drawing.curves import Stated
from kerfline.files.drawing.stated import stated_by, units_stated


def dimension(length=120.0, *, text="<>", kind=None, **style):
    space = ezdxf.new(setup=True).modelspace()
    made = space.add_linear_dim((0, 50), (0, 0), (length, 0), override=style, text=text)
    made.commit()
    made = made.dimension
    if kind is not None:
        made.dxf.dimtype = kind
    return list(stated_by(made))


def test_its_own_text_is_what_it_states():
    assert dimension(text="10'-0\"") == [Stated(drawn=120.0, text="10'-0\"")]


def test_without_a_text_it_is_the_measure_as_its_style_writes_it():
    assert dimension(dimlunit=2, dimlfac=1.0) == [Stated(drawn=120.0, text="120")]
    assert dimension(dimlunit=2, dimlfac=25.4) == [Stated(drawn=120.0, text="3048")]
    assert dimension(dimlunit=4, dimlfac=1.0) == [Stated(drawn=120.0, text="10'-0\"")]


def test_a_diameter_or_an_angle_states_no_distance():
    assert dimension(kind=3) == []
    assert dimension(kind=2 | 32) == []
    assert len(dimension(kind=32)) == 1


def test_a_dimension_of_nothing_states_nothing():
    assert dimension(0.0) == []


@pytest.mark.parametrize(
    ("drawn", "text", "unit"),
    [
        (120.0, "10'-0\"", "in"),
        (10.0, "10'-0\"", "ft"),
        (3.6, "3600", "m"),
        (360.0, "3600", "cm"),
        (3600.0, "3600 mm", "mm"),
        (3600.0, "3.6 m", "mm"),
        (3600.0, "3,6", "mm"),
        (3564.5, "3600 mm", "mm"),
        (3560.0, "3600 mm", None),
        (3600.0, "3600", None),
        (3600.0, "ROOM", None),
        (3600.0, "0 mm", None),
        (3600.0, "5 or 6 ft", None),
    ],
)
def test_the_unit_that_one_speaks_for(drawn, text, unit):
    found = units_stated([Stated(drawn=drawn, text=text)])
    assert found == ({unit: 1} if unit else {})


def test_they_are_counted_by_unit():
    every = [Stated(drawn=d, text=t) for d, t in ((12.0, "1 ft"), (24.0, "2 ft"), (1.0, "1 ft"))]
    assert units_stated(every) == {"in": 2, "ft": 1}
