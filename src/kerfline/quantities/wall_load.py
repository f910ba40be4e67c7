"""The line load of a wall that a plain slab carries where it is thickened or away from joints.

Source: UFC 3-320-06A (2005, the text of TM 5-809-12 of 1987), Table 3-2, "Minimum thickness of thickened floor slab for
wall load near center of slab or near keyed or doweled joint": k = 100 pci, flexural strength of 9 sqrt(f'c) in psi. It tells whether a
bearing wall needs a strip; the strip itself is a licensed engineer's to design.
"""

import math
from itertools import pairwise

from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MPA_PER_PSI, N_PER_POUND

STRENGTHS_PSI = (550, 600, 650, 700)
"""Flexural strength of the table's columns."""

LOADS_LB_FT = {
    4: (425, 455, 485, 510),
    5: (565, 600, 640, 675),
    6: (710, 755, 805, 850),
    7: (860, 920, 975, 1030),
    8: (1015, 1080, 1150, 1215),
    9: (1175, 1255, 1330, 1410),
    10: (1340, 1430, 1520, 1605),
}
"""Allowable load by thickness of slab in inches."""

PCI = N_PER_POUND / MM_PER_INCH**3
TABLE_SUBGRADE = 100 * PCI
"""Modulus of subgrade reaction of the table, N/mm3."""

FACTORS = {25: 1.3, 50: 1.1, 100: 1.0, 200: 0.9, 300: 0.8}
"""What a thickness of the table is multiplied by on other subgrades, by their modulus in pci; the table's note."""


def wall_load(thickness: float, strength: float, subgrade: float = TABLE_SUBGRADE) -> float | None:
    """Allowable line load in N/mm.

    Args:
        thickness: Of the slab, mm; the table's next lower whole inch counts.
        strength: Flexural strength, N/mm2; between columns by proportion, above the last as the last.
        subgrade: Modulus of subgrade reaction, N/mm3; the next lower one of the table's note counts.

    Returns:
        The load, or None for a slab, a strength or a subgrade below the table.
    """
    known = [factor for pci, factor in FACTORS.items() if pci * PCI <= subgrade * (1 + 1e-6)]
    if not known:
        return None
    inches = min(math.floor(thickness / known[-1] / MM_PER_INCH + 1e-6), max(LOADS_LB_FT))
    psi = strength / MPA_PER_PSI
    if inches < min(LOADS_LB_FT) or psi < STRENGTHS_PSI[0] - 1e-6:
        return None
    row = LOADS_LB_FT[inches]
    pounds_per_foot = float(row[-1])
    columns = zip(pairwise(STRENGTHS_PSI), pairwise(row), strict=True)
    for (low, high), (least, most) in columns:
        if psi <= high:
            pounds_per_foot = least + (most - least) * (psi - low) / (high - low)
            break
    return pounds_per_foot * N_PER_POUND / MM_PER_FOOT
