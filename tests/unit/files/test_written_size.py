"""Sizes as people write them: what is read, and what is refused in which words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.files.written_size import is_size, read_size
from kerfline.units import Unit

FOOT = 304.8


def corners(text: str, unit: Unit | None = None) -> list[tuple[float, float]]:
    return [
        (round(x / FOOT, 9), round(y / FOOT, 9)) for x, y in read_size(text, unit).outline.points
    ]


@pytest.mark.parametrize(
    ("text", "width", "height", "unit"),
    [
        ("40 ft x 28 ft", 12192.0, 8534.4, Unit.FT),
        ("40 x 28 ft", 12192.0, 8534.4, Unit.FT),
        ("40' x 28'", 12192.0, 8534.4, Unit.FT),
        ("12'-6 1/2\" X 20'", 3822.7, 6096.0, Unit.FT),
        ("150 1/2 in × 96 in", 3822.7, 2438.4, Unit.IN),
        ("10 m by 8.5 m", 10000.0, 8500.0, Unit.M),
        ("10000 mm * 8500 mm", 10000.0, 8500.0, Unit.MM),
        ("40 ft x 10 m", 12192.0, 10000.0, Unit.FT),
    ],
)
def test_two_sides(text, width, height, unit):
    size = read_size(text)
    assert size.width == pytest.approx(width, abs=1e-6)
    assert size.height == pytest.approx(height, abs=1e-6)
    assert size.units is unit
    assert size.outline.polygon.area == pytest.approx(width * height)


def test_round_an_l():
    l_shape = [(0, 0), (40, 0), (40, 28), (28, 28), (28, 20), (0, 20)]
    text = "right 40 ft, up 28 ft, left 12 ft, down 8 ft, left 28 ft"
    assert corners(text) == l_shape
    assert corners(text + ", down 20 ft") == l_shape


def test_round_a_u_begins_at_the_lowest_left():
    text = "up 20, right 10, down 12, right 10, up 12, right 10, down 20 ft"
    u_shape = [(0, 0), (0, 20), (10, 20), (10, 8), (20, 8), (20, 20), (30, 20), (30, 0)]
    assert corners(text) == u_shape


def test_leg_to_the_left_first_is_moved_to_the_origin():
    points = corners("left 5 ft, down 4 ft, right 5 ft")
    assert points == [(5, 4), (0, 4), (0, 0), (5, 0)]


def test_slanting_leg():
    points = corners("right 40 ft, up 20 ft, left 4 ft up 4 ft, left 36 ft")
    assert points == [(0, 0), (40, 0), (40, 20), (36, 24), (0, 24)]


def test_bare_numbers_take_the_declared_unit():
    assert corners("4 x 3", Unit.FT) == [(0, 0), (4, 0), (4, 3), (0, 3)]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("right 40 ft, up 28 ft, left 41 ft, down 28 ft", "they end 1'-0\" too far left;"),
        ("right 40 ft, up 28 ft", "they end 40'-0\" too far right and 28'-0\" too far up;"),
        ("right 4 m, up 3 m, left 4 m, down 2.9 m", "they end 100 mm too far up;"),
        ("right 4 m, up 3 m, left 4 m, down 2999.5 mm", "they end 0.50 mm too far up;"),
        ("right 40 ft, up 28 ft, left 12 ft, down 28 ft", "they end 28'-0\" too far right;"),
        ("40 x 28", "this size has no unit"),
        ("40 x 28 ft x 3", "this is not a size"),
        ("40 ft x 0 ft", "a side must be longer than nothing"),
        ("40 ft x 1e300 ft", "shorter than the Earth"),
        ("4 x 3 ft x", "this is not a size"),
        ("right 4, up 3 ft, left 4 m", "beside numbers in two units"),
        ("right 40 ft, up", "not a leg of the way round"),
        ("right 4 ft left 4 ft, up 4 ft", "not a leg of the way round"),
        ("right 4 ft up 3 ft left 4 ft", "not a leg of the way round"),
        ("right 4 ft, sideways 3 ft", "not a leg of the way round"),
        ("right 4 parsecs, up 3 ft", "this is not a length"),
        ("right 1 ft, up 1 ft," * 120, "too long"),
    ],
)
def test_refused(text, words):
    with pytest.raises(InputRefused) as refused:
        read_size(text)
    assert words in str(refused.value)


def test_no_more_legs_than_a_slab_has():
    with pytest.raises(InputRefused, match="more than 200 legs"):
        read_size("right 1m,up 1m," * 101)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("40 ft x 28 ft", True),
        ("40x28", True),
        (".5 m by ½ m", True),
        ("Right 40 ft, up 3 ft", True),
        ("plan x 2.dxf", False),
        ("40x28.dxf", False),
        ("plans/40 ft x 28 ft.toml", False),
        ("box", False),
        ("40", False),
        ("upper floor", False),
        ("", False),
    ],
)
def test_told_from_the_name_of_a_file(text, meant):
    assert is_size(text) is meant


@given(
    st.lists(st.integers(1, 400), min_size=2, max_size=2),
    st.lists(st.integers(1, 200), min_size=2, max_size=2),
)
def test_an_l_of_any_size_has_the_area_of_its_two_parts(outer, inner):
    """Sixteenths of an inch; the area by two rectangles, by hand."""
    (w, h), (a, b) = (16 * side + 1 for side in outer), inner
    w, h = w + a, h + b
    text = f"right {w}/16 in, up {h}/16 in, left {a}/16 in, down {b}/16 in, left {w - a}/16 in"
    area = read_size(text).outline.polygon.area / 25.4**2 * 256
    assert area == pytest.approx(w * h - (w - a) * b)
