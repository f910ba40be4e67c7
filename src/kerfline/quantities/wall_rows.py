"""Bearing walls that stand on the plain slab: what a published table lets it carry."""

from kerfline.model.day import Ledger
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind, Slab, Wall
from kerfline.quantities.row import Row
from kerfline.quantities.wall_load import PCI, STRENGTHS_PSI, TABLE_SUBGRADE, wall_load
from kerfline.units import MM_PER_FOOT, MM_PER_METRE, MPA_PER_PSI, N_PER_POUND, Display

N_PER_KN = 1000.0
GROUP = "bearing walls"
TABLE = "UFC 3-320-06A (2005, the text of TM 5-809-12 of 1987), Table 3-2"

CROSSES = 300.0
"""A joint that runs along under a wall for less than this (mm) only crosses it."""


def wall_rows(
    slab: Slab, layout: Layout, subgrade: float | None, display: Display, ledger: Ledger
) -> list[Row]:
    """A row for every bearing wall without a strip deeper than the slab, where the table knows its slab.

    The least strength of the table is taken, since none is known here. Over a plain joint the table does not
    hold: that wall is asked about.

    Args:
        slab: What is given.
        layout: Its joints.
        subgrade: Modulus of subgrade reaction, N/mm3; None for the table's own.
        display: Feet or metres.
        ledger: Takes down what must be asked.
    """
    ground = TABLE_SUBGRADE if subgrade is None else subgrade
    load = wall_load(slab.thickness, STRENGTHS_PSI[0] * MPA_PER_PSI, ground)
    rows = []
    for wall in slab.walls:
        if not wall.bearing or wall.strip_depth > slab.thickness:
            continue
        joints = plain_joints(wall, layout)
        if joints:
            ledger.ask(
                f"Bearing wall {wall.id} stands along {', '.join(joints)}: a plain joint is an edge under its load, and "
                f"the {TABLE} does not hold there. Will the joint be moved, doweled or the slab thickened? A licensed "
                "engineer decides."
            )
        elif load is None:
            ledger.ask(
                f"What carries bearing wall {wall.id}? The slab is thinner, or its ground softer, than the {TABLE} "
                "goes: a strip by a licensed engineer."
            )
        else:
            rows.append(_row(wall, load, ground, display))
    return rows


def plain_joints(wall: Wall, layout: Layout) -> list[str]:
    """The joints without dowels that run along under a wall."""
    return [
        joint.id
        for joint in layout.joints
        if joint.kind is not JointKind.ISOLATION
        and joint.dowels is None
        and joint.line.intersection(wall.footprint).length > max(CROSSES, 2 * wall.thickness)
    ]


def _row(wall: Wall, load: float, subgrade: float, display: Display) -> Row:
    feet = display is Display.FEET_INCHES
    note = (
        f"{TABLE}, near the middle of a panel, flexural strength 550 psi (3.8 MPa), k {subgrade / PCI:.0f} pci "
        f"({subgrade * MM_PER_METRE:.0f} MPa/m); beyond that a strip by a licensed engineer"
    )
    return Row(
        group=GROUP,
        item=f"{wall.id} on the plain slab, at most",
        amount=load * MM_PER_FOOT / N_PER_POUND if feet else load * MM_PER_METRE / N_PER_KN,
        unit="lb/ft" if feet else "kN/m",
        note=note,
        decimals=0 if feet else 1,
    )
