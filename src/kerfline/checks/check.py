"""Holds a layout against the rules: the table of contents of the checks.

Every rule measures for itself. A rule is a generator of findings, held against the whole, against one panel
or against one place where joints meet; a family of rules is a module that lists them. Start with ``measures``
to see what they look at, then take any family.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.checks import (
    balance,
    columns,
    corners,
    cuts,
    edges,
    ends,
    keep_outs,
    penetrations,
    shapes,
    walls,
)
from kerfline.checks.closing import ClosedPanel
from kerfline.checks.measures import Check, Measures, measures_of
from kerfline.checks.net import Node
from kerfline.checks.reading import NODES, PANELS, Found
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display

CHECKS: tuple[Check, ...] = (
    *shapes.CHECKS,
    *balance.CHECKS,
    *corners.CHECKS,
    *ends.CHECKS,
    *walls.CHECKS,
    *columns.CHECKS,
    *penetrations.CHECKS,
    *keep_outs.CHECKS,
    *cuts.CHECKS,
    *edges.CHECKS,
)
"""Every rule that the whole of a layout is held against; those on panels and nodes stand in ``reading``."""

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
    return held_against(measures).findings


@dataclass(frozen=True)
class Held:
    """A layout held against the rules, with what it takes to hold a changed one quickly.

    Attributes:
        measures: What was measured on it.
        panels: What was found of each panel.
        nodes: What was found where joints meet.
        findings: All that was found, in order.
    """

    measures: Measures
    panels: Found[ClosedPanel]
    nodes: Found[Node]
    findings: tuple[Finding, ...]


def held_against(measures: Measures, before: Held | None = None) -> Held:
    """Holds a layout against the rules.

    Args:
        measures: What is measured on it.
        before: How it stood before a change; what is found of panels and nodes is taken from there
            where nothing that a rule reads has changed.
    """
    panels = PANELS.found(measures, before.panels if before else None)
    nodes = NODES.found(measures, before.nodes if before else None)
    whole = (finding for rule in CHECKS for finding in rule(measures))
    return Held(measures, panels, nodes, in_order((*whole, *panels.all, *nodes.all)))


def in_order(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings by rule in the order of ``Rule``, worst first, then by subject."""
    return tuple(sorted(found, key=_order))


def _order(finding: Finding) -> tuple[int, int, tuple[tuple[str, int], ...], Point, str]:
    """By rule, worst first, by subject, then in rows from below, then by what is said."""
    x, y = finding.at
    return (
        RULES.index(finding.rule),
        SEVERITIES.index(finding.severity),
        natural(finding.subject),
        (round(y, 1), round(x, 1)),
        finding.message,
    )


def natural(subject: str) -> tuple[tuple[str, int], ...]:
    """Sorts ``J2`` before ``J10``."""
    return tuple((word, int(digits or 0)) for word, digits in PARTS.findall(subject))
