"""A rule set in words: every figure with its source and how it is known."""

import math
from collections.abc import Callable, Sequence

from kerfline.model.job import Mix
from kerfline.rules.cut import CutRow
from kerfline.rules.limits import Figure, Source
from kerfline.rules.rule_set import load, names
from kerfline.rules.rule_set_model import RuleSet
from kerfline.rules.span import Multiple, Row, Step, Table
from kerfline.units import (
    MM_PER_INCH,
    Display,
    format_area,
    format_depth,
    format_length,
)

Show = Callable[[float], str]

KNOWN = """\
[read]      read in the publication itself, or on a page that carries its text
[quoted]    read on a page that quotes the publication
[memory]    from memory; the publication itself was not read
[practice]  common practice in the trade, without a publication
[user]      set by the user"""
CHANGE = """\
To change a figure for a job, name it in the job file, for example:
[rules.overrides]
aspect = { maximum = 1.4 }
span = { advised = { cap = "12 ft" } }"""
EXAMPLES = {
    Display.FEET_INCHES: tuple(t * MM_PER_INCH for t in (4.0, 5.0, 6.0, 8.0)),
    Display.METRIC: (100.0, 125.0, 150.0, 200.0),
}
"""Thicknesses (mm) that spans are worked out for."""

INDENT = "  "
NAME_WIDTH = 10
COLUMN_WIDTH = 8


def listing() -> str:
    """Every rule set in the package, one a line, with what it is for."""
    width = max(len(name) for name in names()) + 2
    return "\n".join(f"{name:<{width}}{load(name).use}" for name in names())


def describe(rule_set: RuleSet, display: Display) -> str:
    """A rule set for a reader: figures, sources, how each is known, and spans worked out."""
    blocks = [
        [f"{rule_set.name}: {rule_set.title}", rule_set.use, *rule_set.conditions],
        _span(rule_set, display),
        _figure("Length over width (aspect)", rule_set.aspect, "maximum", _ratio),
        _figure("Least width of a panel (width)", rule_set.width, "least", _length_in(display)),
        _figure(
            "Least angle between joints, and joint and edge (angle)",
            rule_set.angle,
            "least",
            _degrees,
        ),
        *_area(rule_set, display),
        _cut(rule_set, display),
        [KNOWN],
        [CHANGE],
    ]
    return "\n\n".join("\n".join(block) for block in blocks)


def _span(rule_set: RuleSet, display: Display) -> list[str]:
    span = rule_set.span
    same = span.advised == span.maximum
    words = ["Greatest length of a panel (span)"]
    if not same:
        words += _step("advised", span.advised, span.advised_source or span.source, display)
    words += _step("maximum", span.maximum, span.source, display)
    return [*words, *_worked_out(rule_set, display)]


def _step(name: str, step: Step, source: Source, display: Display) -> list[str]:
    body = _multiple(step, display) if isinstance(step, Multiple) else _table(step, display)
    return [f"{INDENT}{name:<{NAME_WIDTH}}{body[0]}", *body[1:], _cited(source)]


def _multiple(step: Multiple, display: Display) -> list[str]:
    parts = [] if math.isinf(step.times) else [f"{step.times:g} times the thickness"]
    if step.cap is not None:
        parts.append(f"at most {format_length(step.cap, display)}")
    if step.cap_below is not None:
        parts.append(f"for slabs thinner than {format_depth(step.cap_below, display)}")
    return [" ".join([", ".join(parts[:2]), *parts[2:]])]


def _table(step: Table, display: Display) -> list[str]:
    pad = " " * (len(INDENT) + NAME_WIDTH)
    keys = [f"{pad}column {i}: {c.title}" for i, c in enumerate(step.columns, start=1)]
    return ["by thickness", *keys, *(pad + _row(row, display) for row in step.rows)]


def _row(row: Row, display: Display) -> str:
    start = f"{'above' if row.above else 'from'} {format_depth(row.start, display)}"
    spans = (f"{format_length(span, display):>{COLUMN_WIDTH}}" for span in row.spans)
    return f"{start:<{NAME_WIDTH + len(INDENT)}}" + INDENT.join(spans)


def _worked_out(rule_set: RuleSet, display: Display) -> list[str]:
    figures = [(t, rule_set.limits(t, Mix()).span) for t in EXAMPLES[display]]
    worked = ", ".join(f"{format_depth(t, display)}: {_both(f, display)}" for t, f in figures)
    return [f"{INDENT}worked out  {worked}", *(INDENT + s for s in rule_set.assumptions(Mix()))]


def _both(figure: Figure, display: Display) -> str:
    shown = [format_length(mm, display) for mm in (figure.advised, figure.bound)]
    return shown[0] if shown[0] == shown[1] else f"{shown[0]} to {shown[1]}"


def _figure(title: str, figure: Figure, bound: str, show: Show) -> list[str]:
    words = [title]
    if figure.advised != figure.bound:
        words += [f"{INDENT}{'advised':<{NAME_WIDTH}}{show(figure.advised)}"]
        words += [_cited(figure.advised_by)]
    return [*words, f"{INDENT}{bound:<{NAME_WIDTH}}{show(figure.bound)}", _cited(figure.source)]


def _area(rule_set: RuleSet, display: Display) -> list[list[str]]:
    if rule_set.area is None:
        return []
    return [
        _figure(
            "Area of a panel (area)",
            rule_set.area,
            "maximum",
            lambda mm2: format_area(mm2, display),
        )
    ]


def _cut(rule_set: RuleSet, display: Display) -> list[str]:
    words = ["Depth of cut (cut)"]
    for method, rows in rule_set.cut.items():
        words += [line for i in range(len(rows)) for line in _cut_row(method, rows, i, display)]
    return words


def _cut_row(method: str, rows: Sequence[CutRow], index: int, display: Display) -> list[str]:
    row = rows[index]
    upper = rows[index + 1].above if index + 1 < len(rows) else 0.0
    bounds = [f"above {format_depth(row.above, display)}"] if row.above else []
    bounds += [f"up to {format_depth(upper, display)}"] if upper else []
    of = f", slabs {' and '.join(bounds)} thick" if bounds else ""
    words = [f"{INDENT}{method}{of}"]
    if row.advised != row.least:
        words += [f"{INDENT * 2}advised {_share(row.advised, row, display)}"]
        words += [_cited(row.advised_source or row.source)]
    return [
        *words,
        f"{INDENT * 2}least {_share(row.least, row, display)}",
        _cited(row.source),
    ]


def _share(share: float, row: CutRow, display: Display) -> str:
    floor = format_depth(row.floor, display)
    return f"1/{1 / share:.3g} of the thickness, {floor} or more" if share else floor


def _cited(source: Source) -> str:
    head = ", ".join(filter(None, [source.publication, source.edition, source.section]))
    page = f"\n{INDENT * 3}{source.page}" if source.page else ""
    return f"{INDENT * 2}{head} [{source.known}]{page}"


def _ratio(value: float) -> str:
    return f"{value:g}"


def _degrees(value: float) -> str:
    return f"{value:g} degrees"


def _length_in(display: Display) -> Show:
    return lambda mm: format_length(mm, display)
