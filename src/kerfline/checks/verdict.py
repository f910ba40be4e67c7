"""The verdict rule by rule: complies, does not comply, does not apply, not checked."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from kerfline.checks.check import findings_of, in_order
from kerfline.checks.grading import worst_held
from kerfline.checks.measures import Measures, measures_of
from kerfline.checks.scope import Scope, scope_of
from kerfline.checks.sources import YES_OR_NO
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.limits import Source
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display


class Ruling(StrEnum):
    """What becomes of a rule."""

    COMPLIES = "complies"
    FAILS = "does not comply"
    NOT_APPLICABLE = "does not apply"
    NOT_CHECKED = "not checked"


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """One rule held against the whole layout.

    Attributes:
        rule: The rule.
        ruling: What became of it.
        reason: Why it does not apply or was not checked, or what stays to be said; may be empty.
        source: Publication, edition and section of its limit.
        advised: Advised value in the rule's own measure; None for rules that ask yes or no.
        limit: Greatest or least value in that measure; None for rules that ask yes or no.
        worst: Worst value measured, kept or not; None where nothing was measured.
        errors: How many findings are errors.
        warnings: How many are warnings.
        advice: How many are advice.
    """

    rule: Rule
    ruling: Ruling
    reason: str
    source: Source
    advised: float | None
    limit: float | None
    worst: float | None
    errors: int
    warnings: int
    advice: int

    @property
    def count(self) -> int:
        """How many findings there are of the rule."""
        return self.errors + self.warnings + self.advice


@dataclass(frozen=True, kw_only=True)
class SetVerdict:
    """One rule set held against the layout.

    Attributes:
        rule_set: Its name.
        findings: Everything found under it.
        verdicts: One for each rule, in the order of ``Rule``.
    """

    rule_set: str
    findings: tuple[Finding, ...]
    verdicts: tuple[Verdict, ...]

    @property
    def complies(self) -> bool:
        """Whether no rule is broken."""
        return all(v.ruling is not Ruling.FAILS for v in self.verdicts)

    def of(self, rule: Rule) -> Verdict:
        """The verdict on one rule."""
        return next(v for v in self.verdicts if v.rule is rule)


def verdicts(
    findings: Sequence[Finding], slab: Slab, layout: Layout, rules: SlabRules
) -> tuple[Verdict, ...]:
    """What became of each rule.

    Args:
        findings: What ``check`` found on the same slab, layout and rules.
        slab: The slab.
        layout: The layout.
        rules: The limits.

    Returns:
        A verdict for each rule, in the order of ``Rule``. A rule with two steps fails where its bound
        is broken; beyond the advised value it complies, and the reason says how often that is not kept.
        A rule that asks yes or no fails on any error or warning. Advice breaks no rule.
    """
    measures = measures_of(slab, layout, rules, Display.METRIC)
    return tuple(_verdict(rule, findings, measures) for rule in Rule)


def compare(
    slab: Slab,
    layout: Layout,
    sets: Iterable[SlabRules],
    display: Display,
    beside: Sequence[Finding] = (),
) -> tuple[SetVerdict, ...]:
    """The same layout under several rule sets, to be read side by side, in the order given.

    Args:
        slab: The slab.
        layout: The layout.
        sets: The rule sets.
        display: How lengths are written in messages.
        beside: What was found against another plan or slab, which counts under every set.
    """
    return tuple(_set_verdict(measures_of(slab, layout, rules, display), beside) for rules in sets)


def _set_verdict(measures: Measures, beside: Sequence[Finding]) -> SetVerdict:
    findings = in_order((*findings_of(measures), *beside))
    return SetVerdict(
        rule_set=measures.slab_limits.rule_set,
        findings=findings,
        verdicts=tuple(_verdict(rule, findings, measures) for rule in Rule),
    )


def _verdict(rule: Rule, findings: Sequence[Finding], measures: Measures) -> Verdict:
    own = [f for f in findings if f.rule is rule]
    scope = scope_of(rule, measures)
    held = worst_held(scope.held)
    ruling, reason = _ruling(rule, scope, own)
    return Verdict(
        rule=rule,
        ruling=ruling,
        reason=reason,
        source=held.figure.source
        if held
        else YES_OR_NO.get(rule, _rule_set_source(rule, measures)),
        advised=held.figure.advised if held else None,
        limit=held.figure.bound if held else None,
        worst=held.value if held else _worst_found(own),
        errors=_count(own, Severity.ERROR),
        warnings=_count(own, Severity.WARNING),
        advice=_count(own, Severity.ADVICE),
    )


def _ruling(rule: Rule, scope: Scope, own: Sequence[Finding]) -> tuple[Ruling, str]:
    errors, warnings = _count(own, Severity.ERROR), _count(own, Severity.WARNING)
    stepped = rule not in YES_OR_NO
    if errors or (warnings and not stepped):
        return Ruling.FAILS, ""
    if scope.unchecked:
        return Ruling.NOT_CHECKED, scope.unchecked
    if scope.absent and not own:
        return Ruling.NOT_APPLICABLE, scope.absent
    if warnings:
        times = "place is" if warnings == 1 else "places are"
        return Ruling.COMPLIES, f"{warnings} {times} beyond the advised value"
    return Ruling.COMPLIES, ""


def _rule_set_source(rule: Rule, measures: Measures) -> Source:
    """Source of a figure that nothing was held against."""
    limits = measures.slab_limits
    figures = {
        Rule.SPAN: limits.span,
        Rule.ASPECT: limits.aspect,
        Rule.WIDTH: limits.width,
        Rule.ANGLE: limits.angle,
        Rule.DEPTH: measures.rules.cut_limit(limits.thickness),
        Rule.AREA: limits.area,
    }
    figure = figures.get(rule)
    return figure.source if figure else Source(publication=f"rule set {limits.rule_set}")


def _worst_found(own: Sequence[Finding]) -> float | None:
    """The measure of the worst finding: the first, since findings come worst first, of the farthest off."""
    worst = [f for f in own if f.severity is own[0].severity and f.measured is not None]
    return max((f.measured for f in worst if f.measured is not None), default=None)


def _count(own: Sequence[Finding], severity: Severity) -> int:
    return sum(f.severity is severity for f in own)
