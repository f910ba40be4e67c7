"""Twelve foreman's days, planned from job files: every sheet drawn, what must be said is said, what is false is not."""

import re

import pytest

from foremans_days import DAYS
from kerfline.app.day_job import day_contents, day_job
from kerfline.app.open_job import Wishes
from kerfline.sheets.day.sheet import day_sheets
from kerfline.sheets.day.trucks import trucks
from sheet_checks import overlapping_texts, texts_outside

SAID = {
    "hot and windy": (
        "Concrete over 95 °F", "Heat stress: air up to", "0.44 lb/ft2/h", "action;", "Shorten the pass",
        "Drying: placement 1 loses up to 0.44 lb/ft2/h at 06:00, 4.3 h over the 0.2 lb/ft2/h",
    ),
    "five degrees": ("Every cut falls in the dark",),
    "frost at night": (
        "Frost on placement 1", "Insulating blankets", "Never place on frozen ground", "insulating blankets:",
        "cold weather by ACI 306R",
    ),
    "rain at noon": ("STOP, rain from 12:00 to 15:00: placement 1 is not finished then", "first truck to about 05:00 to be"),
    "night pour": ("Placement 1 is placed and finished in the dark (sunrise 05:59, sunset 21:06)", "light the trucks' way"),
    "two a day": (
        "bleeds until 08:48 to 10:05, then floated and troweled, finished 10:53 to 12:03",
        "placed 06:00 to", "placed 11:00 to", "the conveyor reaches 30'-0\"", "Placements 1 and 2 reach",
        "a pump or a longer conveyor is ordered",
    ),
    "no weather": ("What will the weather be?", "When is it light?", "no weather given"),
    "metric": ("392.00 m2", "regulations in force on the site", "more than 23 m3", "more than 370 m2", "wider than 4900 mm"),
    "a strip of 300 ft": ("J20 (1 of 4)", "J20 (4 of 4)", "from the end placed first"),
    "from the bottom, in lanes": ("the chute reaches 20'-0\"",),
    "one saw too few": ("6 of 13 cuts fall in the dark, from 21:06 on", "J2 and J1, 519 ft", "as relief", "Cut too late with 1 saw", "7 saws needed", "LATE: ", "6 more saws"),
    "clocks go back": ("Clocks go back 1 h at 02:00 +1 d", "a wall clock shows 1 h less"),
}  # fmt: skip
NOT_SAID = {
    "five degrees": ("looks like Celsius", "Frost", "under 55 °F"),
    "frost at night": ("under 55 °F",),
    "rain at noon": ("Frost", "Heat stress", "Drying"),
    "no weather": ("lb/ft2/h",),
    "metric": ("29 CFR", "NIOSH", " ft", "yd3", "°F,"),
    "a strip of 300 ft": ("LATE", "No number of saws", "dark"),
    "from the bottom, in lanes": ("LATE", "Frost"),
    "two a day": ("LATE", "0.0 h over"),
    "one saw too few": ("each placement as relief",),
    "clocks go back": ("LATE", "Frost"),
}


@pytest.fixture(scope="module", params=DAYS, ids=lambda day: day.name)
def planned(request, tmp_path_factory):
    path = request.param.write(tmp_path_factory.mktemp("job"))
    return request.param, day_job(path, Wishes())


def test_what_must_be_said_is_said(planned):
    day, found = planned
    text = day_contents(found)["depot-day.txt"].decode()
    for words in SAID[day.name]:
        assert words in text, words
    for words in NOT_SAID.get(day.name, ()):
        assert words not in text.split("\nAssumed")[0], words


def test_the_sheets_are_clean(planned):
    _, found = planned
    for sheet in day_sheets(found.outcome.job, found.outcome.layout, found.plan):
        assert overlapping_texts(sheet) == []
        assert texts_outside(sheet) == []


def test_the_plan_holds_together(planned):
    """Trucks make the order, none waits over a pause; every foot is cut once, none before its window; one or many."""
    _, found = planned
    plan = found.plan
    placement = plan.placement
    loads = trucks(plan)
    assert sum(t.size for t in loads) == pytest.approx(plan.order.ordered)
    assert len(loads) == plan.order.loads == sum(o.delivery.loads for o in plan.orders)
    assert all(t.done - t.discharge < 1.0 for t in loads)
    cuts = placement.cutting.cuts
    sawn = sum(j.line.length for j in placement.lines.sawn)
    assert sum(c.window.sawn.line.length for c in cuts) == pytest.approx(sawn)
    assert all(c.start >= c.window.ready - 1e-6 for c in cuts)
    for hours in placement.hours:
        own = [c for c in cuts if c.window.pours == (hours.pour.id,)]
        assert all(c.window.opens.likely > hours.finished[0] for c in own)
    text = day_contents(found)["depot-day.txt"].decode()
    assert not re.search(r"\b1 (saws|loads|blades|placements|finishers|days)\b", text)
