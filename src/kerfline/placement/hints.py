"""Habits of the trade as hints: each is a threshold that the user can set, and none is a rule."""

from collections.abc import Sequence

from kerfline.model.day import Habit, Ledger, PourChoice
from kerfline.placement.pour_order import Pour
from kerfline.placement.wording import placements
from kerfline.units import (
    Display,
    format_area,
    format_length,
    format_volume,
    round_figure,
    without_zeros,
)

PUMP = Habit.of(
    "day.pours.pump_above",
    "placement above which a pump is a habit",
    round_figure(30, "yd3"),
)
RIDE_ON = Habit.of(
    "day.pours.ride_on_above",
    "area of a day above which a ride-on trowel is a habit",
    round_figure(4000, "ft2"),
)
FORMS = Habit.of(
    "day.pours.forms_up_to",
    "width up to which a screed rides the forms",
    round_figure(16, "ft"),
)
NO_RULE = "a habit, not a rule"


def hints(
    pours: Sequence[Pour], choice: PourChoice, display: Display, ledger: Ledger
) -> tuple[str, ...]:
    """What the trade's habits say to these placements."""
    return (
        *_pump(pours, ledger.take(choice.pump_above, PUMP), display),
        *_trowel(pours, ledger.take(choice.ride_on_above, RIDE_ON), display),
        *_screed(pours, ledger.take(choice.forms_up_to, FORMS), display),
    )


def _pump(pours: Sequence[Pour], above: float, display: Display) -> list[str]:
    large = [p.id for p in pours if p.volume > above]
    if not large:
        return []
    limit = without_zeros(format_volume(above, display))
    return [f"{placements(large)}: more than {limit}, so a pump is worth asking for ({NO_RULE})."]


def _trowel(pours: Sequence[Pour], above: float, display: Display) -> list[str]:
    out = []
    for day in sorted({p.day for p in pours}):
        area = sum(float(p.area.area) for p in pours if p.day == day)
        if area > above:
            limit = without_zeros(format_area(above, display))
            out.append(
                f"Day {day}: {format_area(area, display)} is more than {limit}, so a ride-on trowel is worth having "
                f"({NO_RULE})."
            )
    return out


def _screed(pours: Sequence[Pour], width: float, display: Display) -> list[str]:
    wide = [p.id for p in pours if p.width > width]
    if not wide:
        return []
    limit = format_length(width, display)
    return [
        (
            f"{placements(wide)}: wider than {limit}, so the screed cannot ride the forms alone; plan "
            f"wet-screed pads, rails or a laser screed ({NO_RULE})."
        )
    ]
