"""The checker's report for the terminal: the verdict rule by rule, then the findings under each rule."""

from collections.abc import Sequence

from kerfline.checks.disagreements import Disagreement
from kerfline.checks.verdict import Ruling, SetVerdict, Verdict
from kerfline.model.finding import Finding, Rule
from kerfline.units import Display, format_area, format_depth, format_length

MARK = {
    Ruling.COMPLIES: "yes",
    Ruling.FAILS: "NO",
    Ruling.NOT_APPLICABLE: "-",
    Ruling.NOT_CHECKED: "?",
}
DEPTHS = (Rule.DEPTH, Rule.COLUMN, Rule.PENETRATION, Rule.EDGE, Rule.KEEP_OUT)


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


def verdict_table(verdicts: Sequence[Verdict], display: Display) -> str:
    """One row a rule: ruling, worst value measured, advised and greatest or least value, count, source."""
    head = ("rule", "complies", "worst", "advised", "limit", "count", "source")
    rows = [head, *(_verdict_row(v, display) for v in verdicts)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )


def _verdict_row(verdict: Verdict, display: Display) -> tuple[str, ...]:
    return (
        verdict.rule.value,
        MARK[verdict.ruling],
        measure_text(verdict.rule, verdict.worst, display),
        measure_text(verdict.rule, verdict.advised, display),
        measure_text(verdict.rule, verdict.limit, display),
        str(verdict.count) if verdict.count else "-",
        verdict.reason
        if verdict.ruling in (Ruling.NOT_APPLICABLE, Ruling.NOT_CHECKED)
        else str(verdict.source),
    )


def findings_by_rule(findings: Sequence[Finding]) -> str:
    """The findings under the name of their rule, in the order of ``Rule``, worst first."""
    lines: list[str] = []
    for rule in Rule:
        own = [f for f in findings if f.rule is rule]
        if not own:
            continue
        lines.append(f"\n{rule.value} ({own[0].source})")
        lines.extend(f"  {f.severity.value:<8} {f.message} {f.remedy}" for f in own)
    return "\n".join(lines)


def check_text(
    verdicts: Sequence[Verdict],
    findings: Sequence[Finding],
    parted: Sequence[Disagreement],
    display: Display,
) -> str:
    """The whole report: verdicts, findings by rule, and where publications part over this layout."""
    parts = [verdict_table(verdicts, display), findings_by_rule(findings)]
    if parted:
        parts.append("\nPublications part here; the engineer decides:")
        parts.extend(f"  {row.message}" for row in parted)
    return "\n".join(part for part in parts if part)


def side_by_side(sets: Sequence[SetVerdict], display: Display) -> str:
    """Rule sets beside each other: for each rule its limit and the ruling under each set."""
    head = ("rule", "worst", *(s.rule_set for s in sets))
    rows = [head]
    for rule in Rule:
        own = [s.of(rule) for s in sets]
        rows.append(
            (
                rule.value,
                measure_text(rule, own[0].worst, display),
                *(f"{MARK[v.ruling]} ({measure_text(rule, v.limit, display)})" for v in own),
            )
        )
    widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )
