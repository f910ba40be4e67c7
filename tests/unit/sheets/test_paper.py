"""Paper sizes and scales, as the trade has them."""

import pytest

from kerfline.errors import InputRefused
from kerfline.sheets.paper import (
    CARRIED,
    EIGHTH_INCH,
    READABLE,
    SCALES,
    SIZES,
    SMALLEST_TEXT,
    paper,
    scale_words,
)
from kerfline.units import Display


@pytest.mark.parametrize(
    ("name", "long", "short"),
    [
        # ISO 216:2007, table 1; ASME Y14.1, table 1 and ARCH series (from memory): sides in mm and inches.
        ("a0", 1189, 841), ("a1", 841, 594), ("a2", 594, 420), ("a3", 420, 297), ("a4", 297, 210),
        ("letter", 279.4, 215.9), ("tabloid", 431.8, 279.4), ("arch-d", 914.4, 609.6),
    ],
)  # fmt: skip
def test_sides(name, long, short):
    assert (paper(name).width, paper(name).height) == pytest.approx((long, short))


@pytest.mark.parametrize("written", ["ARCH D", "arch_d", " Arch-D "])
def test_a_size_is_found_however_it_is_written(written):
    assert paper(written).trade == "ARCH D"
    assert paper("11x17") is paper("ANSI B") is paper("tabloid")


def test_another_size_is_refused_with_those_that_there_are():
    with pytest.raises(InputRefused) as refused:
        paper("foolscap")
    assert str(refused.value).startswith(
        "sheet size: there is no sheet of this size; found 'foolscap'"
    )
    assert "tabloid" in str(refused.value)


def test_every_sheet_lies_on_its_long_side_with_room_for_a_plan_beside_the_column():
    for size in SIZES.values():
        left, bottom, right, top = size.frame
        assert size.width > size.height
        assert 0 < left < right - size.column
        assert 0 < bottom < top < size.height


def test_text_is_large_enough_for_how_a_sheet_is_read():
    """Carried sheets at full size, larger ones legible at half size (1/8 in, 3.2 mm)."""
    for size in SIZES.values():
        assert size.small >= (SMALLEST_TEXT if size.width <= CARRIED else EIGHTH_INCH)
    assert paper("tabloid").small == paper("a3").small == SMALLEST_TEXT
    assert paper("a2").small == EIGHTH_INCH


def test_a_scale_stands_in_the_words_of_the_trade():
    assert scale_words(96, Display.FEET_INCHES) == '1/8" = 1\'-0"'
    assert scale_words(100, Display.METRIC) == "1:100"
    assert scale_words(37.5, Display.FEET_INCHES) == "1:37.5"
    assert scale_words(96, Display.METRIC) == "1:96"


def test_every_scale_of_feet_has_its_words_and_series_run_from_large_to_small():
    for display, series in SCALES.items():
        assert list(series) == sorted(series)
        assert READABLE[display] in series
    assert all("=" in scale_words(s, Display.FEET_INCHES) for s in SCALES[Display.FEET_INCHES])
