"""The checker's report for the terminal: the verdict rule by rule, then the findings under each rule.

Every line fits ``WIDTH`` columns. What is wrong comes first; long lists are cut and say where the rest is.
"""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from kerfline.checks.disagreements import Disagreement
from kerfline.checks.verdict import Ruling, SetVerdict, Verdict
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.units import Display, format_area, format_depth, format_length

WIDTH = 100
"""Columns of the report."""

MOST = 10
"""Findings that are listed for one rule and source; the list of findings has them all."""

GAP = 2
"""Spaces between columns."""

MARK = {
    Ruling.COMPLIES: "yes",
    Ruling.FAILS: "NO",
    Ruling.NOT_APPLICABLE: "-",
    Ruling.NOT_CHECKED: "?",
}
RANK = (Ruling.FAILS, Ruling.NOT_CHECKED, Ruling.COMPLIES)
"""The order of the verdicts in the table; rules that do not apply follow it."""

SEVERITIES = tuple(Severity)
DEPTHS = (Rule.DEPTH, Rule.COLUMN, Rule.PENETRATION, Rule.EDGE, Rule.KEEP_OUT)

Row = tuple[str, ...]


def measure_text(rule: Rule, value: float | None, display: Display) -> str:
    """A measure in the rule's own kind: length, depth, area, angle or ratio; ``-`` where there is none."""
    if value is None:
        return "-"
    if rule is Rule.ASPECT:
        return f"{value:.2f}"
    if rule is Rule.ANGLE:
        return f"{value:.0f} deg"
    if rule is Rule.WALL:
        return f"{value:.0%} bare"
    if rule is Rule.AREA:
        return format_area(value, display)
    if rule in DEPTHS:
        return format_depth(value, display)
    return format_length(value, display)


def check_text(
    given: SetVerdict,
    parted: Sequence[Disagreement],
    display: Display,
    listed_in: str = "the list of findings",
) -> str:
    """The whole report under one rule set.

    Args:
        given: The verdicts and the findings, in the order in which they are numbered.
        parted: Where publications part over the layout.
        display: How lengths are written.
        listed_in: Where all findings stand, for lists that are cut.

    Returns:
        Verdict in one line, a row a rule, findings by rule, and where publications part.
    """
    parts = [
        headline(given),
        verdict_table(given.verdicts, display),
        findings_by_rule(given.findings, listed_in),
        _parting(parted),
    ]
    return "\n\n".join(part for part in parts if part)


def headline(given: SetVerdict) -> str:
    """Whether the layout complies with a rule set, and with which rules it does not."""
    broken = [v.rule.value for v in given.verdicts if v.ruling is Ruling.FAILS]
    if not broken:
        return f"Under {given.rule_set}: no rule is broken."
    words = f"Under {given.rule_set}: does not comply with {', '.join(broken)}."
    return "\n".join(textwrap.wrap(words, WIDTH))


def verdict_table(verdicts: Sequence[Verdict], display: Display) -> str:
    """One row a rule that applies, broken rules first, then in a line each those that do not apply."""
    head = ("rule", "complies", "worst", "advised", "limit", "found", "source")
    applies = [v for v in verdicts if v.ruling in RANK]
    rows = [_verdict_row(v, display) for v in sorted(applies, key=lambda v: RANK.index(v.ruling))]
    absent = [v for v in verdicts if v.ruling is Ruling.NOT_APPLICABLE]
    lines = _table([head, *rows])
    lines += _wrapped(
        "does not apply: ",
        "; ".join(f"{v.rule.value} ({v.reason})" for v in absent) if absent else "",
    )
    return "\n".join(lines)


def _verdict_row(verdict: Verdict, display: Display) -> Row:
    said = str(verdict.source)
    if verdict.ruling is Ruling.NOT_CHECKED:
        said = verdict.reason
    elif verdict.reason:
        said = f"{said}; {verdict.reason}"
    return (
        verdict.rule.value,
        MARK[verdict.ruling],
        measure_text(verdict.rule, verdict.worst, display),
        measure_text(verdict.rule, verdict.advised, display),
        measure_text(verdict.rule, verdict.limit, display),
        str(verdict.count or "-"),
        said,
    )


def _table(rows: Sequence[Row]) -> list[str]:
    """Rows in columns, the last column wrapped to the width."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]) - 1)]
    room = WIDTH - sum(widths) - GAP * len(widths)
    lines = []
    for row in rows:
        last = textwrap.wrap(row[-1], max(room, MOST)) or [""]
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=False)]
        first = (" " * GAP).join([*cells, last[0]])
        indent = " " * (WIDTH - room)
        lines += [first.rstrip(), *(indent + words for words in last[1:])]
    return lines


def findings_by_rule(findings: Sequence[Finding], listed_in: str) -> str:
    """The findings under the name of their rule, rules with errors first, worst first, with their numbers."""
    numbered = list(enumerate(findings, 1))
    ranked = sorted(numbered, key=lambda n: (_worst(n[1].rule, findings), _place(n[1])))
    blocks = []
    for (rule, _, source), group in groupby(ranked, key=lambda n: _place(n[1])):
        rows = list(group)
        head = _wrapped("", f"{tuple(Rule)[rule].value} ({source})")
        blocks.append("\n".join([*head, *_listed(rows, listed_in)]))
    return "\n\n".join(blocks)


def _worst(rule: Rule, findings: Sequence[Finding]) -> int:
    return min(SEVERITIES.index(f.severity) for f in findings if f.rule is rule)


def _place(finding: Finding) -> tuple[int, int, str]:
    return (
        tuple(Rule).index(finding.rule),
        SEVERITIES.index(finding.severity),
        finding.source,
    )


def _listed(rows: Sequence[tuple[int, Finding]], listed_in: str) -> Iterator[str]:
    """Findings of one rule, a remedy that follows on itself said once."""
    shown = rows[:MOST]
    for i, (number, finding) in enumerate(shown):
        last = i + 1 == len(shown) or shown[i + 1][1].remedy != finding.remedy
        words = f"{finding.message} {finding.remedy}" if last else finding.message
        yield from _wrapped(f"{number:>4}  {finding.severity.value:<8} ", words)
    if left := len(rows) - len(shown):
        yield f"      ... and {left:,} more: see {listed_in}"


def _wrapped(head: str, words: str) -> list[str]:
    """Words after a head, the lines below hung under the words; nothing where there are no words."""
    return textwrap.wrap(
        words,
        WIDTH,
        initial_indent=head,
        subsequent_indent=" " * len(head),
        break_on_hyphens=False,
    )


def _parting(parted: Sequence[Disagreement]) -> str:
    """Where publications part, one a line with what becomes of the layout under each."""
    lines: list[str] = []
    for row in parted:
        head = row.message.split(";", 1)[0]
        lines += _wrapped("", f"{row.rule.value}: {head[0].lower()}{head[1:]}")
        for stand in row.stands:
            ruling = "kept" if stand.kept else "not kept"
            lines += _wrapped(f"  {ruling:<9} ", f"{stand.words} ({stand.source})")
    if not lines:
        return ""
    return "\n".join(["Publications disagree; the engineer chooses which holds:", *lines])


def side_by_side(sets: Sequence[SetVerdict], display: Display) -> str:
    """Rule sets beside each other: for each rule the worst measure, and ruling and limit under each set.

    Sets that find no room beside the others follow below them.
    """
    columns = [_set_column(each, display) for each in sets]
    lead = [("rule", *(r.value for r in Rule)), ("worst", *_worst_column(sets[0], display))]
    blocks = [_columns([*lead, *part]) for part in _parts(lead, columns)]
    return "\n\n".join(blocks)


def _set_column(each: SetVerdict, display: Display) -> Row:
    cells = []
    for verdict in (each.of(rule) for rule in Rule):
        limit = measure_text(verdict.rule, verdict.limit, display)
        mark = MARK[verdict.ruling]
        cells.append(mark if limit == "-" or mark == "-" else f"{mark} ({limit})")
    return (each.rule_set, *cells)


def _worst_column(each: SetVerdict, display: Display) -> Row:
    return tuple(measure_text(rule, each.of(rule).worst, display) for rule in Rule)


def _parts(lead: Sequence[Row], columns: Sequence[Row]) -> Iterator[list[Row]]:
    """The columns in groups that fit the width beside the leading ones."""
    room = WIDTH - sum(max(map(len, c)) + GAP for c in lead)
    part: list[Row] = []
    left = room
    for column in columns:
        need = max(map(len, column)) + GAP
        if part and need > left + GAP:
            yield part
            part, left = [], room
        part.append(column)
        left -= need
    yield part


def _columns(columns: Sequence[Row]) -> str:
    widths = [max(map(len, column)) for column in columns]
    return "\n".join(
        (" " * GAP)
        .join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        .rstrip()
        for row in zip(*columns, strict=True)
    )
