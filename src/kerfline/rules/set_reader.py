"""A rule set as tables, read into a ``RuleSet`` with every mistake gathered."""

import itertools
import math
from collections.abc import Mapping

from kerfline.rules.cut import CutRow
from kerfline.rules.limits import Figure, Source
from kerfline.rules.rule_set_model import RuleSet
from kerfline.rules.span import Column, Multiple, Row, SpanRule, Step, Table
from kerfline.rules.table_reader import TableReader
from kerfline.units import MM_PER_FOOT, MM_PER_METRE

KNOWN = ("read", "quoted", "memory", "practice", "user")
ADDRESSES = ("http://", "https://")
SET_KEYS = (
    "title", "use", "like", "conditions", "span", "aspect", "width", "angle", "area", "cut",
)  # fmt: skip
GREATEST = ("advised", "maximum", "source", "advised_source")
LEAST = ("advised", "least", "source", "advised_source")
LENGTHS_OF_COLUMN = (
    "slump_from", "slump_to", "slump_below", "aggregate_from", "aggregate_below",
)  # fmt: skip
AREA_UNITS = {"ft2": MM_PER_FOOT**2, "m2": MM_PER_METRE**2}


def read_set(name: str, reader: TableReader) -> RuleSet | None:
    """Reads a rule set; None where a part is missing, with the mistakes left in the reader."""
    reader.only(SET_KEYS)
    span, aspect = _span(reader), _greatest(reader, "aspect")
    width, angle = _least_length(reader, "width"), _least_number(reader, "angle")
    cut = _cut(reader)
    if span is None or aspect is None or width is None or angle is None:
        return None
    return RuleSet(
        name=name,
        title=reader.text("title"),
        use=reader.text("use"),
        conditions=reader.texts("conditions"),
        span=span,
        aspect=aspect,
        width=width,
        angle=angle,
        area=_area(reader) if "area" in reader.values else None,
        cut=cut,
    )


def _source(reader: TableReader, key: str = "source") -> Source:
    table = reader.table(key)
    if table is None:
        return Source(publication="")
    table.only(("publication", "edition", "section", "known", "page"))
    known = table.text("known", "user")
    if known not in KNOWN:
        table.refuse("known", "this is not a way of knowing", found=known, remedy=_one_of(KNOWN))
    page = table.text("page", "")
    if page and not page.startswith(ADDRESSES):
        table.refuse("page", "this is no page's address", found=page, remedy="such as https://...")
    return Source(
        publication=table.text("publication"),
        edition=table.text("edition", ""),
        section=table.text("section", ""),
        known=known,
        page=page,
    )


def _advised_source(reader: TableReader) -> Source | None:
    return _source(reader, "advised_source") if "advised_source" in reader.values else None


def _span(reader: TableReader) -> SpanRule | None:
    table = reader.table("span")
    if table is None:
        return None
    table.only(GREATEST)
    advised, maximum = _step(table, "advised"), _step(table, "maximum")
    if advised is None or maximum is None:
        return None
    return SpanRule(
        advised=advised,
        maximum=maximum,
        source=_source(table),
        advised_source=_advised_source(table),
    )


def _step(reader: TableReader, key: str) -> Step | None:
    table = reader.table(key)
    if table is None:
        return None
    if "rows" in table.values:
        return _span_table(table)
    table.only(("times", "cap", "cap_below"))
    if "times" not in table.values and "cap" not in table.values:
        table.refuse("", "times, cap or rows are needed here", found=dict(table.values))
    return Multiple(
        times=table.number("times") if "times" in table.values else math.inf,
        cap=table.optional_length("cap"),
        cap_below=table.optional_length("cap_below"),
    )


def _span_table(table: TableReader) -> Table:
    table.only(("rows", "columns"))
    columns = (
        tuple(_column(c) for c in table.tables("columns")) if "columns" in table.values else ()
    )
    rows = tuple(_row(r, max(1, len(columns))) for r in table.tables("rows"))
    if any((a.start, a.above) >= (b.start, b.above) for a, b in itertools.pairwise(rows)):
        table.refuse("rows", "the rows must stand in order of rising thickness")
    return Table(rows=rows, columns=columns)


def _column(table: TableReader) -> Column:
    table.only(("title", *LENGTHS_OF_COLUMN))
    asked = {key: table.optional_length(key) for key in LENGTHS_OF_COLUMN}
    return Column(title=table.text("title"), **asked)


def _row(table: TableReader, count: int) -> Row:
    table.only(("from", "above", "spans"))
    above = "above" in table.values
    spans = table.lengths("spans")
    if spans and len(spans) != count:
        table.refuse("spans", f"{count} of them are needed, one a column", found=len(spans))
    return Row(start=table.length("above" if above else "from"), above=above, spans=spans)


def _greatest(reader: TableReader, key: str) -> Figure | None:
    table = reader.table(key)
    if table is None:
        return None
    table.only(GREATEST)
    return _figure(table, table.number("advised"), table.number("maximum"), sign=1)


def _least_number(reader: TableReader, key: str) -> Figure | None:
    table = reader.table(key)
    if table is None:
        return None
    table.only(LEAST)
    return _figure(table, table.number("advised"), table.number("least"), sign=-1)


def _least_length(reader: TableReader, key: str) -> Figure | None:
    table = reader.table(key)
    if table is None:
        return None
    table.only(LEAST)
    return _figure(table, table.length("advised"), table.length("least"), sign=-1)


def _figure(table: TableReader, advised: float, bound: float, *, sign: int) -> Figure:
    if sign * (advised - bound) > 0:
        table.refuse(
            "advised",
            "the advised value lies beyond the " + ("maximum" if sign > 0 else "least one"),
            found=table.values.get("advised"),
            remedy="change both",
        )
    return Figure(
        advised=advised, bound=bound, source=_source(table), advised_source=_advised_source(table)
    )


def _area(reader: TableReader) -> Figure | None:
    table = reader.table("area")
    if table is None:
        return None
    table.only(GREATEST)
    return _figure(table, _area_of(table, "advised"), _area_of(table, "maximum"), sign=1)


def _area_of(table: TableReader, key: str) -> float:
    value = table.values.get(key)
    words = value.split() if isinstance(value, str) else []
    if len(words) == 2 and words[1] in AREA_UNITS:  # noqa: PLR2004 -- a number and its unit
        number = TableReader({key: words[0]}, table.path, table.place, None, table.mistakes)
        return number.number(key) * AREA_UNITS[words[1]]
    table.refuse(key, "an area is needed here", found=value, remedy="such as 600 ft2 or 55.7 m2")
    return math.nan


def _cut(reader: TableReader) -> Mapping[str, tuple[CutRow, ...]]:
    table = reader.table("cut")
    if table is None:
        return {}
    return {method: tuple(_cut_row(row) for row in table.tables(method)) for method in table.values}


def _cut_row(table: TableReader) -> CutRow:
    table.only(("advised", "least", "floor", "above", "source", "advised_source"))
    return CutRow(
        advised=table.number("advised") if "advised" in table.values else 0.0,
        least=table.number("least") if "least" in table.values else 0.0,
        floor=table.length("floor"),
        above=table.optional_length("above") or 0.0,
        source=_source(table),
        advised_source=_advised_source(table),
    )


def _one_of(words: tuple[str, ...]) -> str:
    return "one of " + ", ".join(words)
