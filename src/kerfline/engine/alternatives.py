"""Distinct good layouts of one slab along the trade-offs that a designer weighs."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

FINE = 0.75
"""Share of the span that the layout with the smallest panels works to."""


@dataclass(frozen=True, kw_only=True)
class Leaning:
    """A trade-off: weights that differ from the defaults, and the share of the span to work to."""

    name: str
    weights: Mapping[str, float] = field(default_factory=dict)
    span_share: float = 1.0


LEANINGS = (
    Leaning(name="best by the documented cost"),
    Leaning(
        name="fewest feet of joint",
        weights={
            "tee": 0.5,
            "line": 0.1,
            "square": 0.2,
            "aspect_advised": 0.2,
            "uneven": 0.5,
            "corner_passed": 0.0,
            "small": 1.0,
        },
    ),
    Leaning(name="fewest chalk lines", weights={"line": 20.0, "tee": 10.0}),
    Leaning(name="smallest panels", span_share=FINE),
    Leaning(
        name="most joint under walls",
        weights={"length_open": 1.5, "length_hidden": 0.2, "tee_hidden": 0.0},
    ),
    Leaning(name="squarest panels", weights={"square": 12.0, "aspect_advised": 24.0}),
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
    """Up to ``count`` layouts that differ, the best by the documented cost first.

    Args:
        slab: What is given.
        rules: The limits; all layouts keep them alike.
        options: The user's weights hold in all of them, except where a trade-off sets its own.
        count: How many are wanted; fewer are returned where the trade-offs lead to the same layout.
    """
    found: list[Alternative] = []
    seen: set[tuple[object, ...]] = set()
    for leaning in LEANINGS:
        if len(found) >= count:
            break
        options.say(f"Looking for the layout with the {leaning.name}" if found else "Laying out")
        layout = lay_out(slab, rules, _leaning_options(options, leaning))
        shape = tuple(joint.path for joint in layout.joints)
        if shape not in seen:
            seen.add(shape)
            found.append(Alternative(name=leaning.name, layout=layout))
    return tuple(found)


def _leaning_options(options: EngineOptions, leaning: Leaning) -> EngineOptions:
    return replace(
        options,
        weights={**options.weights, **leaning.weights},
        span_share=options.span_share * leaning.span_share,
    )
