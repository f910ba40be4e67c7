"""How the mistakes in a slab's sense are put into words."""

from kerfline.files.sense_teller import Teller, place_in
from kerfline.units import Display


def teller(display=Display.FEET_INCHES):
    return Teller(place_in("job.toml"), display)


def test_a_mistake_has_its_place_and_its_parts():
    told = teller().mistake("W3", "it leans", found="3", allowed="2", remedy="straighten it")
    assert str(told) == "job.toml, W3: it leans; found 3; allowed is 2; straighten it."


def test_measures_are_told_as_the_user_works():
    feet, metric = teller(), teller(Display.METRIC)
    assert (feet.length(3048), metric.length(3048)) == ("10'-0\"", "3048 mm")
    assert (feet.depth(101.6), metric.depth(101.6)) == ('4"', "102 mm")
    assert (feet.area(92903.04), metric.area(1e6)) == ("1.0 ft2", "1.00 m2")
    assert metric.point((1.0, 2000.0)) == "(1 mm, 2000 mm)"


def test_a_file_without_a_name_leaves_the_subject_alone():
    assert place_in("")("outline") == "outline"
