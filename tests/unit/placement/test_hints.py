"""Habits of the trade: said above a figure, not at it; round in either unit."""

from types import SimpleNamespace

import pytest
from shapely import box

from kerfline.model.day import Ledger, PourChoice
from kerfline.placement.hints import hints
from kerfline.units import MM3_PER_M3, MM3_PER_YD3, MM_PER_FOOT, Display

FOOT = MM_PER_FOOT


def said(volume, area, width, display=Display.FEET_INCHES, **choice):
    """The hints to one placement of so much concrete (mm3), area (mm2) and width (mm)."""
    pour = SimpleNamespace(id="1", day=1, volume=volume, area=box(0, 0, area, 1), width=width)
    ledger = Ledger(display=display)
    return " ".join(hints([pour], PourChoice(**choice), display, ledger)), ledger


@pytest.mark.parametrize(
    ("volume", "area", "width", "words"),
    [
        (30.01, 0, 0, "more than 30 yd3, so a pump"),
        (0, 4000.1, 0, "is more than 4,000 ft2, so a ride-on trowel"),
        (0, 0, 16.01, "wider than 16'-0\", so the screed"),
    ],
)
def test_a_habit_speaks_above_its_figure(volume, area, width, words):
    assert words in said(volume * MM3_PER_YD3, area * FOOT**2, width * FOOT)[0]


def test_at_its_figure_no_habit_speaks():
    assert said(30 * MM3_PER_YD3, 4000 * FOOT**2, 16 * FOOT)[0] == ""


def test_metric_jobs_have_metric_habits():
    """23 m3 is the limit there, not 30 yd3 (22.94 m3), and so it is written down."""
    words, ledger = said(23.1 * MM3_PER_M3, 0, 0, Display.METRIC)
    assert "more than 23 m3" in words
    assert said(22.99 * MM3_PER_M3, 0, 0, Display.METRIC)[0] == ""
    assert [a.value for a in ledger.assumptions] == ["23 m3", "370 m2", "4.9 m"]


def test_the_job_sets_its_own_figures():
    words, ledger = said(26 * MM3_PER_YD3, 0, 0, pump_above=25.5 * MM3_PER_YD3)
    assert "more than 25.50 yd3" in words
    assert len(ledger.assumptions) == 2
