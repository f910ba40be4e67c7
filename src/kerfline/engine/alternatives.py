"""Distinct good layouts of one slab along the trade-offs that a designer weighs."""

import statistics
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.ends import chalk_lines
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

FINE = 0.75
"""Share of the span that the layout with the smallest panels works to."""


@dataclass(frozen=True, kw_only=True)
class Leaning:
    """A trade-off.

    Attributes:
        name: What the layout that is best at it is called.
        measure: What it makes small.
        weights: Weights that differ from the defaults while it is looked for.
        span_share: Share of the span to work to.
    """

    name: str
    measure: Callable[[Layout], float]
    weights: Mapping[str, float] = field(default_factory=dict)
    span_share: float = 1.0


def _length(layout: Layout) -> float:
    return round(layout.joint_length)


def _lines(layout: Layout) -> float:
    return chalk_lines([j.line for j in layout.joints])


def _panel(layout: Layout) -> float:
    return round(statistics.fmean(p.area for p in layout.panels))


def _in_the_open(layout: Layout) -> float:
    return -round(layout.hidden_length)


def _aspect(layout: Layout) -> float:
    return round(statistics.fmean(p.aspect for p in layout.panels), 3)


BEST = "best overall"
LEANINGS = (
    Leaning(
        name="fewest feet of joint",
        measure=_length,
        weights={
            "tee": 0.5,
            "line": 0.1,
            "square": 0.2,
            "aspect_advised": 0.2,
            "uneven": 0.5,
            "corner_passed": 0.0,
            "small": 1.0,
            "column_side": 0.0,
            "penetration_auto": 0.0,
        },
    ),
    Leaning(name="fewest chalk lines", measure=_lines, weights={"line": 20.0, "tee": 10.0}),
    Leaning(name="smallest panels", measure=_panel, span_share=FINE),
    Leaning(
        name="most joint under walls",
        measure=_in_the_open,
        weights={"length_open": 1.5, "length_hidden": 0.2, "tee_hidden": 0.0},
    ),
    Leaning(
        name="squarest panels",
        measure=_aspect,
        weights={"square": 12.0, "aspect_advised": 24.0},
    ),
)
"""The trade-offs in the order in which they are offered."""


@dataclass(frozen=True, kw_only=True)
class Alternative:
    """One of several layouts and what it was made for."""

    name: str
    layout: Layout


def alternatives(
    slab: Slab,
    rules: SlabRules,
    options: EngineOptions,
    count: int,
) -> tuple[Alternative, ...]:
    """Up to ``count`` layouts that differ, the best overall first.

    Args:
        slab: What is given.
        rules: The limits; all layouts keep them alike.
        options: The user's weights hold in all of them, except where a trade-off sets its own.
        count: How many are wanted; fewer are returned where all trade-offs together lead to fewer.
    """
    found = [lay_out(slab, rules, options)]
    tried: list[Leaning] = []
    for leaning in LEANINGS:
        if len(_named(found, tried)) >= count:
            break
        tried.append(leaning)
        options.say(f"Looking for the layout with the {leaning.name}")
        layout = lay_out(slab, rules, _leaning_options(options, leaning))
        if all(_shape(layout) != _shape(other) for other in found):
            found.append(layout)
    return _named(found, tried)[:count]


def _shape(layout: Layout) -> tuple[object, ...]:
    return tuple(joint.path for joint in layout.joints)


def _named(layouts: Sequence[Layout], leanings: Sequence[Leaning]) -> tuple[Alternative, ...]:
    """Each layout by what it is the best at, as measured; one that is best at nothing is no choice."""
    names: list[list[str]] = [[] for _ in layouts]
    names[0].append(BEST)
    for leaning in leanings:
        winner = min(range(len(layouts)), key=lambda i: leaning.measure(layouts[i]))
        names[winner].append(leaning.name)
    return tuple(
        Alternative(name=", ".join(own), layout=layout)
        for own, layout in zip(names, layouts, strict=True)
        if own
    )


def _leaning_options(options: EngineOptions, leaning: Leaning) -> EngineOptions:
    return replace(
        options,
        weights={**options.weights, **leaning.weights},
        span_share=options.span_share * leaning.span_share,
    )
