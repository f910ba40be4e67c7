"""Distinct good layouts of one slab along the trade-offs that a designer weighs."""

import statistics
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions, Weights
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

STRENGTHS = (1.0, 0.5, 2.0, 0.25, 1.5, 0.75, 0.375, 0.625, 1.25)
"""How far each trade-off is taken: as it stands, and where more layouts are wanted less far and further. Beyond two
times, looks would outweigh rules."""

FINEST = 1.6
"""Panels are made no smaller for their own sake than at this strength: under two thirds of the span."""

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
    measure: Callable[[Slab, Layout], float]
    weights: Mapping[str, float] = field(default_factory=dict)
    span_share: float = 1.0


def _length(_: Slab, layout: Layout) -> float:
    return round(layout.joint_length)


def _lines(_: Slab, layout: Layout) -> float:
    return chalk_lines([j.line for j in layout.joints])


def _tees(slab: Slab, layout: Layout) -> float:
    ends = joint_ends(slab.concrete, [j.line for j in layout.joints])
    return sum(end.kind is EndKind.TEE for end in ends)


def _panel(_: Slab, layout: Layout) -> float:
    return round(statistics.fmean(p.area for p in layout.panels))


def _in_the_open(_: Slab, layout: Layout) -> float:
    return -round(layout.hidden_length)


def _aspect(_: Slab, layout: Layout) -> float:
    return round(statistics.fmean(p.aspect for p in layout.panels), 3)


def _uneven(_: Slab, layout: Layout) -> float:
    """How far the areas of panels stray from their mean, as a share of it."""
    areas = [p.area for p in layout.panels]
    return round(statistics.pstdev(areas) / statistics.fmean(areas), 3)


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
    Leaning(name="fewest tee ends", measure=_tees, weights={"tee": 25.0, "tee_hidden": 15.0}),
    Leaning(name="most even panels", measure=_uneven, weights={"uneven": 24.0, "small": 16.0}),
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
        count: How many are wanted; fewer are returned where all trade-offs together lead to fewer. None leaves
            a wall without its joint that the first does not.
    """
    found = [Made(layout=lay_out(slab, rules, options))]
    steps = {leaning.name: {0.0: _shape(found[0].layout)} for leaning in LEANINGS}
    tried: list[Leaning] = []
    for strength, leaning in ((n, each) for n in STRENGTHS for each in LEANINGS):
        if len(_named(slab, found, tried)) >= count:
            break
        if _lies_between_equals(steps[leaning.name], strength):
            continue
        tried = tried if leaning in tried else [*tried, leaning]
        options.say(f"Looking for the layout with the {leaning.name}")
        layout = lay_out(slab, rules, _leaning_options(options, leaning, strength))
        steps[leaning.name][strength] = _shape(layout)
        differs = all(_shape(layout) != _shape(other.layout) for other in found)
        if differs and layout.walls_left.keys() <= found[0].layout.walls_left.keys():
            found.append(Made(layout=layout, leaning=leaning))
    return _named(slab, found, tried)[:count]


def _lies_between_equals(known: Mapping[float, object], strength: float) -> bool:
    """Whether less and more of a trade-off lead to the same layout, so that what lies between does."""
    less = max(n for n in known if n < strength)
    more = min((n for n in known if n > strength), default=None)
    return more is not None and known[less] == known[more]


@dataclass(frozen=True, kw_only=True)
class Made:
    """A layout, and the trade-off that it was made for; None for the first."""

    layout: Layout
    leaning: Leaning | None = None


def _shape(layout: Layout) -> tuple[object, ...]:
    return tuple(joint.path for joint in layout.joints)


def _named(
    slab: Slab, found: Sequence[Made], leanings: Sequence[Leaning]
) -> tuple[Alternative, ...]:
    """Each layout by what it is the best at, as measured, or by what it leans to.

    One that is no better than another at anything that was weighed is no choice.
    """
    measures = [[leaning.measure(slab, m.layout) for leaning in leanings] for m in found]
    names: list[list[str]] = [[] for _ in found]
    names[0].append(BEST)
    for number, leaning in enumerate(leanings):
        winner = min(range(len(found)), key=lambda i: measures[i][number])
        names[winner].append(leaning.name)
    kept = [n for n, own in enumerate(names) if own or not _is_outdone(measures, n)]
    told = [", ".join(names[n] or [f"towards {_aim(found[n])}"]) for n in kept]
    return tuple(
        Alternative(name=_apart(name, told[:place]), layout=found[n].layout)
        for place, (n, name) in enumerate(zip(kept, told, strict=True))
    )


def _apart(name: str, before: Sequence[str]) -> str:
    """A name with its number where others before it have the same: files are called after them."""
    return f"{name} {before.count(name) + 1}" if name in before else name


def _aim(made: Made) -> str:
    return made.leaning.name if made.leaning else BEST


def _is_outdone(measures: Sequence[Sequence[float]], number: int) -> bool:
    """Whether another layout is at least as good at everything; of two that are equal the later is."""
    own = measures[number]
    return any(
        all(a <= b for a, b in zip(other, own, strict=True)) and (n < number or other != own)
        for n, other in enumerate(measures)
        if n != number
    )


def _leaning_options(options: EngineOptions, leaning: Leaning, strength: float) -> EngineOptions:
    """The options for a trade-off; a weight that is raised or lowered for its sake is so by so much more."""
    plain = Weights.of(options.weights)
    weights = {
        name: getattr(plain, name) * (value / (getattr(Weights(), name) or 1.0)) ** strength
        for name, value in leaning.weights.items()
    }
    share = leaning.span_share ** min(strength, FINEST)
    return replace(
        options,
        weights={**options.weights, **weights},
        span_share=options.span_share * share,
    )
