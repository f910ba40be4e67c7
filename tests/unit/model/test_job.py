"""A job and the choices made for it."""

import pytest

from kerfline.model.job import SheetChoice
from kerfline.units import Display, Unit
from shapes import workshop_job


@pytest.mark.parametrize(
    ("mark", "fields", "said"),
    [
        ("a1b2", {"date": "2026-06-14"}, "a1b2 2026-06-14"),
        ("a1b2", {"drawn": "R. Vale"}, "a1b2"),
        ("", {"date": "2026-06-14"}, "2026-06-14"),
        ("", {}, ""),
    ],
)
def test_tables_carry_the_run_mark_and_the_date_that_is_given(mark, fields, said):
    assert SheetChoice(mark=mark, fields=fields).run == said


def test_a_job_for_review_differs_from_the_issued_one_in_that_alone():
    job = workshop_job(sheet=SheetChoice(north=20.0))
    review = job.for_review()
    assert (job.sheet.review, review.sheet.review) == (False, True)
    assert review.sheet.north == 20.0
    assert review.slab is job.slab


@pytest.mark.parametrize("unit", Unit)
def test_a_job_shows_lengths_in_the_family_of_its_unit(unit):
    metric = unit in (Unit.M, Unit.MM)
    assert workshop_job(unit).display is (Display.METRIC if metric else Display.FEET_INCHES)
