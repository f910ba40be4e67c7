"""Large floors: regular bays repeat, and the irregular edge is laid out exactly."""

from collections import Counter

import pytest

from kerfline.engine.regions.placing import LITTLE
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Status
from kerfline.model.slab import Column, Slab, Zone
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import FOUR_INCHES, box, in_feet, layout, lines, ring, slab, wall


def columns(across, up, bay):
    return tuple(
        Column(
            id=f"C{i * up + j + 1}", at=(bay * (i + 1) * MM_PER_FOOT, bay * (j + 1) * MM_PER_FOOT)
        )
        for i in range(across)
        for j in range(up)
    )


def test_every_bay_between_columns_is_alike():
    """200 x 150 ft, columns every 50 ft: 10 ft panels, joints from edge to edge."""
    found = layout(slab(box(200, 150), columns=columns(3, 2, 50)))
    assert found.solution.status is Status.PARTS
    assert found.solution.gap == pytest.approx(0.0, abs=1e-6)
    up, across = lines(found)
    assert up == [10 * i for i in range(1, 20)]
    assert across == [10 * i for i in range(1, 15)]
    assert found.solution.length_bound == pytest.approx(found.joint_length, rel=0.01)


def test_alike_blocks_of_two_thicknesses_are_laid_out_apart():
    """320 x 100 ft, half of it 8 in and half 4 in thick: the blocks are alike but for the span."""
    thin = Zone(id="Z1", outline=box(160, 100, 160), thickness=FOUR_INCHES)
    floor = Slab(outline=box(320, 100), thickness=2 * FOUR_INCHES, zones=(thin,))
    panels = layout(floor).panels
    longest = {
        side: max(
            panel.span
            for panel in panels
            if (panel.polygon.centroid.x > 160 * MM_PER_FOOT) == (side == "thin")
        )
        for side in ("thick", "thin")
    }
    assert longest["thin"] <= 10 * LITTLE * MM_PER_FOOT
    assert longest["thick"] > 14 * MM_PER_FOOT


def test_an_odd_floor_is_divided_evenly():
    found = layout(slab(box(203.5, 121.25)))
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5
    assert {in_feet(p.width) for p in found.panels} <= {9.25, 9.33, 9.17}


def test_pits_along_one_side_leave_the_rest_regular():
    outline = ring((0, 0), (250, 0), (250, 100), (300, 100), (300, 200), (0, 200))
    pits = tuple(box(8, 10, 20 + 50 * k, 6) for k in range(4))
    found = layout(slab(outline, openings=pits, columns=columns(4, 3, 50)))
    area = sum(p.area for p in found.panels)
    assert area == pytest.approx(found_concrete(outline, pits), rel=2e-2)
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5
    regular = [p for p in found.panels if p.polygon.bounds[1] > 100 * MM_PER_FOOT - 1]
    assert {in_feet(p.length) for p in regular} == {10.0}


def found_concrete(outline, pits):
    return outline.polygon.area - sum(p.polygon.area for p in pits)


def bow_side():
    """220 x 100 ft whose lower side swells outwards by 11 ft."""
    corners = ((0, 0), (220, 0), (220, 100), (0, 100))
    points = tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in corners)
    return Ring(points, bulges=(0.1, 0.0, 0.0, 0.0))


@pytest.mark.parametrize(
    "outline",
    [bow_side(), ring((0, 0), (250, 0), (250, 150), (200, 200), (0, 200))],
    ids=["bow side", "splayed corner"],
)
def test_a_curved_or_splayed_side_leaves_the_middle_regular(outline):
    found = layout(slab(outline))
    assert sum(p.area for p in found.panels) == pytest.approx(outline.polygon.area, rel=1e-6)
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5
    sizes = Counter((round(p.length), round(p.width)) for p in found.panels)
    alike = sum(count for _, count in sizes.most_common(4))
    assert alike > 0.7 * len(found.panels)


def test_of_walls_closer_together_than_a_panel_is_wide_some_have_their_joints_and_no_strip_is_cut():
    """Fifty-nine walls nine inches apart: what cannot have its joint is told, and every panel is wide enough."""
    walls = tuple(wall(f"W{n}", (0, 0.75 * n), (40, 0.75 * n)) for n in range(1, 60))
    found = layout(slab(box(40, 45), walls=walls))
    assert min(p.width for p in found.panels) >= found.limits.width - 0.5
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5
    assert 0 < len(found.walls_left) < len(walls)
