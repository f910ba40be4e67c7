"""The day for programs and spreadsheets: to its published shape, and with the day sheet's own figures."""

import csv
import io
import itertools
import json
from pathlib import Path

import jsonschema
import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.files import day_record_schema
from kerfline.files.day_record import cuts_csv, day_json, loads_csv
from kerfline.files.day_record_schema import SCHEMA, SCHEMA_FILE, DayFile
from kerfline.files.published_schema import schema_text
from kerfline.model.day import (
    Concrete,
    DayInput,
    MixSetting,
    PourChoice,
    SawChoice,
    SettingRule,
    Side,
    WeatherHour,
)
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.day.trucks import trucks
from kerfline.units import MM3_PER_YD3
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
YARD = MM3_PER_YD3
DAY = DayInput(
    date="2026-06-14",
    starts=(7.0, 13.0),
    concrete=Concrete(rate=20 * YARD, truck=4 * YARD, allowance=0.05, discharge_limit=1.5),
    pours=PourChoice(volume=20 * YARD, access=(Side.BOTTOM,)),
    saws=SawChoice(count=1),
)


def planned(day=DAY):
    job = workshop_job()
    layout = placed_layout(job.slab, workshop_layout(), day, job.display)
    return job, plan_day(job.slab, layout, RULES, day, job.display, job=job.name)


@pytest.fixture(scope="module")
def made():
    return planned()


def rows(data):
    return list(csv.DictReader(io.StringIO(data.decode())))


def test_the_published_schema_is_the_one_of_the_classes():
    """Made anew by: python -m kerfline.files.day_record_schema."""
    path = Path(day_record_schema.__file__).with_name(SCHEMA_FILE)
    assert path.read_text(encoding="utf-8") == schema_text(DayFile, SCHEMA)


def test_the_record_keeps_to_the_published_schema(made):
    data = json.loads(day_json(*made))
    schema = json.loads(Path(day_record_schema.__file__).with_name(SCHEMA_FILE).read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(data, schema, jsonschema.Draft202012Validator)
    assert DayFile.model_validate(data).date == "2026-06-14"


def test_what_never_comes_is_null():
    """Concrete under frost by a rule that stands still: no opening, no saw, no time."""
    frost = tuple(
        WeatherHour(clock=float(h), air=-8.0, humidity=0.6, wind=5.0, wind_height=500.0)
        for h in range(300)
    )
    day = DayInput(
        weather=frost,
        concrete=Concrete(temperature=1.0),
        setting=MixSetting(rule=SettingRule.NURSE_SAUL),
    )
    data = json.loads(day_json(*planned(day)))
    assert DayFile.model_validate(data)
    assert {cut["start"] for cut in data["cuts"]} == {None}
    assert {cut["saw"] for cut in data["cuts"]} == {0}


def test_the_trucks_make_the_order_and_come_as_they_empty(made):
    """Sizes sum to each day's order; each comes when the one before is empty, or with the next placement."""
    _, plan = made
    loads = trucks(plan)
    for today in plan.orders:
        own = [t for t in loads if set(t.pours) <= set(today.pours)]
        assert len(own) == today.delivery.loads
        assert sum(t.size for t in own) == pytest.approx(today.delivery.ordered)
        pours = [p for p in plan.placement.pours.pours if p.id in today.pours]
        assert own[0].discharge == pytest.approx(pours[0].start)
        assert own[-1].done == pytest.approx(pours[-1].end, abs=0.2)
        if len(pours) == 1:
            hours = today.delivery.ordered / today.delivery.rate
            assert own[-1].done == pytest.approx(pours[0].start + hours)
        starts = [p.start for p in pours]
        for before, after in itertools.pairwise(own):
            again = min(abs(after.discharge - s) for s in starts) < 0.01
            assert again or after.discharge == pytest.approx(before.done)
            assert after.discharge >= before.done - 1e-6
        assert all(t.done - t.batched == pytest.approx(1.5) for t in own)


def test_cuts_and_loads_are_tables_with_room_to_write(made):
    job, plan = made
    cuts, loads = rows(cuts_csv(job, plan)), rows(loads_csv(job, plan))
    assert [int(row["cut"]) for row in cuts] == [c.order for c in plan.placement.cutting.cuts]
    assert [row["joint"] for row in cuts] == [
        c.window.sawn.joint for c in plan.placement.cutting.cuts
    ]
    assert all(row["measured_depth"] == "" == row["time_cut"] for row in cuts)
    assert len(loads) == plan.order.loads
    assert sum(float(row["volume_mm3"]) for row in loads) == pytest.approx(plan.order.ordered)
    assert all(row["ticket"] == "" for row in loads)


def test_record_and_tables_tell_the_same(made):
    job, plan = made
    data = json.loads(day_json(*made))
    told = [truck for order in data["orders"] for truck in order["trucks"]]
    assert [t["volume"] for t in told] == [int(r["volume_mm3"]) for r in rows(loads_csv(job, plan))]
    assert [c["late_length"] for c in data["cuts"]] == pytest.approx(
        [float(row["late_mm"]) for row in rows(cuts_csv(job, plan))], abs=0.06
    )
