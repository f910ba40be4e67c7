"""Where publications disagree about this layout: the choice is left to the engineer."""

from collections.abc import Iterator
from dataclasses import dataclass

from kerfline.checks.measures import Measures, measures_of
from kerfline.checks.sources import UFC_FLOORS
from kerfline.geometry.tolerance import MEASURE, RATIO
from kerfline.model.finding import Rule
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.limits import Source
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display

ACI_302 = Source(publication="ACI 302.1R", known="quoted")
ACI_302_FIBRES = Source(publication="ACI 302.1R", section="fibre-reinforced slabs", known="quoted")
ACI_302_1980 = Source(publication="ACI 302.1R", edition="1980", section="2.3.2", known="quoted")
ACI_302_1996 = Source(publication="ACI 302.1R", edition="1996", known="quoted")
ACI_330 = Source(publication="ACI 330R", edition="1987", section="2.7", known="quoted")
CSA = Source(publication="CSA A23.1", edition="1994", section="20.2", known="quoted")
HANDBOOK = Source(publication="Highway Engineering Handbook")
PCA = Source(publication="PCA, Concrete Floors on Ground", edition="2nd ed., 1983", known="quoted")


@dataclass(frozen=True, kw_only=True)
class Stand:
    """What one publication says.

    Attributes:
        limit: Its figure, in the rule's own measure.
        words: The figure in words.
        source: The publication.
        kept: Whether the layout keeps it everywhere.
    """

    limit: float
    words: str
    source: Source
    kept: bool


@dataclass(frozen=True, kw_only=True)
class Disagreement:
    """A rule that publications put at different figures, of which this layout keeps only some.

    Attributes:
        rule: The rule.
        worst: The layout's own worst value.
        stands: What the publications say, strictest first.
        message: The disagreement in one sentence.
    """

    rule: Rule
    worst: float
    stands: tuple[Stand, ...]
    message: str


def disagreements(
    slab: Slab, layout: Layout, rules: SlabRules, display: Display
) -> tuple[Disagreement, ...]:
    """The rules on which publications part over this layout: some of them pass it, others do not."""
    measures = measures_of(slab, layout, rules, display)
    found = (_spans(measures), _aspects(measures), _depths(measures))
    return tuple(row for row in found if row and len({s.kept for s in row.stands}) > 1)


def _spans(measures: Measures) -> Disagreement:
    """Multiples of the thickness, each with its cap (the strictest and the loosest are both in print)."""
    words, thickness = measures.words, measures.slab.thickness
    worst = max(p.span for p in measures.panels)
    rows = (
        (24, None, PCA),
        (30, 15 * MM_PER_FOOT, ACI_330),
        (36, 5000.0, CSA),
        (36, 18 * MM_PER_FOOT, ACI_302_1996),
        (36, None, PCA),
    )
    stands = []
    for times, cap, source in rows:
        limit = min(times * thickness, cap or times * thickness)
        capped = f", {words.length(cap)} at most" if cap else ""
        stands.append(
            Stand(
                limit=limit,
                words=f"{times} t{capped}: {words.length(limit)}",
                source=source,
                kept=worst <= limit + MEASURE,
            )
        )
    return _disagreement(Rule.SPAN, worst, stands, f"The longest panel is {words.length(worst)}")


def _aspects(measures: Measures) -> Disagreement:
    worst = max(p.box.aspect for p in measures.panels)
    rows = ((1.25, UFC_FLOORS), (1.25, ACI_330), (1.5, ACI_302_1980), (2.0, HANDBOOK))
    stands = [
        Stand(limit=limit, words=f"{limit:g}", source=source, kept=worst <= limit + RATIO)
        for limit, source in rows
    ]
    return _disagreement(
        Rule.ASPECT, worst, stands, f"The narrowest panel is {worst:.2f} times as long as wide"
    )


def _depths(measures: Measures) -> Disagreement | None:
    """A quarter or a third of the thickness, for joints that note their depth."""
    words = measures.words
    noted = [j for j in measures.joints if j.kind is JointKind.CONTROL and j.depth]
    if not noted:
        return None
    shares = [(j.depth, measures.thickest_along(j.line)) for j in noted]
    depth, thickness = min(shares, key=lambda s: s[0] / s[1])
    rows = (
        ("t/4, 1 in or 25 mm at least", max(thickness / 4, MM_PER_INCH), ACI_302),
        ("t/3 with fibres", thickness / 3, ACI_302_FIBRES),
    )
    stands = [
        Stand(
            limit=limit,
            words=f"{rule}: {words.depth(limit)}",
            source=source,
            kept=depth >= limit - MEASURE,
        )
        for rule, limit, source in rows
    ]
    return _disagreement(
        Rule.DEPTH, depth, stands, f"The shallowest cut is {words.depth(depth)} deep"
    )


def _disagreement(rule: Rule, worst: float, stands: list[Stand], head: str) -> Disagreement:
    said = "; ".join(_said(stands))
    return Disagreement(
        rule=rule,
        worst=worst,
        stands=tuple(stands),
        message=f"{head}; publications disagree ({said}). The engineer chooses.",
    )


def _said(stands: list[Stand]) -> Iterator[str]:
    for stand in stands:
        yield f"{stand.source} says {stand.words}, {'kept' if stand.kept else 'not kept'}"
