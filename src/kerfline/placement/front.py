"""Cold joints: whether the front of a placement is covered again before it sets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.placement.climate import Ageing
from kerfline.placement.hints import FORMS
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Setting
from kerfline.units import MINUTES_PER_HOUR

STOP = 30 / MINUTES_PER_HOUR
"""A stop of placing (hours) from which on the front is a construction joint; UFGS 02753."""

MARGIN = 1.0
"""Hours before initial set by which fresh concrete should cover the front; our choice."""

ADVANCE = FORMS.amount
"""Width (mm) of the strip that a front across the whole width gains at a time: a screed's reach."""


@dataclass(frozen=True, kw_only=True)
class FrontCheck:
    """How long the front of a placement lies open, hours.

    Attributes:
        pour: Id of the placement.
        open_for: Longest wait of any part of the front.
        allowed: Initial set at the warmest, less a margin.
    """

    pour: str
    open_for: float
    allowed: float

    @property
    def cold(self) -> bool:
        """Whether a cold joint is to be feared."""
        return self.open_for > self.allowed


def check_front(pour: Pour, interval: float, ageing: Ageing, setting: Setting) -> FrontCheck:
    """Holds the longest wait of a front against initial set.

    Args:
        pour: The placement.
        interval: Between trucks, hours; no front is covered sooner.
        ageing: How the concrete ages.
        setting: How the mix sets.

    With several screed passes side by side, the side of one waits until the next has come as far: a pass.
    A front across the whole width waits until it has been gone along once more, a strip of ``ADVANCE``.
    """
    wait = max(interval, _pass_time(pour))
    sets = ageing.warm.until(setting.initial_set, pour.start) - pour.start
    return FrontCheck(pour=pour.id, open_for=wait, allowed=max(0.0, sets - MARGIN))


def _pass_time(pour: Pour) -> float:
    if len(pour.clock.lanes) > 1:
        return pour.clock.pass_time
    stations = pour.clock.lanes[0].stations
    length = stations[-1] - stations[0]
    return (pour.end - pour.start) * min(1.0, ADVANCE / length)


def front_cautions(checks: Sequence[FrontCheck]) -> list[str]:
    """A sentence for every front that waits too long."""
    return [
        f"Placement {c.pour}: a front lies open for {c.open_for:.1f} h and should be covered within "
        f"{c.allowed:.1f} h (initial set at the warmest less {MARGIN:g} h). Shorten the pass, place faster "
        f"or retard the mix; a stop of {STOP * MINUTES_PER_HOUR:.0f} minutes or more is a construction joint on a planned line."
        for c in checks
        if c.cold and not math.isinf(c.allowed)
    ]
