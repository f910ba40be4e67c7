"""Rain on a day: who is hit, and every start that would keep it dry."""

from types import SimpleNamespace

import pytest

from kerfline.app.day import plan_day
from kerfline.model.day import DayInput, WeatherHour
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind
from kerfline.placement.rain import later_starts, sooner_starts, wet_stretches
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from shapes import feet, layout_of, workshop_slab

RULES = SlabRules(rule_set=load("floor"))


def readings(*, wet=(), last=48, step=1):
    """Mild weather from midnight, 2 mm of rain in the hours named."""
    mild = {"air": 20.0, "humidity": 0.6, "wind": 5.0, "wind_height": 500.0}
    clocks = range(0, last, step)
    return tuple(WeatherHour(clock=float(h), rain=2.0 if h in wet else 0.0, **mild) for h in clocks)


def work(name, start, placed, finished):
    """A placement's hours, as far as rain asks for them."""
    pour = SimpleNamespace(id=name, start=start, end=placed, day=1)
    return SimpleNamespace(pour=pour, finished=(start + 1.0, finished))


def words(starts, wet, *, last=48, parted=False):
    slab = workshop_slab()
    joints = [(JointKind.CONTROL, Reason.SPAN, feet((0, 24), (36, 24)))]
    if parted:
        joints = [(JointKind.CONSTRUCTION, Reason.SPAN, feet((0, 24), (36, 24)))]
    day = DayInput(starts=starts, weather=readings(wet=wet, last=last), sunrise=4.0, sunset=22.0)
    found = plan_day(slab, layout_of(slab, joints), RULES, day, Display.FEET_INCHES)
    return [caution for caution in found.placement.cautions if "rain" in caution.lower()]


def test_it_rains_from_a_wet_reading_to_the_next():
    assert wet_stretches(readings(wet=(5, 6, 9))) == [(5.0, 7.0), (9.0, 10.0)]
    assert wet_stretches(readings(wet=(6,), step=3)) == [(6.0, 9.0)]
    assert wet_stretches(readings(wet=(11,), last=12)) == [(11.0, 12.0)]
    assert wet_stretches(()) == []


def test_a_drop_is_no_rain_and_the_least_that_counts_is_told():
    def fell(mm):
        (hour,) = readings(last=1)
        return wet_stretches([WeatherHour(**{**vars(hour), "rain": mm})])

    assert fell(0.09) == []
    assert fell(0.1) == [(0.0, 1.0)]
    assert fell(None) == []


def test_the_plan_stops_and_names_starts_on_either_side():
    """Rain at noon: begun at 9 the floor is not finished; begun early, or after it, it is."""
    (said,) = words((9.0,), (12, 13, 14))
    assert said.startswith("STOP, rain from 12:00 to 15:00: placement")
    assert "This plan does not hold as it stands." in said
    assert "Move the first truck to about " in said
    assert "to be finished before it, or about 15:00 to begin after it; set day.start" in said
    assert words((9.0,), ()) == []
    assert words((9.0,), (8, 40)) == []


def test_every_start_of_the_day_is_named():
    """Two placements, rain on the second alone: both starts are told, the first as it was."""
    (said,) = words((6.0, 12.0), (14, 15, 16), parted=True)
    assert "placement 2 is not finished then" in said
    assert "Move the first trucks to about 06:00 (1) and about " in said
    assert "(2) to be finished before it" in said


def test_where_it_rains_all_through_no_concrete_is_ordered():
    (said,) = words((7.0,), range(48))
    assert "order no concrete for this day" in said
    assert "Move" not in said


def test_the_latest_starts_that_finish_before_the_rain():
    """By hand: 3 h of work before rain at noon begin at 9; the first makes room for the second's placing."""
    wet = [(12.0, 15.0)]
    alone = [work("1", 10.0, 11.0, 13.0)]
    assert sooner_starts(alone, wet, 0.0) == [9.0]
    both = [work("1", 9.5, 10.5, 12.0), work("2", 10.5, 11.5, 14.0)]
    assert sooner_starts(both, wet, 0.0) == [7.5, 8.5]
    assert sooner_starts(both, [(2.0, 15.0)], 0.0) is None
    assert sooner_starts(alone, wet, 9.5) is None
    assert sooner_starts(alone, wet, 9.0) == [9.0]
    assert sooner_starts(alone, [(12.0, 15.0), (8.0, 10.0)], 0.0) == [5.0]


def test_starts_are_quarters_of_an_hour_and_never_too_late():
    (start,) = sooner_starts([work("1", 10.0, 11.0, 12.1)], [(12.0, 13.0)], 0.0)
    assert start == 9.75
    assert start + 2.1 <= 12.0


def test_the_earliest_starts_after_the_rain():
    """All are put off by as much, to an hour at which crews begin, while the table reaches."""
    wet = [(12.0, 15.0)]
    both = [work("1", 9.0, 10.0, 12.5), work("2", 10.0, 11.0, 13.5)]
    assert later_starts(both, wet, 40.0) == [15.0, 16.0]
    assert later_starts(both, wet, 19.5) == [15.0, 16.0]
    assert later_starts(both, wet, 19.4) is None
    assert later_starts(both, [(12.0, 18.0)], 48.0) == [18.0, 19.0]
    assert later_starts(both, [(12.0, 18.1)], 48.0) == [28.0, 29.0]


@pytest.mark.parametrize("hour", range(5, 20))
def test_what_is_named_is_dry(hour):
    """Whatever the hour of the rain: planned anew at the starts named, no rain falls on the work."""
    wet = (float(hour), hour + 1.5)
    own = [work("1", 6.0, 8.0, 11.3), work("2", 9.0, 10.0, 13.1)]
    later = later_starts(own, [wet], 60.0)
    assert later is not None
    for starts in (sooner_starts(own, [wet], 0.0) or [], later):
        for start, each in zip(starts, own, strict=False):
            end = start + each.finished[1] - each.pour.start
            assert end <= wet[0] + 1e-6 or start >= wet[1] - 1e-6
