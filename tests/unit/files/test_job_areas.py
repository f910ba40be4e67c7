"""Areas that a job names for cut sheets of their own."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.job_areas import LEAST_AREA, area_mistakes
from kerfline.files.job_file import job_text, read_job
from kerfline.files.job_locate import Places
from kerfline.geometry.ring import Ring
from kerfline.model.job import CutAreaChoice
from shapes import feet, workshop_slab

SLAB = workshop_slab()


def area(name, *corners):
    return CutAreaChoice(name=name, outline=Ring(feet(*corners)))


def said(*areas):
    return [str(m) for m in area_mistakes(areas, SLAB, Places("job.toml", {}))]


BAY = ((0, 0), (10, 0), (10, 10), (0, 10))


def test_areas_on_the_slab_are_fine():
    assert said(area("north", *BAY), area("south", *BAY)) == []


def test_two_of_one_name_are_told_each_whatever_the_case():
    first, second = said(area("North", *BAY), area("north", *BAY))
    assert "two areas are called North; give each a name of its own" in first
    assert "two areas are called north" in second


def test_an_outline_that_crosses_itself_is_refused():
    (told,) = said(area("bow", (0, 0), (10, 10), (10, 0), (0, 10)))
    assert "the outline of area bow crosses itself; put its points in order" in told


@pytest.mark.parametrize(
    ("side", "refused"), [(LEAST_AREA**0.5 - 1, True), (LEAST_AREA**0.5 + 1, False)]
)
def test_an_area_holds_a_hands_breadth_of_concrete(side, refused):
    corner = 60 * 304.8 - side
    ring = Ring(((corner, 0), (corner + 5000, 0), (corner + 5000, side), (corner, side)))
    told = said_of(CutAreaChoice(name="slip", outline=ring))
    assert bool(told) is refused


def said_of(choice):
    return area_mistakes([choice], SLAB, Places("job.toml", {}))


AREA = """
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [60, 0], [60, 24], [0, 24]]

[[sheet.area]]
name = "North bay"
outline = [[0, 12], [60, 12], [60, 24], [0, 24]]
"""


def test_an_area_for_a_cut_sheet_is_read_and_written(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(AREA)
    job = read_job(path)
    assert [(a.name, round(a.outline.polygon.area / 304.8**2)) for a in job.sheet.areas] == [
        ("North bay", 720)
    ]
    path.write_text(job_text(job))
    assert read_job(path).sheet == job.sheet


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ('name = "north bay"\noutline = [[0, 0], [9, 0], [9, 9]]', "two areas are called"),
        ('name = "Yard"\noutline = [[90, 0], [99, 0], [99, 9]]', "holds no concrete"),
        ('name = "Bow"\noutline = [[0, 0], [9, 9], [9, 0], [0, 9]]', "crosses itself"),
    ],
)
def test_an_area_that_cannot_be_is_refused_with_its_place(tmp_path, more, said):
    path = tmp_path / "bay.toml"
    path.write_text(f"{AREA}\n[[sheet.area]]\n{more}\n")
    with pytest.raises(InputRefused, match=said) as refused:
        read_job(path)
    assert "sheet.area" in str(refused.value)
