"""What stands on a slab asks for few lines, however finely its curves are drawn."""

from dataclasses import replace

import pytest

from kerfline.engine.lines.features import Rank, features, is_opening, model_outline
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, GivenJoint, KeepOut, Meeting, Penetration, Zone
from unit.engine.plans import EL, RULES, box, feet, in_feet, region_of, slab, wall
from unit.engine.plans import MM_PER_FOOT as FT

ROUND = Ring(feet((10, 10), (20, 10)), (1.0, 1.0))


def asked(*zones):
    """The places in feet that zones of a floor of 40 x 30 ft ask for, by axis."""
    region = region_of(slab(box(40, 30), zones=zones))
    found = [f for f in features(region) if f.rank is Rank.ZONE]
    return [sorted({in_feet(f.at) for f in found if f.axis == axis}) for axis in (0, 1)]


def test_a_square_zone_asks_for_its_four_edges():
    assert asked(Zone(id="Z1", outline=box(8, 6, 10, 4), thickness=150.0)) == [[10, 18], [4, 10]]


def test_a_slanting_zone_asks_for_its_corners_too():
    outline = Ring(feet((10, 4), (18, 4), (15, 10), (10, 10)))
    assert asked(Zone(id="Z1", outline=outline, thickness=150.0)) == [[10, 15, 18], [4, 10]]


def test_a_round_zone_asks_for_few_lines_not_for_one_at_each_chord_of_its_arc():
    across, up = asked(Zone(id="Z1", outline=ROUND, thickness=150.0, joint_at_border=False))
    assert len(across) <= 10
    assert len(up) <= 10
    for places, low, high in ((across, 10, 20), (up, 5, 15)):
        assert abs(places[0] - low) <= 0.5
        assert abs(places[-1] - high) <= 0.5


def found(plan, *ranks):
    """Axis, place and extent in feet of the features of some ranks."""
    return sorted(
        (f.axis, round(f.at / FT, 2), round(f.start / FT, 2), round(f.end / FT, 2))
        for f in features(region_of(plan))
        if f.rank in ranks
    )


def test_the_edges_of_an_ell():
    assert found(slab(EL), Rank.EDGE) == [
        (X, 0, 0, 36), (X, 22, 18, 36), (X, 40, 0, 18), (Y, 0, 0, 40), (Y, 18, 22, 40), (Y, 36, 0, 22),
    ]  # fmt: skip


def test_a_long_wall_is_a_line_with_its_slack_and_its_two_ends():
    plan = slab(box(40, 30), walls=(wall("W1", (13, 4), (13, 26)),))
    assert found(plan, Rank.WALL) == [(X, 13, 4, 26)]
    assert found(plan, Rank.WALL_END) == [(Y, 4, 13, 13), (Y, 26, 13, 13)]
    (line,) = [f for f in features(region_of(plan)) if f.rank is Rank.WALL]
    assert (line.slack, line.length, line.id) == (
        pytest.approx(57.15),
        pytest.approx(22 * FT),
        "W1",
    )


def test_a_short_wall_is_a_wish_without_ends():
    plan = slab(box(40, 30), walls=(wall("W1", (13, 4), (13, 8)),))
    assert found(plan, Rank.STUB) == [(X, 13, 4, 8)]
    assert found(plan, Rank.WALL, Rank.WALL_END) == []


def test_a_bearing_wall_wants_a_line_on_either_side_of_its_strip():
    """Half of 2 ft and two inches off."""
    strip = wall("W1", (13, 4), (13, 26), bearing=True, strip_width=2 * FT)
    plan = slab(box(40, 30), walls=(strip,))
    off = 1 + 2 / 12
    assert found(plan, Rank.BESIDE) == [
        (X, round(13 - off, 2), 4, 26),
        (X, round(13 + off, 2), 4, 26),
    ]
    assert found(plan, Rank.WALL) == []


def test_a_wall_aslant_is_none_of_the_grids():
    plan = slab(box(40, 30), walls=(wall("W1", (5, 5), (25, 25)),))
    assert found(plan, Rank.WALL, Rank.WALL_END) == []


def test_a_column_and_a_pipe_are_a_line_on_either_axis():
    plan = slab(
        box(40, 30),
        columns=(Column(id="C1", at=feet((13, 9))[0]),),
        penetrations=(Penetration(id="N1", at=feet((20, 5))[0], diameter=100.0),),
    )
    assert found(plan, Rank.COLUMN) == [(X, 13, 9, 9), (Y, 9, 13, 13)]
    assert found(plan, Rank.PENETRATION) == [(X, 20, 5, 5), (Y, 5, 20, 20)]


def test_a_pipe_to_stay_clear_of_is_gone_round():
    clear = Penetration(
        id="N1", at=feet((20, 5))[0], diameter=100.0, meeting=Meeting.CLEAR, clear=FT
    )
    plan = slab(box(40, 30), penetrations=(clear,))
    places = [at for axis, at, *_ in found(plan, Rank.BESIDE) if axis == X]
    assert places == pytest.approx([20 - 1 - 2 / 12, 20 + 1 + 2 / 12], abs=0.01)


def test_a_keep_out_is_gone_round_two_inches_off():
    plan = slab(box(40, 30), keep_outs=(KeepOut(id="K1", outline=box(6, 4, 10, 8)),))
    inches = 2 / 12
    assert [at for axis, at, *_ in found(plan, Rank.BESIDE) if axis == X] == [
        round(10 - inches, 2), round(16 + inches, 2),
    ]  # fmt: skip


@pytest.mark.parametrize(("times", "is_one"), [(1.99, False), (2.0, True)])
def test_a_square_boxout_of_two_least_widths_is_an_opening(times, is_one):
    least = RULES.working(101.6).width
    column = Column(id="C1", at=feet((20, 15))[0], boxout=Boxout.SQUARE, size=times * least)
    region = region_of(slab(box(40, 30), columns=(column,)))
    assert is_opening(column, region) is is_one
    assert is_opening(replace(column, boxout=Boxout.DIAMOND), region) is False
    assert is_opening(replace(column, turn=90.5), region) is is_one
    assert is_opening(replace(column, turn=45.0), region) is False
    gone = region.gross.area - model_outline(region).area
    assert gone == pytest.approx((times * least) ** 2 if is_one else 0.0)


def test_a_given_joint_is_pinned_along_its_axis():
    plan = slab(box(40, 30), joints=(GivenJoint(id="G1", path=feet((0, 12), (40, 12))),))
    assert found(plan, Rank.PINNED) == [(Y, 12, 0, 40)]
