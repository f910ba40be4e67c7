"""What the day costs, where the job gives prices: amounts of this plan times the job's own prices."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kerfline.model.day import Prices
from kerfline.quantities.row import Row

GROUP = "costs"


@dataclass(frozen=True, kw_only=True)
class Amounts:
    """What is paid for: volume mm3, lengths mm, area mm2, hours."""

    concrete: float
    bulkhead: float
    sawn: float
    area: float
    days: int
    saw_hours: float
    finisher_hours: float


def cost_rows(amounts: Amounts, prices: Prices) -> list[Row]:
    """A row for each price that is given, and their sum; nothing where none is."""
    rows = list(_rows(amounts, prices))
    if rows:
        whole = sum(row.amount for row in rows)
        rows.append(
            _row("in all", whole, prices, "of what is priced here; taxes and the rest apart")
        )
    return rows


def _rows(amounts: Amounts, prices: Prices) -> Iterator[Row]:
    priced: Sequence[tuple[str, float, float | None]] = (
        ("concrete as ordered", amounts.concrete, prices.concrete),
        ("bulkheads with their dowels", amounts.bulkhead, prices.bulkhead),
        ("sawing, by length", amounts.sawn, prices.sawing),
        ("sawing, by the hour", amounts.saw_hours, prices.saw_hour),
        ("finishing, by the hour", amounts.finisher_hours, prices.finisher_hour),
        ("curing", amounts.area, prices.curing),
        ("days on site", float(amounts.days), prices.day),
    )
    for item, amount, price in priced:
        if price is not None:
            yield _row(item, amount * price, prices, "")


def _row(item: str, amount: float, prices: Prices, note: str) -> Row:
    return Row(group=GROUP, item=item, amount=amount, unit=prices.currency, note=note, decimals=2)
