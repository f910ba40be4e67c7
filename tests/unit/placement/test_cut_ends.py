"""What each end of a sawn line meets, and what a round blade leaves there."""

import pytest
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.day import Ledger, SawChoice, SawMethod
from kerfline.model.joint_lines import SawnLine
from kerfline.model.slab import Boxout, Column, Edge, EdgeKind, Slab
from kerfline.placement.cut_ends import EndAt, blade_of, sawn_ends

BLADE = 10 * 25.4
SLAB = Slab(
    outline=Ring(((0, 0), (6000, 0), (6000, 4000), (0, 4000))),
    thickness=100.0,
    openings=(Ring(((4000, 1500), (4500, 1500), (4500, 2500), (4000, 2500))),),
    columns=(Column(id="C1", at=(2000, 2000), boxout=Boxout.SQUARE, size=600.0),),
    edges=(
        Edge(ring=0, segment=3, kind=EdgeKind.ISOLATED),
        Edge(ring=0, segment=1, kind=EdgeKind.CONTINUOUS),
        Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN),
    ),
)


def sawn(*points, depth=25.4):
    return SawnLine(joint="J1", line=LineString(points), depth=depth, hidden=False)


def meets(*points):
    return [end.meets for end in sawn_ends(SLAB, [sawn(*points)], BLADE, 0.0)]


@pytest.mark.parametrize(
    ("points", "found"),
    [
        (((0, 3000), (6000, 3000)), [EndAt.WALL, EndAt.WALL]),
        (((3000, 0), (3000, 4000)), [EndAt.FREE_EDGE, EndAt.FREE_EDGE]),
        (((0, 2000), (1700, 2000)), [EndAt.WALL, EndAt.BOXOUT]),
        (((2300, 2000), (4000, 2000)), [EndAt.BOXOUT, EndAt.OPENING]),
        (((3000, 1000), (3500, 1000)), [EndAt.JOINT, EndAt.JOINT]),
        (((2000, 4000), (2000, 2300)), [EndAt.FREE_EDGE, EndAt.BOXOUT]),
    ],
)
def test_an_end_meets_a_wall_a_boxout_an_opening_an_edge_or_a_joint(points, found):
    """Isolated and continuous edges stand against something; a turned-down one is free."""
    assert meets(*points) == found


@pytest.mark.parametrize(("short", "found"), [(0.9, EndAt.WALL), (1.1, EndAt.JOINT)])
def test_an_end_within_a_millimetre_is_there(short, found):
    assert meets((short, 3000), (3000, 3000))[0] is found


def test_the_guard_counts_at_a_wall_alone():
    """10 in blade, 1 in deep: the arc runs out at 3 in and leaves 2 in, and the guard of 1 in on top."""
    wall, joint = sawn_ends(SLAB, [sawn((0, 3000), (3000, 3000))], BLADE, 25.4)
    assert wall.cut.run_out == pytest.approx(3 * 25.4)
    assert wall.cut.surface == pytest.approx(3 * 25.4)
    assert joint.cut.surface == pytest.approx(2 * 25.4)
    assert (wall.joint, wall.at) == ("J1", (0, 3000))


def test_every_line_has_two_ends_in_order():
    lines = [sawn((0, 3000), (3000, 3000)), sawn((3000, 0), (3000, 4000), depth=50.8)]
    ends = sawn_ends(SLAB, lines, BLADE, 0.0)
    assert [e.at for e in ends] == [(0, 3000), (3000, 3000), (3000, 0), (3000, 4000)]
    assert ends[2].cut.run_out == pytest.approx(4 * 25.4)
    assert sawn_ends(SLAB, [], BLADE, 0.0) == ()


def test_a_slab_that_stands_free_has_no_walls():
    bare = Slab(outline=SLAB.outline, thickness=100.0)
    ends = sawn_ends(bare, [sawn((0, 3000), (6000, 3000))], BLADE, 0.0)
    assert {e.meets for e in ends} == {EndAt.FREE_EDGE}


@pytest.mark.parametrize(
    ("method", "inches"), [(SawMethod.CONVENTIONAL, 14), (SawMethod.EARLY_ENTRY, 6)]
)
def test_the_usual_blade_is_noted_and_ones_own_is_not(method, inches):
    """Common practice."""
    ledger = Ledger()
    assert blade_of(SawChoice(), method, ledger) == (pytest.approx(inches * 25.4), 0.0)
    assert len(ledger.assumptions) == 2
    ledger = Ledger()
    assert blade_of(SawChoice(blade=300.0, guard=20.0), method, ledger) == (300.0, 20.0)
    assert ledger.assumptions == []
