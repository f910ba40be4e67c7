"""Wings: parts of a slab whose joints run another way than the paper, which are drawn again, turned, on their own."""

from collections.abc import Sequence

import shapely
from shapely import Polygon

from kerfline.geometry.faces import points_of, polygons_of
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Layout, Panel
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import (
    ONE_WAY,
    Baselines,
    apart,
    main_turn,
    mean_turn,
    sides_of,
)
from kerfline.sheets.redrawn import Redrawn

LEAST_SHARE = 0.15
"""Share of the slab's straight edge along a direction of its own that makes a wing."""

LEAST_PANELS = 4
"""Fewer panels than this are a splay, not a wing."""

LEAST_TURN = 5.0
"""A part that turns by less (degrees) is read along with the rest."""


def wings(slab: Slab, layout: Layout, base: Baselines) -> tuple[Redrawn, ...]:
    """The wings of a slab, largest first; empty where all of it lies along the baselines.

    Args:
        slab: The slab.
        layout: Its panels, whose sides tell which way they lie.
        base: The slab's baselines.
    """
    turns = [base.turn, *_other_turns(slab, base)]
    if len(turns) == 1:
        return ()
    panels: dict[int, list[Panel]] = {}
    for panel in layout.panels:
        panels.setdefault(_way(panel.polygon, turns), []).append(panel)
    found = [
        (part, turns[way])
        for way in range(1, len(turns))
        for part in polygons_of(shapely.union_all([p.polygon for p in panels.get(way, [])]))
        if sum(part.intersects(p.polygon.representative_point()) for p in panels[way])
        >= LEAST_PANELS
    ]
    found.sort(key=lambda f: -round(f[0].area))
    several = len(found) > 1
    return tuple(
        Redrawn(
            id=f"W{n}" if several else "W",
            name=f"wing {n} {_turned(turn, base)}" if several else f"wing {_turned(turn, base)}",
            region=part,
            turned=True,
        )
        for n, (part, turn) in enumerate(found, 1)
    )


def _turned(turn: float, base: Baselines) -> str:
    return f"turned {round(apart(turn, base.turn), 1):g} degrees"


def _other_turns(slab: Slab, base: Baselines) -> list[float]:
    """Directions that much of the edge has, other than the baselines'."""
    sides = sides_of(slab.outline)
    total = sum(length for _, length in sides)
    left = [side for side in sides if apart(side[0], base.turn) > LEAST_TURN]
    found: list[float] = []
    while left:
        turn = main_turn(left, base.turn)
        along = [side for side in left if apart(side[0], turn) <= ONE_WAY]
        if turn == base.turn or sum(length for _, length in along) < LEAST_SHARE * total:
            break
        found.append(mean_turn(along, turn))
        left = [side for side in left if apart(side[0], turn) > LEAST_TURN]
    return found


def _way(panel: Polygon, turns: Sequence[float]) -> int:
    """Which of some directions most of a panel's edge has, the first of equals."""
    sides = sides_of(Ring(points_of(panel.exterior)[:-1]))
    along = [round(sum(s for a, s in sides if apart(a, turn) <= ONE_WAY)) for turn in turns]
    return along.index(max(along))
