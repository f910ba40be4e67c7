"""The tables of the day sheet."""

from kerfline.placement.cutting import Cut
from kerfline.placement.wording import placements
from kerfline.quantities.order import minutes
from kerfline.sheets.blocks import Block
from kerfline.sheets.day.day_plan import DayChoice, DayPlan
from kerfline.sheets.day.text import (
    base_line,
    clock,
    cut_marks,
    day_of,
    finishing_lines,
    order_line,
    pour_lines,
    saws_line,
    span,
    weather_lines,
)
from kerfline.sheets.day.trucks import Truck, trucks
from kerfline.sheets.prose import Prose
from kerfline.sheets.table import Column, Table
from kerfline.units import (
    Display,
    format_area,
    format_depth,
    format_run,
    format_volume,
)

WRITE_IN = 5.5
"""Height in mm of a row that is written in with a pencil."""

TICK, TICKET = 8.0, 16.0
"""Least width in mm of the box that is ticked and of the line for a ticket's number."""

SHORT_SAFETY = (
    "Fresh concrete is caustic: boots and gloves. At the saw: water on the blade, guards on, ears and eyes protected. "
    "Find what lies in the slab before any cut. The safety lines stand on a sheet behind; local rules come first."
)
"""What stands on the first sheet of what holds on every day."""

WIDE = 62.0
"""Greatest width in mm of a cell that holds a sentence."""


def order_blocks(plan: DayPlan, display: Display, text: float, width: float) -> list[Block]:
    """Orders and placements as tables that fit the column, as sentences where it is too narrow for one."""
    orders = tuple(order_line(today, display) for today in plan.orders)
    either = (
        (order_table(plan, display, text), orders),
        (pour_table(plan, display, text), tuple(pour_lines(plan, display))),
    )
    return [
        table.within(width)
        if table.least_width <= width
        else Prose(table.heading, lines, text, width, first=0)
        for table, lines in either
    ]


def order_table(plan: DayPlan, display: Display, text: float) -> Table:
    """What to order, day by day."""
    unit = format_volume(plan.order.net, display).split(" ")[-1]
    rows = tuple(
        (
            str(today.day),
            ", ".join(today.pours),
            _bare(format_volume(today.delivery.net, display)),
            _bare(format_volume(today.delivery.allowance, display)),
            _bare(format_volume(today.delivery.ordered, display)),
            str(today.delivery.loads),
            _bare(minutes(today.delivery.interval)),
            str(today.delivery.ring),
        )
        for today in plan.orders
    )
    columns = (
        Column("day"),
        Column("place-|ment"),
        Column(f"net|{unit}", right=True),
        Column(f"allow-|ance|{unit}", right=True),
        Column(f"order|{unit}", right=True),
        Column("loads", right=True),
        Column("every|min", right=True),
        Column("trucks|in ring", right=True),
    )
    return Table("Concrete to order", columns, rows, text)


def _bare(amount: str) -> str:
    """An amount without its unit, which stands in the head."""
    return amount.rsplit(" ", 1)[0]


def pour_table(plan: DayPlan, display: Display, text: float) -> Table:
    """Each placement with its size and hours."""
    area, volume = (
        shown.rsplit(" ", 1)[1]
        for shown in (format_area(0.0, display), format_volume(0.0, display))
    )
    several = len({h.pour.day for h in plan.placement.hours}) > 1
    rows = tuple(
        (
            h.pour.id,
            *([str(h.pour.day)] if several else []),
            _bare(format_area(float(h.pour.area.area), display)),
            _bare(format_volume(h.pour.volume, display)),
            f"{clock(h.pour.start, h.pour.day)}-{clock(h.pour.end, h.pour.day)}",
            clock(h.floated[0], h.pour.day),
            clock(h.finished[1], h.pour.day),
            str(h.finishers),
        )
        for h in plan.placement.hours
    )
    columns = (
        Column("place-|ment"),
        *([Column("day", right=True)] if several else []),
        Column(f"area|{area}", right=True),
        Column(f"concrete|{volume}", right=True),
        Column("placed"),
        Column("bleeds|until"),
        Column("finished"),
        Column("fin-|ishers", right=True),
    )
    return Table("Placements in order", columns, rows, text)


def hold_notes(plan: DayPlan, display: Display, text: float, width: float) -> Prose:
    """The last load of each order, and the limit on discharge."""
    days: dict[str, list[str]] = {}
    for today in plan.orders:
        days.setdefault(today.delivery.hold(display), []).extend(today.pours)
    holds = [f"{placements(ids)}: {words}" for words, ids in days.items()]
    limit = minutes(plan.order.discharge_limit)
    words = f"Discharge within {limit} of batching (the project's or producer's limit)."
    low = base_line(plan, display)
    base = f"{low[0].upper()}{low[1:]}."
    return Prose("Last load", (*holds, words, base), text, width, first=0)


def finishing_notes(plan: DayPlan, text: float, width: float) -> Prose:
    """Until when each placement bleeds, and when it is finished."""
    return Prose("Finishing", tuple(finishing_lines(plan)), text, width, first=0)


def choice_table(plan: DayPlan, display: Display, text: float) -> Table:
    """Fewer days against fewer bulkheads; the division that is planned is marked."""
    planned = len(plan.placement.pours.pours)
    prices = plan.day.prices
    priced = prices.bulkhead is not None and prices.day is not None
    rows = tuple(
        (
            str(choice.placements),
            format_volume(choice.most, display),
            format_run(choice.bulkhead, display),
            *([_price(choice, plan)] if priced else []),
            "planned" if choice.placements == planned else "",
        )
        for choice in plan.choices
    )
    columns = (
        Column("place-|ments", right=True),
        Column("the|largest", right=True),
        Column("bulk-|head", right=True),
        *([Column(f"days and|bulkheads, {prices.currency}", right=True)] if priced else []),
        Column(""),
    )
    return Table("Other divisions", columns, rows, text)


def _price(choice: DayChoice, plan: DayPlan) -> str:
    """What days and bulkheads cost, a day for each placement."""
    prices = plan.day.prices
    days = choice.placements * (prices.day or 0.0)
    return f"{days + choice.bulkhead * (prices.bulkhead or 0.0):,.0f}"


def yield_table(plan: DayPlan, display: Display, text: float) -> Table:
    """What was planned, with room for what came and what was left: the yield of each placement."""
    rows = tuple(
        (h.pour.id, format_volume(h.pour.volume, display), "", "", "", "")
        for h in plan.placement.hours
    )
    columns = (
        Column("place-|ment"),
        Column("planned,|net", right=True),
        Column("delivered", least=TICKET),
        Column("left over", least=TICKET),
        Column("in place", least=TICKET),
        Column("over or|under", least=TICKET),
    )
    return Table("Yield, to be written after each placement", columns, rows, text, tall=WRITE_IN)


def take_off_table(plan: DayPlan, text: float) -> Table:
    """Everything to have on site."""
    rows = tuple((row.item, row.shown, row.note) for row in plan.take_off.rows)
    columns = (
        Column("item", widest=WIDE),
        Column("amount", right=True),
        Column("note", widest=WIDE),
    )
    return Table("Take-off", columns, rows, text)


def cut_table(plan: DayPlan, display: Display, text: float) -> Table:
    """Every line in the order of cutting, with its window."""
    rows = tuple(_cut_row(cut, day_of(cut, plan), display) for cut in plan.placement.cutting.cuts)
    columns = (
        Column("cut", right=True),
        Column("day", right=True),
        Column("joint"),
        Column("place-|ment"),
        Column("length", right=True),
        Column("depth", right=True),
        Column("opens|(earliest to latest)"),
        Column("closes|(earliest to latest)"),
        Column("saw", right=True),
        Column("start", right=True),
        Column(""),
    )
    return Table("Cutting, one line after another", columns, rows, text)


def _cut_row(cut: Cut, day: int, display: Display) -> tuple[str, ...]:
    window = cut.window
    return (
        f"{cut.order}{'R' if cut.relief else ''}",
        str(day),
        window.sawn.name,
        ", ".join(window.pours),
        format_run(float(window.sawn.line.length), display),
        format_depth(window.sawn.depth, display),
        span(window.opens, day),
        span(window.closes, day),
        str(cut.saw),
        f"{clock(cut.start, day)}",
        ", ".join(cut_marks(cut, display)),
    )


def cutting_notes(plan: DayPlan, text: float, width: float) -> Prose:
    """How many saws, and what to cut before walls stand."""
    walls = plan.placement.under_walls
    before = (f"Cut before walls stand: {', '.join(walls)}.",) if walls else ()
    line = saws_line(plan)
    return Prose("Saws", (f"{line[0].upper()}{line[1:]}.", *before), text, width, first=0)


def weather_notes(plan: DayPlan, display: Display, text: float, width: float) -> Prose:
    """Rates of evaporation, and what helps."""
    lines = tuple(f"{line[0].upper()}{line[1:]}." for line in weather_lines(plan, display))
    return Prose("Weather", lines, text, width, first=0)


def assumption_table(plan: DayPlan, text: float) -> Table:
    """What was not given and stands on the sheet all the same."""
    rows = tuple((a.text, a.value, a.source) for a in plan.assumptions)
    columns = (
        Column("assumed", widest=WIDE),
        Column("value", widest=WIDE / 2),
        Column("source", widest=WIDE),
    )
    return Table("Assumptions, to be confirmed", columns, rows, text)


def mind_today(plan: DayPlan, text: float, width: float) -> Prose:
    """What this day asks to be minded."""
    return Prose("Mind today", (SHORT_SAFETY, *plan.placement.cautions), text, width)


def standing(plan: DayPlan, text: float, width: float) -> Prose:
    """What can hurt someone or spoil the slab, on every day."""
    return Prose("Safety", plan.placement.standing, text, width)


def truck_tables(plan: DayPlan, display: Display, text: float) -> list[Table]:
    """The trucks of each day by the clock, with a box to tick and a line for the ticket."""
    loads = trucks(plan)
    days = sorted({truck.day for truck in loads})
    columns = (
        Column("truck", right=True),
        Column("place-|ment"),
        Column("carries", right=True),
        Column("batched|after"),
        Column("dis-|charge"),
        Column("here", least=TICK),
        Column("ticket", least=TICKET),
    )
    return [
        Table(
            f"Trucks, day {day}" if len(days) > 1 else "Trucks",
            columns,
            tuple(_truck_row(t, display) for t in loads if t.day == day),
            text,
            tall=WRITE_IN,
            parts=True,
        )
        for day in days
    ]


def _truck_row(truck: Truck, display: Display) -> tuple[str, ...]:
    return (
        str(truck.number),
        ", ".join(truck.pours),
        format_volume(truck.size, display),
        clock(truck.batched, truck.day),
        clock(truck.discharge, truck.day),
        "",
        "",
    )


def prose_blocks(plan: DayPlan, text: float, width: float) -> list[Block]:
    """Questions, habits and setting out."""
    placement = plan.placement
    sections = (
        ("To be asked before the day", plan.questions),
        ("Habits of the trade, not rules", placement.hints),
        ("Setting out and acceptance", placement.setting_out),
    )
    return [Prose(title, lines, text, width) for title, lines in sections if lines]
