"""Movement, seals, stiffness, friction, tie bars and drag steel against worked examples.

Sources: FHWA concrete pavement notebook, 3.3 (joint opening, compression seals, radius of relative
stiffness); IIT Bombay lecture notes on rigid pavement, section 29 (tie bars, expansion and friction
spacing); Westergaard's radius for two textbook slabs from memory, worked beside; UFC 3-260-02 (2001), ch. 12
(thickened edge). Drag steel is worked by hand from the formula of ACI 360R (from memory).
"""

import pytest

from kerfline.quantities.movement import (
    THICKENED_EDGE_TAPER,
    drag_steel,
    joint_opening,
    relative_stiffness,
    seal_width,
    steel_ratio,
    thickened_edge,
    tie_bar_area,
    tie_bar_length,
    tie_bar_spacing,
)


@pytest.mark.parametrize(("feet", "printed", "exact"), [(60, 0.3, 0.298), (30, 0.15, 0.149)])
def test_joint_opening(feet, printed, exact):
    """FHWA notebook: C 0.8, 5.5e-6 per °F, 14 to 90 °F, shrinkage 1.0e-4: 0.3 in at 60 ft, 0.15 at 30."""
    opening = joint_opening(feet * 12, 0.8, 5.5e-6, 90 - 14, 1.0e-4)
    assert opening == pytest.approx(printed, abs=0.005)
    assert opening == pytest.approx(exact, abs=0.0006)


def test_compression_seal():
    """FHWA notebook 3.3.7: dL 0.3 in wants 0.86 in, 0.15 in wants 0.43 in."""
    assert seal_width(0.3) == pytest.approx(0.86, abs=0.005)
    assert seal_width(0.15) == pytest.approx(0.43, abs=0.005)


def test_radius_of_relative_stiffness():
    """FHWA notebook: E 5e6 psi, 9 in, k 200 pci: 35.3 in; 14 ft is 4.8 of it, 12 ft 4.1."""
    radius = relative_stiffness(5e6, 9, 200)
    assert radius == pytest.approx(35.3, abs=0.05)
    assert 14 * 12 / radius == pytest.approx(4.8, abs=0.05)
    assert 12 * 12 / radius == pytest.approx(4.1, abs=0.05)


@pytest.mark.parametrize(
    ("inches", "subgrade", "radius"),
    [(8, 200, 30.57), (10, 100, 42.97), (6, 100, 29.30), (4, 100, 21.61)],
)
def test_radius_of_other_slabs(inches, subgrade, radius):
    """Worked by hand at E 4e6 psi; the first two are textbook values (from memory)."""
    by_hand = (4e6 * inches**3 / (12 * 0.9775 * subgrade)) ** 0.25
    assert relative_stiffness(4e6, inches, subgrade) == pytest.approx(radius, abs=0.01)
    assert by_hand == pytest.approx(radius, abs=0.01)


def test_spacing_as_a_multiple_of_the_radius():
    """By hand: 4.4 radii of 6 in on k 100 are 10.74 ft, 5 radii 12.21 ft."""
    radius = relative_stiffness(4e6, 6, 100) / 12
    assert 4.4 * radius == pytest.approx(10.74, abs=0.01)
    assert 5 * radius == pytest.approx(12.21, abs=0.01)


def test_stiffness_does_not_depend_on_the_units():
    """psi, in, pci and N/mm2, mm, N/mm3 tell the same slab."""
    psi, pci = 0.00689476, 0.000271447
    metric = relative_stiffness(5e6 * psi, 9 * 25.4, 200 * pci)
    assert metric / 25.4 == pytest.approx(relative_stiffness(5e6, 9, 200), rel=1e-5)


@pytest.mark.parametrize(
    ("thickness", "width", "printed_area", "exact_spacing"),
    [(0.20, 3.5, 1.44, 54.5), (0.18, 3.6, 1.33, 59.0)],
)
def test_tie_bars(thickness, width, printed_area, exact_spacing):
    """IIT Bombay notes: W 2400, f 1.5, Ss 1750 kg/cm2: 1.44 and 1.33 cm2/m; 10 mm bars 54.5 and 59 cm.

    The notes round both to 55 cm; we round down, to 50 and 55 cm in steps of 5, so that no steel is lost.
    """
    area = tie_bar_area(thickness, width, 2400, 1.5, 1750)
    assert area == pytest.approx(printed_area, abs=0.005)
    assert 100 * 0.785 / area == pytest.approx(exact_spacing, abs=0.2)
    step = 0.05
    spacing = tie_bar_spacing(0.785, area, step)
    assert spacing == pytest.approx(exact_spacing // 5 * step)
    assert 0.785 / spacing >= area


def test_tie_bar_length():
    """IIT Bombay notes: 1 x 1750 / (2 x 24.6) = 35.6, printed 36 cm."""
    assert tie_bar_length(1, 1750, 24.6) == pytest.approx(36, abs=0.5)
    assert tie_bar_length(1, 1750, 24.6) == pytest.approx(35.57, abs=0.01)


@pytest.mark.parametrize(
    ("feet", "weight", "stress", "area"),
    [(20, 75, 40_000, 0.0281), (30, 75, 40_000, 0.0422), (40, 100, 45_000, 0.0667)],
)
def test_drag_steel(feet, weight, stress, area):
    """By hand from As = F L w / (2 fs), F 1.5 (the usual value, measured 1.06 to 2.10)."""
    assert drag_steel(1.5, feet, weight, stress) == pytest.approx(area, abs=0.0001)


def test_a_tenth_of_a_percent():
    """Trade answer: No. 3 bars (0.11 in2) 24 in apart in 4 in are "0.1 %"; exact 0.115 %."""
    assert steel_ratio(0.11, 24, 4) * 100 == pytest.approx(0.115, abs=0.001)
    assert round(steel_ratio(0.11, 24, 4) * 100, 1) == 0.1


def test_thickened_edge():
    """UFC 3-260-02: 125 % of the thickness, so 10 in for 8 in, tapering over 5 ft."""
    assert thickened_edge(8) == pytest.approx(10)
    assert pytest.approx(5 * 304.8) == THICKENED_EDGE_TAPER
