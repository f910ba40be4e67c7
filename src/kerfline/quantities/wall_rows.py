"""Bearing walls that stand on the plain slab: what a published table lets it carry."""

from kerfline.model.slab import Slab
from kerfline.quantities.row import Row
from kerfline.quantities.wall_load import STRENGTHS_PSI, wall_load
from kerfline.units import MM_PER_FOOT, MM_PER_METRE, MPA_PER_PSI, N_PER_POUND, Display

N_PER_KN = 1000.0


def wall_rows(slab: Slab, display: Display) -> list[Row]:
    """A row for every bearing wall without a strip deeper than the slab, where the table knows its slab.

    The least strength of the table is taken, and its own subgrade, since neither is known here.
    """
    load = wall_load(slab.thickness, STRENGTHS_PSI[0] * MPA_PER_PSI)
    if load is None:
        return []
    feet = display is Display.FEET_INCHES
    amount = load * MM_PER_FOOT / N_PER_POUND if feet else load * MM_PER_METRE / N_PER_KN
    note = (
        "published table, away from joints, flexural strength 550 psi (3.8 MPa), k 100 pci (27 MPa/m); beyond "
        "that a strip by a licensed engineer"
    )
    return [
        Row(
            group="bearing walls",
            item=f"{wall.id} on the plain slab, at most",
            amount=amount,
            unit="lb/ft" if feet else "kN/m",
            note=note,
            decimals=0 if feet else 1,
        )
        for wall in slab.walls
        if wall.bearing and wall.strip_depth <= slab.thickness
    ]
