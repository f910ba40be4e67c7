"""Holds a layout against the rules: the table of contents of the checks.

Every rule measures for itself. A rule is a generator of findings; a family of rules is a module that
lists them. Start with ``measures`` to see what they look at, then take any family.
"""

import re
from collections.abc import Iterable

from kerfline.checks import (
    angles,
    balance,
    columns,
    corners,
    cuts,
    edges,
    ends,
    keep_outs,
    panels,
    penetrations,
    shapes,
    walls,
)
from kerfline.checks.measures import Check, Measures, measures_of
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display

CHECKS: tuple[Check, ...] = (
    *panels.CHECKS,
    *shapes.CHECKS,
    *balance.CHECKS,
    *angles.CHECKS,
    *corners.CHECKS,
    *ends.CHECKS,
    *walls.CHECKS,
    *columns.CHECKS,
    *penetrations.CHECKS,
    *keep_outs.CHECKS,
    *cuts.CHECKS,
    *edges.CHECKS,
)
"""Every rule that a layout is held against."""

RULES = tuple(Rule)
SEVERITIES = tuple(Severity)
PARTS = re.compile(r"(\D+)(\d*)")


def check(slab: Slab, layout: Layout, rules: SlabRules, display: Display) -> tuple[Finding, ...]:
    """Holds a layout against the rules.

    Args:
        slab: The slab.
        layout: The layout, from the engine or from anybody else.
        rules: The limits.
        display: How lengths are written in messages.

    Returns:
        What is wrong, by rule in the order of ``Rule``, worst first, then by subject.

    Raises:
        InputRefused: The rule set has no such method of cutting.
    """
    return findings_of(measures_of(slab, layout, rules, display))


def findings_of(measures: Measures) -> tuple[Finding, ...]:
    """What is wrong on a layout whose measures are taken already."""
    found = [finding for rule in CHECKS for finding in rule(measures)]
    return in_order(found)


def in_order(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings by rule in the order of ``Rule``, worst first, then by subject."""
    return tuple(sorted(found, key=_order))


def _order(finding: Finding) -> tuple[int, int, tuple[tuple[str, int], ...], Point]:
    """By rule, worst first, by subject, then in rows from below."""
    x, y = finding.at
    return (
        RULES.index(finding.rule),
        SEVERITIES.index(finding.severity),
        natural(finding.subject),
        (round(y, 1), round(x, 1)),
    )


def natural(subject: str) -> tuple[tuple[str, int], ...]:
    """Sorts ``J2`` before ``J10``."""
    return tuple((word, int(digits or 0)) for word, digits in PARTS.findall(subject))
