"""How far joints open, what restrains the slab, and the steel that drags it: N, mm, kelvin."""

import math

import numpy as np


def joint_opening(
    length: float, restraint: float, expansion: float, temperature_drop: float, shrinkage: float
) -> float:
    """Opening of a joint, dL = C L (alpha dT + eps), in the unit of the length.

    Args:
        length: Distance between joints.
        restraint: Factor C for the friction of the base: 0.8 on granular bases.
        expansion: Coefficient of thermal expansion, 1/K.
        temperature_drop: From placing to the coldest, K.
        shrinkage: Free drying shrinkage as a share.

    Source: FHWA concrete pavement notebook, 3.3; openings measured over years often exceed it.
    """
    return restraint * length * (expansion * temperature_drop + shrinkage)


STRENGTHS_PSI = (300.0, 400.0, 500.0, 600.0, 700.0)
SHRINKAGE = (0.0008, 0.0006, 0.00045, 0.0003, 0.0002)
"""Drying shrinkage by indirect tensile strength; FHWA T 5040.30 (1990), Table 2. A 2019 edition exists. The copy
that was read is garbled at the first strength: 300 psi is from memory."""


def shrinkage_by_strength(psi: float) -> float:
    """Free drying shrinkage as a share, by indirect tensile strength in psi; between rows by proportion."""
    return float(np.interp(psi, STRENGTHS_PSI, SHRINKAGE))


def seal_width(opening: float, most_open: float = 0.20, most_closed: float = 0.55) -> float:
    """Least width of a preformed compression seal, W = dL / (Cmax - Cmin).

    Args:
        opening: Movement of the joint.
        most_open: Least compression that still holds, as a share of the width.
        most_closed: Greatest compression.

    Source: FHWA concrete pavement notebook, 3.3.7.
    """
    return opening / (most_closed - most_open)


def relative_stiffness(
    modulus: float, thickness: float, subgrade: float, poisson: float = 0.15
) -> float:
    """Radius of relative stiffness, l = (E h^3 / (12 (1 - mu^2) k))^(1/4).

    Args:
        modulus: Elastic modulus of the concrete.
        thickness: Of the slab.
        subgrade: Modulus of subgrade reaction.
        poisson: Poisson's ratio.

    Any consistent units: psi, in and pci give inches; N/mm2, mm and N/mm3 give mm. Source: Westergaard
    1926, as every pavement textbook prints it.
    """
    stiffness = modulus * thickness**3 / (12 * (1 - poisson**2))
    return math.pow(stiffness / subgrade, 0.25)


def drag_steel(friction: float, length: float, weight: float, stress: float) -> float:
    """Steel that drags a slab over its base, As = F L w / (2 fs), area per width.

    Args:
        friction: Coefficient of friction F between slab and base, 1.5 usual.
        length: Between free joints.
        weight: Of the slab per area.
        stress: Allowed in the steel.

    Consistent units: ft, lb/ft2 and psi give in2/ft; mm, N/mm2 and N/mm2 give mm2/mm. Source: the
    subgrade drag formula of ACI 360R (from memory).
    """
    return friction * length * weight / (2 * stress)


def tie_bar_area(
    thickness: float, width: float, unit_weight: float, friction: float, stress: float
) -> float:
    """Steel of tie bars, As = b h w f / Ss, area per length of joint.

    Args:
        thickness: Of the slab.
        width: Of the lane that is held.
        unit_weight: Weight of the concrete per volume.
        friction: Coefficient of friction with the base.
        stress: Allowed in the steel.

    Consistent units. Source: IIT Bombay lecture notes on rigid pavement, 29.6.
    """
    return width * thickness * unit_weight * friction / stress


def tie_bar_length(diameter: float, stress: float, bond: float) -> float:
    """Length of a tie bar, L = d Ss / (2 Sb), in the unit of the diameter; source as above."""
    return diameter * stress / (2 * bond)


def tie_bar_spacing(bar_area: float, needed: float, step: float) -> float:
    """Spacing of tie bars, rounded down to whole steps so that no steel is lost.

    Args:
        bar_area: Area of one bar.
        needed: Steel per length of joint.
        step: Of the rounding.
    """
    return math.floor(bar_area / needed / step) * step


def steel_ratio(bar_area: float, spacing: float, thickness: float) -> float:
    """Area of bars over the area of the section, one way."""
    return bar_area / (spacing * thickness)


def thickened_edge(thickness: float) -> float:
    """Depth of a slab's edge where it is thickened instead of doweled: 1.25 t.

    Source: UFC 3-260-02 (2001), ch. 12, tapering over 5 ft (1.5 m).
    """
    return 1.25 * thickness


THICKENED_EDGE_TAPER = 5 * 304.8
"""Length (mm) over which a thickened edge tapers back; UFC 3-260-02 (2001), ch. 12."""
