"""Fewer days against fewer bulkheads: what a larger or smaller day would make of the same joints."""

from dataclasses import replace

from kerfline.model.day import DayInput
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.division import DayLimit
from kerfline.placement.formed import FORMED
from kerfline.placement.panel_graph import borders
from kerfline.placement.pours import homes_within, sizes_of
from kerfline.quantities.concrete import ConcreteBody
from kerfline.sheets.day.day_plan import DayChoice

MOST_PANELS = 80
"""Larger floors are divided once, not several times over."""

UNEVEN = 1.15
"""A day may take so much more than an even share: panels do not part evenly."""


def day_choices(
    slab: Slab, layout: Layout, day: DayInput, body: ConcreteBody, planned: int
) -> tuple[DayChoice, ...]:
    """The divisions that other days' limits lead to, the fewest placements first.

    Args:
        slab: What is given.
        layout: Its joints, construction joints between placements among them.
        day: What is known of the day.
        body: Its concrete.
        planned: Placements that there are; one fewer and one more are tried.
    """
    pours = day.pours
    if not any((pours.volume, pours.area, pours.hours)) or len(layout.panels) > MOST_PANELS:
        return ()
    whole = replace(layout, joints=tuple(_sawn(joint) for joint in layout.joints))
    sizes, meets = sizes_of(slab, whole, body.volume), borders(whole)
    found: dict[int, DayChoice] = {}
    for count in range(max(1, planned - 1), planned + 2):
        limit = DayLimit(volume=sum(sizes.volumes) / count * (UNEVEN if count > 1 else 1.0))
        homes = homes_within(sizes, meets, limit, always_split=False)
        placements = len(set(homes))
        length = sum(b.length for b in meets if homes[b.first] != homes[b.second])
        most = max(
            sum(v for v, home in zip(sizes.volumes, homes, strict=True) if home == each)
            for each in set(homes)
        )
        choice = DayChoice(placements=placements, most=most, bulkhead=length)
        if placements not in found or length < found[placements].bulkhead:
            found[placements] = choice
    choices = [found[count] for count in sorted(found)]
    return tuple(
        c for c in choices if not any(o.most <= c.most and o.bulkhead < c.bulkhead for o in choices)
    )


def _sawn(joint: Joint) -> Joint:
    """A joint as it was before placements parted it."""
    if joint.kind is JointKind.CONSTRUCTION and joint.note.startswith(FORMED):
        return replace(joint, kind=JointKind.CONTROL)
    return joint
