"""The plan and the sheets of the workshop's day."""

import pytest

from kerfline.sheets.day.sheet import day_sheets
from shapes import workshop_job
from workshop_days import parted, planned


@pytest.fixture(scope="module")
def plan():
    return planned()


@pytest.fixture(scope="module")
def sheets(plan):
    return day_sheets(workshop_job(), parted(), plan)
