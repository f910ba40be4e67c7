"""The placement day for programs and spreadsheets: ``NAME-day.json``, ``NAME-cuts.csv``, ``NAME-loads.csv``.

Schema ``kerfline-day/1`` (see ``day_record_schema``). The tables are for people in the job's units and by the
clock of each day, then in mm, mm3 and clock hours for programs.
"""

import csv
import io
import json
import math
from collections.abc import Iterable, Sequence
from typing import Any

from kerfline.files.day_record_schema import SCHEMA
from kerfline.files.tables import Cell, safe
from kerfline.model.job import Job
from kerfline.placement.climate import worst
from kerfline.placement.cutting import Cut
from kerfline.placement.pour_hours import PourHours
from kerfline.placement.window import Span
from kerfline.sheets.day.day_plan import DayOrder, DayPlan
from kerfline.sheets.day.text import clock, day_of
from kerfline.sheets.day.trucks import Truck, trucks
from kerfline.units import format_depth, format_run, format_volume

PLACES = 4
CUT_HEADER = (
    "cut", "day", "joint", "placement", "length", "depth", "opens", "closes", "saw", "start", "end", "late",
    "measured_depth", "time_cut", "length_mm", "depth_mm", "opens_h", "closes_h", "start_h", "end_h",
    "late_mm", "run",
)  # fmt: skip
LOAD_HEADER = (
    "load", "day", "placement", "carries", "batched_after", "discharge", "done", "arrived", "ticket",
    "left_over", "volume_mm3", "discharge_h", "done_h", "run",
)  # fmt: skip

Data = dict[str, Any]


def day_json(job: Job, plan: DayPlan) -> bytes:
    """Everything about the day."""
    placement = plan.placement
    need = placement.cutting.need
    record = {
        "schema": SCHEMA,
        "job": job.name,
        "run": job.sheet.run,
        "date": plan.day.date,
        "method": placement.method.value,
        "orders": [_order(today, plan) for today in plan.orders],
        "placements": [_placement(hours, plan) for hours in placement.hours],
        "saws": {
            "planned": placement.cutting.planned,
            "warm": need.warm,
            "likely": need.likely,
            "cool": need.cool,
        },
        "cuts": [_cut(cut) for cut in placement.cutting.cuts],
        "take_off": [
            {
                "group": row.group,
                "item": row.item,
                "amount": round(row.amount, row.decimals),
                "unit": row.unit,
                "note": row.note,
            }
            for row in plan.take_off.rows
        ],
        "cautions": [*placement.cautions, *placement.standing],
        "assumptions": [
            {"text": a.text, "value": a.value, "source": a.source} for a in plan.assumptions
        ],
        "questions": list(plan.questions),
    }
    return (json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def cuts_csv(job: Job, plan: DayPlan) -> bytes:
    """The cuts in their order, with room for the depth that is measured and the time of cutting."""
    rows = (
        (
            cut.order,
            day,
            cut.window.sawn.joint,
            " ".join(cut.window.pours),
            format_run(float(cut.window.sawn.line.length), job.display),
            format_depth(cut.window.sawn.depth, job.display),
            clock(cut.window.opens.likely, day),
            clock(cut.window.closes.likely, day),
            cut.saw,
            clock(cut.start, day),
            clock(cut.end, day),
            format_run(cut.run.late, job.display) if cut.late else "",
            "",
            "",
            round(float(cut.window.sawn.line.length), 1),
            round(cut.window.sawn.depth, 1),
            *(_hour(t) for t in (cut.window.opens.likely, cut.window.closes.likely)),
            *(_hour(t) for t in (cut.start, cut.end)),
            round(cut.run.late, 1),
            job.sheet.run,
        )
        for cut, day in ((cut, day_of(cut, plan)) for cut in plan.placement.cutting.cuts)
    )
    return _csv(CUT_HEADER, rows)


def loads_csv(job: Job, plan: DayPlan) -> bytes:
    """The trucks by the clock, with room for arrival, ticket and what is left over."""
    rows = (
        (
            truck.number,
            truck.day,
            " ".join(truck.pours),
            format_volume(truck.size, job.display),
            *(clock(t, truck.day) for t in (truck.batched, truck.discharge, truck.done)),
            "",
            "",
            "",
            round(truck.size),
            _hour(truck.discharge),
            _hour(truck.done),
            job.sheet.run,
        )
        for truck in trucks(plan)
    )
    return _csv(LOAD_HEADER, rows)


def _csv(header: Sequence[str], rows: Iterable[Sequence[Cell | None]]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(["" if cell is None else safe(cell) for cell in row])
    return text.getvalue().encode()


def _hour(value: float) -> float | None:
    return round(value, PLACES) + 0.0 if math.isfinite(value) else None


def _order(today: DayOrder, plan: DayPlan) -> Data:
    order = today.delivery
    return {
        "day": today.day,
        "placements": list(today.pours),
        "net": round(order.net),
        "allowance": round(order.allowance),
        "ordered": round(order.ordered),
        "trucks": [_truck(truck) for truck in trucks(plan) if _serves(truck, today)],
    }


def _serves(truck: Truck, today: DayOrder) -> bool:
    return truck.day == today.day and set(truck.pours) <= set(today.pours)


def _truck(truck: Truck) -> Data:
    return {
        "number": truck.number,
        "day": truck.day,
        "placements": list(truck.pours),
        "volume": round(truck.size),
        "discharge": _hour(truck.discharge),
        "done": _hour(truck.done),
        "batched_after": _hour(truck.batched),
    }


def _placement(hours: PourHours, plan: DayPlan) -> Data:
    pour = hours.pour
    highest = worst(plan.placement.evaporation, pour.start, hours.finished[1])
    return {
        "id": pour.id,
        "day": pour.day,
        "panels": list(pour.panels),
        "area": round(float(pour.area.area)),
        "volume": round(pour.volume),
        "placed": [_hour(pour.start), _hour(pour.end)],
        "floated": [_hour(time) for time in hours.floated],
        "finished": [_hour(time) for time in hours.finished],
        "evaporation": round(highest.rate.rate, PLACES) if highest else None,
    }


def _cut(cut: Cut) -> Data:
    line = cut.window.sawn.line
    return {
        "number": cut.order,
        "joint": cut.window.sawn.joint,
        "placements": list(cut.window.pours),
        "path": [[round(float(x), PLACES), round(float(y), PLACES)] for x, y in line.coords],
        "length": round(float(line.length), PLACES),
        "depth": round(cut.window.sawn.depth, PLACES),
        "opens": _range(cut.window.opens),
        "closes": _range(cut.window.closes),
        "saw": cut.saw,
        "start": _hour(cut.start),
        "end": _hour(cut.end),
        "late_length": round(cut.run.late, PLACES),
        "late_by": round(cut.run.late_by, PLACES),
        "relief": cut.relief,
    }


def _range(span: Span) -> Data:
    return {name: _hour(getattr(span, name)) for name in ("early", "likely", "late")}
