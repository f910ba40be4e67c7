"""How findings write places and measures."""

import pytest

from checked import Rule, findings, grid_slab, joint, of
from kerfline.checks.wording import apart, fine, listed, ratio, subject_of, wording_of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_FOOT, Display


def far_slab(display):
    x, y = 2.0e6, 5.0e6
    return wording_of(
        Slab(
            outline=Ring(((x, y), (x + 9e3, y), (x + 9e3, y + 9e3), (x, y + 9e3))), thickness=100.0
        ),
        display,
    )


def test_places_are_measured_from_the_slabs_lower_left_corner():
    assert far_slab(Display.METRIC).place((2.0e6 + 1234.4, 5.0e6)) == "(1234 mm, 0 mm)"
    assert (
        far_slab(Display.FEET_INCHES).place((2.0e6 + 304.8, 5.0e6 + 12.7)) == "(1'-0\", 0'-0 1/2\")"
    )


def test_places_of_panels_are_rounded_to_the_inch_or_to_ten_millimetres():
    assert far_slab(Display.METRIC).near((2.0e6 + 1234.4, 5.0e6 + 6)) == "(1230 mm, 10 mm)"
    assert far_slab(Display.FEET_INCHES).near((2.0e6 + 310, 5.0e6 + 20)) == "(1'-0\", 0'-1\")"


@pytest.mark.parametrize(
    ("ids", "sentence", "subject"),
    [
        (["J1"], "J1", "J1"),
        (["J1", "J2"], "J1 and J2", "J1 and 1 more"),
        (["J1", "J2", "J3"], "J1, J2 and J3", "J1 and 2 more"),
        (["J1", "J2", "J3", "J4", "J5"], "J1, J2, J3 and 2 more", "J1 and 4 more"),
    ],
)
def test_ids_are_listed_and_then_counted(ids, sentence, subject):
    assert listed(ids) == sentence
    assert subject_of(ids) == subject


def test_a_measure_and_its_limit_are_written_so_that_they_differ():
    assert apart(1.4, 1.25, ratio, fine) == ("1.4", "1.25")
    assert apart(1.2514, 1.25, ratio, fine) == ("1.251", "1.25")


def test_a_panel_a_millimetre_too_long_is_not_told_to_be_as_long_as_it_may_be():
    bay = (10 * MM_PER_FOOT + 0.7) / MM_PER_FOOT
    found = of(Rule.SPAN, findings(grid_slab(2, 2, bay=bay)))
    assert "is 3048.7 mm long; the greatest advised is 3048.0 mm" in found[0].message


def test_every_message_and_remedy_is_one_sentence_with_a_place():
    slab = grid_slab(
        joints=(joint("A", (10, 0), (13, 12), depth=10.0), joint("B", (0, 1), (40, 1)))
    )
    found = findings(slab)
    assert len({f.rule for f in found}) == 5
    for finding in found:
        assert finding.message[0].isupper()
        assert finding.message.endswith(".")
        assert finding.remedy[0].isupper()
        assert finding.remedy.endswith(".")
        assert finding.source
        assert "(" in finding.message
