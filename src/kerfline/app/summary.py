"""The ten lines that a builder reads first."""

import textwrap
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, zip_longest
from typing import TYPE_CHECKING

from kerfline.app.files_told import files_told
from kerfline.app.outcome import Outcome
from kerfline.app.write_files import written_notes
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Panel, Solution, Status
from kerfline.sheets.bare_walls import bare_walls
from kerfline.sheets.lettering import unlettered
from kerfline.sheets.span_words import span_words
from kerfline.units import Display, format_depth, format_length, format_run, in_words

if TYPE_CHECKING:
    from kerfline.files.set_record import Written

WIDTH = 100
"""Columns of what the terminal shows."""

SAYING = 0.8
"""A bound under this share of the length says nothing about the layout, and is not told."""

TOLD = 5e-4
"""A gap (share of the cost) below this is no gap in a figure with one decimal of a percent."""

INDENT = 22
"""Columns of severity and rule before the words of a finding."""

NAMED = 3
"""Reasons for walls without a joint that the summary gives, and walls that it names of many; the sheets give all."""

MOST_NAMES = 12
"""Walls that are named with one reason."""

EACH = 3
"""Findings of one severity and rule that are shown where there is no room for all."""


def summary(outcome: Outcome, written: "Written | None" = None) -> str:
    """What was laid out, how it stands against the limits, and where the files are."""
    job, layout = outcome.job, outcome.layout
    rows = [
        ("slab", _slab(outcome)),
        ("panels", _panels(outcome)),
        ("joints", _joints(outcome)),
        ("walls", _walls(outcome)),
        ("corners", _corners(outcome)),
        ("depth", _depths(outcome)),
        ("findings", _findings(outcome)),
        ("quality", _quality(layout.solution, layout.joint_length, job.display)),
    ]
    rows += [("assumed", words) for words in outcome.rules.assumptions]
    rows += [("letters", words) for words in _letters(outcome)]
    if written:
        rows.append(("files", files_told(written.files)))
        rows += [("note", words) for words in written_notes(written)]
    return "\n".join(f"{name:<9} {text}" for name, text in [("job", job.name), *rows])


def _letters(outcome: Outcome) -> Iterator[str]:
    """What of the user's own words the sheets cannot show."""
    job = outcome.job
    words = [
        *job.sheet.fields.values(),
        *(keep_out.what for keep_out in job.slab.keep_outs),
        *(joint.note for joint in job.slab.joints),
    ]
    if lacking := unlettered("".join(words)):
        yield (
            f"the sheets' font lacks {' '.join(lacking)}, which the PDF leaves out: write these words in "
            "Latin, Greek or Cyrillic letters"
        )


def _slab(outcome: Outcome) -> str:
    slab, display = outcome.job.slab, outcome.job.display
    limits = outcome.rules.limits(slab.thickness)
    spans = span_words(outcome.rules, slab.thickness, display, layout_span(outcome))
    x0, y0, x1, y1 = slab.gross.bounds
    sides = f"{format_length(x1 - x0, display)} x {format_length(y1 - y0, display)}"
    thick = format_depth(slab.thickness, display)
    return f"{sides}, {thick} thick, rule set {limits.rule_set}: panels of {spans}"


def _given(outcome: Outcome) -> bool:
    """Whether somebody else made the layout."""
    return outcome.layout.solution.status is Status.GIVEN


def layout_span(outcome: Outcome) -> float:
    """The span that the layout was made to, or is held against where it was given."""
    if outcome.layout.limits:
        return outcome.layout.limits.span
    return outcome.rules.working(outcome.job.slab.thickness).span


def _panels(outcome: Outcome) -> str:
    panels, display = outcome.layout.panels, outcome.job.display
    largest = max(panels, key=lambda p: p.span)
    worked = _span_in(largest, outcome)
    share, span = largest.span / worked, format_length(worked, display)
    return (
        f"{len(panels)}; the longest, {largest.id}, is {format_length(largest.length, display)} x "
        f"{format_length(largest.width, display)}{_run(largest, display)}, {share:.0%} of {span}"
    )


def _run(panel: Panel, display: Display) -> str:
    """The straight run of a panel that is longer than its length; empty where none is."""
    if panel.span <= panel.length + MEASURE:
        return ""
    return f" with a straight run of {format_length(panel.span, display)}"


def _span_in(panel: Panel, outcome: Outcome) -> float:
    """The span (mm) that holds in a panel: that of its zone's thickness, where it lies in one."""
    slab, spot = outcome.job.slab, panel.polygon.point_on_surface()
    thickness = slab.thickness_at(spot.x, spot.y)
    if thickness == slab.thickness:
        return layout_span(outcome)
    return outcome.rules.working(thickness).span


def _joints(outcome: Outcome) -> str:
    layout, display = outcome.layout, outcome.job.display
    return (
        f"{len(layout.joints)}, {format_run(layout.joint_length, display)} in all, "
        f"{format_run(layout.hidden_length, display)} of it under walls"
    )


def _walls(outcome: Outcome) -> str:
    walls, left = outcome.job.slab.walls, outcome.layout.walls_left
    if not walls:
        return "none"
    if _given(outcome):
        return _walls_given(outcome)
    if not left:
        return f"{len(walls)}, a joint under or beside each as the job asks"
    display = outcome.job.display
    reasons = list(bare_walls(left).items())
    why = "; ".join(
        f"{_named(names)}: {in_words(reason, display)}" for reason, names in reasons[:NAMED]
    )
    rest = sum(len(names) for _, names in reasons[NAMED:])
    more = f"; and {rest} more" if rest else ""
    return f"{len(walls)}, {len(left)} without a joint ({why}{more})"


def _named(names: Sequence[str]) -> str:
    """Names, where they are many the first ones and a count of the rest."""
    if len(names) <= MOST_NAMES:
        return ", ".join(names)
    return f"{', '.join(names[:NAMED])} and {len(names) - NAMED:,} more"


def _walls_given(outcome: Outcome) -> str:
    """The walls that the checks found bare."""
    names = [w.id for w in outcome.job.slab.walls]
    found = {f.subject for f in outcome.findings if f.rule is Rule.WALL}
    bare = [name for name in names if name in found]
    if not bare:
        return f"{len(names)}, no finding under the wall rule"
    listed = ", ".join(bare[:NAMED])
    more = f" and {len(bare) - NAMED} more" if len(bare) > NAMED else ""
    return f"{len(names)}, {len(bare)} with a finding under the wall rule ({listed}{more})"


def _corners(outcome: Outcome) -> str:
    corners = len(outcome.job.slab.reentrant_corners)
    bare = sum(f.rule is Rule.CORNER for f in outcome.findings)
    if not corners:
        return "no re-entrant corner"
    return f"{corners} re-entrant, {corners - bare} with a joint, {bare} flagged for bars"


def _depths(outcome: Outcome) -> str:
    display = outcome.job.display
    depths = sorted({round(j.depth, 2) for j in outcome.layout.joints if j.depth})
    if not depths:
        return "no cut depth given"
    listed = ", ".join(format_depth(d, display) for d in depths)
    return f"cut {listed} deep ({outcome.job.cut.method}); make a trial cut first"


def _findings(outcome: Outcome) -> str:
    counts = [(outcome.count(s), s.value) for s in Severity]
    return ", ".join(
        f"{n} {word}{'s' if n != 1 and word != 'advice' else ''}" for n, word in counts
    )


def _quality(solution: Solution, length: float, display: Display) -> str:
    if solution.status is Status.GIVEN:
        return "layout as given"
    words = f"joint length {format_run(length, display)}"
    if solution.length_bound >= SAYING * length:
        over = max(0.0, length / max(solution.length_bound, 1.0) - 1)
        words += (
            f", at most {over:.1%} more than the least that any layout needs along the same directions, with the same"
            f" joints at walls, columns and corners{_others(solution)} and the spacing and aspect kept here"
        )
        if over >= TOLD:
            words += " (length is weighed against square and even panels, tees and chalk lines)"
    return f"{words}; {_proven(solution)}"


def _others(solution: Solution) -> str:
    """How the other joints run in the layouts of which the bound of the length holds."""
    return ", the others run from edge to edge or to one of these," if solution.through else ""


def _proven(solution: Solution) -> str:
    """How near the best on its candidate lines the layout is proven to be."""
    least = solution.gap < TOLD
    within = "the best" if least else f"within {solution.gap:.1%} of the best"
    told = {
        Status.OPTIMAL: "best on its candidate lines, proven",
        Status.TIME_LIMIT: f"proven {within} on its candidate lines",
        Status.PARTS: f"laid out in parts, proven {within} on their candidate lines",
        Status.HEURISTIC: "built by rule in places, not proven best",
    }
    return told[solution.status]


def set_text(written: "Written") -> str:
    """Where the files are, for a terminal, and what became of those before; names are never broken."""
    rows = [("files", files_told(written.files)), *(("note", w) for w in written_notes(written))]
    return "\n".join(
        textwrap.fill(
            words,
            WIDTH,
            initial_indent=f"{name:<9} ",
            subsequent_indent=" " * 10,
            break_on_hyphens=False,
            break_long_words=False,
        )
        for name, words in rows
    )


def findings_text(findings: Sequence[Finding], *, most: int = 12) -> str:
    """The findings for the terminal, worst first, at most so many, and how many more there are under each rule.

    A remedy that follows on itself is said once, after the last. Where there is no room for all, a few are shown of each
    severity and rule, so that hundreds under one rule do not hide those under the next.
    """
    ranked = sorted(findings, key=_rank)
    shown = ranked
    if len(ranked) > most:
        groups = [list(group) for _, group in groupby(ranked, key=_rank)]
        shown = [f for group in groups for f in group[:EACH]][:most]
        rest = [f for group in groups for f in group[EACH:]]
        shown = sorted([*shown, *rest[: most - len(shown)]], key=_rank)
    lines = [_finding_text(f, after) for f, after in zip_longest(shown, shown[1:])]
    if len(ranked) > most:
        lines += textwrap.wrap(f"in all: {_counts(ranked)}", WIDTH)
        lines.append(f"... and {len(ranked) - most} more, all in the JSON file")
    return "\n".join(lines)


def _rank(finding: Finding) -> tuple[int, Rule]:
    """Where a finding stands among others: worst first, those of one rule together."""
    return list(Severity).index(finding.severity), finding.rule


def _counts(ranked: Sequence[Finding]) -> str:
    """How many findings there are of each severity under each rule."""
    told = []
    for severity, group in groupby(ranked, key=lambda f: f.severity):
        counts = Counter(f.rule.value for f in group)
        told.append(f"{severity.value}: {', '.join(f'{rule} {n:,}' for rule, n in counts.items())}")
    return "; ".join(told)


def _finding_text(finding: Finding, after: Finding | None) -> str:
    alike = after is not None and (after.rule, after.remedy) == (finding.rule, finding.remedy)
    return textwrap.fill(
        finding.message if alike else f"{finding.message} {finding.remedy}",
        WIDTH,
        initial_indent=f"{finding.severity.value:<8} {finding.rule.value:<12} ",
        subsequent_indent=" " * INDENT,
        break_on_hyphens=False,
    )
