"""Distinct good layouts of one slab along the trade-offs that a designer weighs."""

import math
import statistics
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from kerfline.engine.lay_out import lay_out
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.regions.arcs import flattened_arcs
from kerfline.engine.regions.placing import working_limits
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.model.layout import Layout, WorkingLimits
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

STRENGTHS = (1.0, 0.5, 2.0)
"""How far each trade-off is taken: as it stands, less far and further."""

FINER_STRENGTHS = (0.25, 1.5, 0.75, 3.0, 0.375, 0.625, 1.25)
"""The same where trade-offs alone and two at a time have led to fewer layouts than are wanted."""

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


def _both(first: Leaning, second: Leaning) -> Leaning:
    """Two trade-offs at a time; a weight that both change is changed as often."""
    plain = Weights()
    common = {
        name: first.weights[name] * value / getattr(plain, name)
        for name, value in second.weights.items()
        if name in first.weights
    }
    return Leaning(
        name=f"{first.name} and {second.name}",
        measure=first.measure,
        weights={**first.weights, **second.weights, **common},
        span_share=first.span_share * second.span_share,
    )


_FEET, _LINES, _SMALL, _WALLS, _SQUARE, _TEES, _ = LEANINGS

PAIRS = tuple(
    _both(*pair)
    for pair in (
        (_FEET, _SMALL),
        (_SMALL, _SQUARE),
        (_LINES, _TEES),
        (_FEET, _SQUARE),
        (_WALLS, _SQUARE),
        (_LINES, _SQUARE),
        (_LINES, _SMALL),
    )
)
"""Two trade-offs at a time, those of which each led to a layout that no single one did, on strips, small floors with
columns or walls, and an H."""


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
            a wall without its joint that the first does not, and none breaks more rules.
    """
    found = [Made(layout=lay_out(slab, rules, options))]
    best = found[0].layout
    limits = working_limits(rules, slab.thickness, options)
    most = _rules_broken(slab, best, limits)
    known = {each.name: {0.0: _shape(best)} for each in (*LEANINGS, *PAIRS)}
    for strength, leaning in TRIES:
        if len(_named(slab, found, LEANINGS)) >= count:
            break
        if _lies_between_equals(known[leaning.name], strength):
            continue
        options.say(f"Looking for the layout with the {leaning.name}")
        layout = lay_out(slab, rules, _leaning_options(options, leaning, strength))
        known[leaning.name][strength] = _shape(layout)
        differs = all(_shape(layout) != _shape(other.layout) for other in found)
        serves = layout.walls_left.keys() <= best.walls_left.keys()
        if differs and serves and _rules_broken(slab, layout, limits) <= most:
            found.append(Made(layout=layout, leaning=leaning))
    return _named(slab, found, LEANINGS)[:count]


TRIES = (
    *product(STRENGTHS, LEANINGS),
    *product(STRENGTHS, PAIRS),
    *product(FINER_STRENGTHS, LEANINGS),
)
"""What is tried, how far and towards what, until there are enough layouts."""


def _rules_broken(slab: Slab, layout: Layout, limits: WorkingLimits) -> int:
    """How many rules on the shape of panels a layout breaks; of the span none does that another one keeps."""
    plain = Weights()
    cost = Cost(weights=plain, working=limits, advised=limits, stretch=math.inf)
    arcs = [arc for piece in slab.pieces for arc in flattened_arcs(piece)]
    shapes = [shape_of(p.polygon, limits.angle, arcs=arcs) for p in layout.panels]
    return sum(int(cost.faults(shape)) for shape in shapes)


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
    plain = options.all_weights
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
