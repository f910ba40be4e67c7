"""What the user may choose about the search: how long, what counts how much, and who listens."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from functools import cached_property

from kerfline.errors import InputRefused, Mistake
from kerfline.units import MM_PER_FOOT, Display

EFFORT = 5.0
"""Seconds of a plain machine that the search may take when the user says nothing."""


@dataclass(frozen=True, kw_only=True)
class Weights:
    """What each thing is worth, in feet of joint, for the soft part of the cost.

    The defaults were chosen by looking at many layouts (common practice has no figures for looks).
    The last group stands for rules: it costs hundreds of feet, so that a rule gives way only
    where nothing else is left.

    Attributes:
        length_open: A foot of joint in the open floor.
        length_hidden: A foot of joint under a wall.
        tee: A joint end that stops on another joint in the open floor.
        tee_hidden: The same under a wall.
        line: Every further chalk line.
        square: A panel whose aspect is the advised one, against a square.
        aspect_advised: A panel at the greatest aspect, on top, growing from the advised one.
        small: Every foot by which a panel's width is under four tenths of the span.
        uneven: A bay that departs by its whole self from even division of its free span.
        width_advised: Every foot of width under the advised least width.
        span_advised: Every foot by which a panel is longer than the advised span.
        warned: Every advised value (span, aspect, width) that a panel does not keep, on top.
        column_side: A column that a joint passes without a crossing.
        column_points: The same where its boxout is a diamond, two points of which stay bare: as much as two corners
            without a joint, which they are on slabs that are not square.
        penetration: A penetration that asks for a joint through it and gets none, or to stay clear and
            gets one.
        penetration_auto: The same where a joint through it is only a wish.
        penetration_near: A joint closer to a penetration than its clear distance.
        landing: A place where a neighbouring region's joint arrives and is not met.
        corner_passed: A re-entrant corner with a joint in one direction, beside which a panel runs on.
        corner: A re-entrant corner without a joint; less where it is shallow.
        wall_bare: Every foot of wall without a joint.
        wall_bare_once: A wall without a joint, on top; of one that has it in part, as large a part of this.
        wall_short: Every foot without a joint of a wall that is shorter than half the span: a wish, not a duty.
        column_inside: A column that no joint reaches: inside a panel, or in the slab's edge amid a panel's side.
        over_aspect: A panel over the greatest aspect, and as much again for every further unit.
        too_narrow: A panel under the least width, and as much again when it has no width at all.
        hooked: A panel that is an L, a T or a hook.
        around: A panel all around an opening.
        sharp: A joint that comes in under the least angle; a bend near its end may still mend it.
        sharp_degree: Every degree under the least angle.
        over_joint: Every foot of joint along a forbidden line, or over a bearing strip.
    """

    length_open: float = 1.0
    length_hidden: float = 0.8
    tee: float = 5.0
    tee_hidden: float = 4.0
    line: float = 1.0
    square: float = 1.0
    aspect_advised: float = 4.0
    small: float = 4.0
    uneven: float = 4.0
    width_advised: float = 10.0
    span_advised: float = 20.0
    warned: float = 2.0
    column_side: float = 10.0
    column_points: float = 300.0
    penetration: float = 60.0
    penetration_auto: float = 1.5
    penetration_near: float = 6.0
    landing: float = 5.0
    corner_passed: float = 2.0
    corner: float = 150.0
    wall_bare: float = 10.0
    wall_bare_once: float = 60.0
    wall_short: float = 3.0
    column_inside: float = 250.0
    over_aspect: float = 200.0
    too_narrow: float = 300.0
    hooked: float = 150.0
    around: float = 250.0
    sharp: float = 16.0
    sharp_degree: float = 0.5
    over_joint: float = 100.0

    @staticmethod
    def of(changes: Mapping[str, float]) -> "Weights":
        """The default weights with those changed that are named.

        Raises:
            InputRefused: A name is unknown, or a value is negative or not finite.
        """
        names = [f.name for f in fields(Weights)]
        mistakes = [
            *(_unknown(name, names) for name in sorted(changes) if name not in names),
            *(
                _out_of_range(name, changes[name])
                for name in sorted(changes)
                if name in names and not 0.0 <= changes[name] < float("inf")
            ),
        ]
        if mistakes:
            raise InputRefused(*mistakes)
        return Weights(**{name: float(value) for name, value in changes.items()})


def feet(value: float) -> float:
    """A weight in feet of joint as mm of joint."""
    return value * MM_PER_FOOT


def _unknown(name: str, names: list[str]) -> Mistake:
    return Mistake(
        what="the engine has no weight of this name",
        where="weights",
        found=name,
        allowed=", ".join(names),
    )


def _out_of_range(name: str, value: float) -> Mistake:
    return Mistake(
        what=f"the weight {name} must be a number from 0 upward",
        where="weights",
        found=f"{value:g}",
        remedy="give it in feet of joint, such as 3",
    )


@dataclass(frozen=True, kw_only=True)
class EngineOptions:
    """What the user may choose about the search.

    Attributes:
        display: How lengths are written in the notes; also whether positions are whole inches or
            10 mm.
        effort: What the whole call may spend on proving its layouts the best before the best so far is
            returned: seconds of a plain machine, counted in steps of the solver (``effort.py``), so
            that the same input gives the same layout whatever else the machine does. Candidates are
            listed and one layout of each part is carried further, all of them by no more than a bound
            that grows with the slab; a second method of laying out a nearly square slab may spend a
            part of it once more, and so may each slanted piece of a large floor.
        weights: Weights that differ from the defaults, by name (see ``Weights``).
        progress: Told in words what the engine is doing.
        span_share: Share of the working span that the engine keeps to, for smaller panels.

    Raises:
        InputRefused: A weight is unknown or out of range.
    """

    display: Display = Display.FEET_INCHES
    effort: float = EFFORT
    weights: Mapping[str, float] = field(default_factory=dict)
    progress: Callable[[str], None] | None = None
    span_share: float = 1.0

    def __post_init__(self) -> None:
        """Refuses a wrong weight at once, also where nothing will be laid out by it."""
        _ = self.all_weights

    @cached_property
    def all_weights(self) -> Weights:
        """The default weights with those changed that the user gave."""
        return Weights.of(self.weights)

    def say(self, sentence: str) -> None:
        """Tells whoever listens what the engine is doing."""
        if self.progress is not None:
            self.progress(sentence)
