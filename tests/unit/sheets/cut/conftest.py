"""The cut sheets of the workshop: of the whole floor, and of each placement."""

import pytest

from kerfline.app.day import plan_day
from kerfline.sheets.cut.areas import pour_areas
from kerfline.sheets.cut.lines import Saw
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.units import Display
from shapes import workshop_job, workshop_layout
from workshop_cuts import DAY, RULES, parted


@pytest.fixture(scope="module")
def sheets():
    return cut_sheet(workshop_job(), workshop_layout(), RULES)


@pytest.fixture(scope="module")
def plan():
    job = workshop_job()
    return plan_day(job.slab, parted(), RULES, DAY, job.display)


@pytest.fixture(scope="module")
def areas(plan):
    return pour_areas(plan)


@pytest.fixture(scope="module")
def sets(areas, plan):
    saw = Saw.planned(plan.placement.method, DAY.saws, Display.FEET_INCHES)
    return [cut_sheet(workshop_job(), parted(), RULES, saw=saw, area=a) for a in areas]
