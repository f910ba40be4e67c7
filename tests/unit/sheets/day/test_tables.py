"""The tables of the day sheet."""

from dataclasses import replace

import pytest

from kerfline.model.day import Prices
from kerfline.sheets.day.tables import (
    SHORT_SAFETY,
    assumption_table,
    choice_table,
    cut_table,
    mind_today,
    order_blocks,
    order_table,
    pour_table,
    prose_blocks,
    standing,
    take_off_table,
    truck_tables,
    yield_table,
)
from kerfline.sheets.day.text import order_line
from kerfline.sheets.prose import Prose
from kerfline.sheets.table import Table
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from parted import parted_day, parted_outcome

PLAN = parted_day(parted_outcome())
FEET = Display.FEET_INCHES


def total(table, column):
    return sum(float(row[column].split(" ")[0].replace(",", "")) for row in table.rows)


def test_orders_add_up_to_the_concrete_and_its_allowance():
    table = order_table(PLAN, FEET, 2.5)
    for row, order in zip(table.rows, PLAN.orders, strict=True):
        assert float(row[2]) + float(row[3]) <= float(row[4]) + 0.01
        assert int(row[5]) == order.delivery.loads
    assert total(table, 4) == pytest.approx(PLAN.order.ordered / MM3_PER_YD3, abs=0.02)


def test_each_placement_is_a_row_of_every_table_of_placements():
    ids = [p.id for p in PLAN.placement.pours.pours]
    assert [row[0] for row in pour_table(PLAN, FEET, 2.5).rows] == ids
    assert [row[0] for row in yield_table(PLAN, FEET, 2.5).rows] == ids
    assert yield_table(PLAN, FEET, 2.5).tall > 0, "it is written in"


def test_a_column_too_narrow_for_a_table_has_its_sentences():
    wide = order_blocks(PLAN, FEET, 2.5, 400.0)
    narrow = order_blocks(PLAN, FEET, 2.5, 20.0)
    assert [type(block) for block in wide] == [Table, Table]
    assert [type(block) for block in narrow] == [Prose, Prose]
    assert narrow[0].paragraphs == tuple(order_line(o, FEET) for o in PLAN.orders)


def test_the_division_that_is_planned_is_marked_and_priced_where_there_are_prices():
    table = choice_table(PLAN, FEET, 2.5)
    assert [row[-1] for row in table.rows].count("planned") == 1
    prices = Prices(currency="USD", bulkhead=1.0 / MM_PER_FOOT, day=1000.0)
    priced = choice_table(replace(PLAN, day=replace(PLAN.day, prices=prices)), FEET, 2.5)
    for row, choice in zip(priced.rows, PLAN.choices, strict=True):
        figure = choice.placements * 1000 + choice.bulkhead / MM_PER_FOOT
        assert row[3] == f"{figure:,.0f}"


def test_the_cut_table_is_in_the_order_of_cutting():
    rows = cut_table(PLAN, FEET, 2.5).rows
    orders = [int(row[0].rstrip("R")) for row in rows]
    assert orders == [c.order for c in PLAN.placement.cutting.cuts]


def test_trucks_have_a_table_a_day():
    tables = truck_tables(PLAN, FEET, 2.5)
    days = {o.day for o in PLAN.orders}
    assert len(tables) == len(days)
    assert sum(len(t.rows) for t in tables) == sum(o.delivery.loads for o in PLAN.orders)
    assert all(t.parts for t in tables)


def test_safety_stands_on_the_first_sheet_and_in_full_behind():
    assert mind_today(PLAN, 2.5, 90.0).paragraphs[0] == SHORT_SAFETY
    assert standing(PLAN, 2.5, 90.0).paragraphs == PLAN.placement.standing
    for word in ("caustic", "gloves", "guards"):
        assert word in SHORT_SAFETY


def test_assumptions_and_the_take_off_are_told_in_full():
    assert len(assumption_table(PLAN, 2.5).rows) == len(PLAN.assumptions)
    assert [row[0] for row in take_off_table(PLAN, 2.5).rows] == [
        r.item for r in PLAN.take_off.rows
    ]
    bare = prose_blocks(replace(PLAN, questions=()), 2.5, 90.0)
    assert "To be asked before the day" not in [block.heading for block in bare]
