"""Joints as drawn by hand: pieces, dashes, doubles, ends that miss; every repair is listed."""

import math
from itertools import pairwise

import pytest
from shapely import LineString

from kerfline.errors import InputRefused
from kerfline.files.drawing import Layers, read_slab_parts
from kerfline.model.slab import JointKind

SLAB = [(0, 0), (480, 0), (480, 240), (0, 240)]
J = "S-JNTS-CTLJ"


@pytest.fixture
def slab(sheet):
    drawn = sheet()
    drawn.poly("SLAB", SLAB)
    return drawn


def read(drawn, *patterns, columns=()):
    layers = Layers(outline=("SLAB",), columns=columns, joints=patterns or ("S-JNTS*",))
    return read_slab_parts(drawn.save(), layers)


def length_of(joint):
    return LineString(joint.path).length


def rows(parts):
    return [
        tuple(
            (round(x / 25.4, 2) + 0.0, round(y / 25.4, 2) + 0.0) for x, y in (j.path[0], j.path[-1])
        )
        for j in parts.joints
    ]


ACROSS = ((120, 0), (120, 240))


def test_a_line(slab):
    slab.line(J, *ACROSS[::-1])
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    (joint,) = parts.joints
    assert (joint.id, joint.kind, len(joint.path)) == ("G1", JointKind.CONTROL, 2)
    assert parts.notes == ()


def test_a_polyline_is_one_joint_for_each_saw_pass(slab):
    slab.poly(J, [(120, 0), (120, 120), (300, 120), (300, 240)], close=False)
    assert rows(read(slab)) == [
        ((120, 0), (120, 120)),
        ((120, 120), (300, 120)),
        ((300, 120), (300, 240)),
    ]


def test_pieces_and_doubles_are_one_joint(slab):
    for y in range(0, 240, 24):
        slab.line(J, (120, y), (120, y + 24))
    slab.line(J, (120, 200), (120, 60))
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    assert "1 joint drawn twice, in all or part; each was taken once." in parts.notes


@pytest.mark.parametrize(("dash", "gap"), [(12, 6), (6, 6), (3, 1), (24, 12)])
def test_dashes_are_one_joint_wherever_the_pattern_ends(slab, dash, gap):
    y = 0.0
    while y < 240:
        slab.line(J, (120, y), (120, min(y + dash, 240)))
        y += dash + gap
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    assert any(n.startswith("G1 joined from") for n in parts.notes)


def test_a_wide_gap_between_long_joints_stays(slab):
    slab.line(J, (120, 0), (120, 110))
    slab.line(J, (120, 125), (120, 240))
    assert len(read(slab).joints) == 2


def test_a_small_gap_between_long_joints_is_closed_and_told(slab):
    slab.line(J, (120, 0), (120, 119))
    slab.line(J, (120, 120), (120, 240))
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    assert parts.notes == ("G1 joined from 2 pieces in one line, the widest gap 0'-1\".",)


def test_two_lines_of_a_joint_former_are_one_joint_at_their_centre(slab):
    slab.line(J, (119.5, 0), (119.5, 240))
    slab.line(J, (120.5, 240), (120.5, 0))
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    assert any("1 pair of parallel lines up to 0'-1\" apart" in n for n in parts.notes)


def test_formers_cut_at_their_crossings_are_joints_from_edge_to_edge(slab):
    for x in (119.5, 120.5):
        slab.line(J, (x, 0), (x, 119.5))
        slab.line(J, (x, 120.5), (x, 240))
    for y in (119.5, 120.5):
        slab.line(J, (0, y), (119.5, y))
        slab.line(J, (120.5, y), (480, y))
    assert rows(read(slab)) == [ACROSS, ((0, 120), (480, 120))]


def test_lines_further_apart_are_two_joints(slab):
    slab.line(J, (120, 0), (120, 240))
    slab.line(J, (124, 0), (124, 240))
    assert len(read(slab).joints) == 2


class TestEnds:
    """Ends that stop a little short or run a little over."""

    def test_short_of_the_edge_and_over_it(self, slab):
        slab.line(J, (120, 1.5), (120, 241))
        parts = read(slab)
        assert rows(parts) == [ACROSS]
        assert parts.notes == (
            "G1 ran over the slab's edge: 0'-1\" cut off.",
            "G1 stopped short: carried on 0'-1 1/2\" to the edge at (10'-0\", 0'-0\").",
        )

    def test_short_of_another_joint_and_over_it(self, slab):
        slab.line(J, (0, 120), (480, 120))
        slab.line(J, (120, 0), (120, 119))
        slab.line(J, (240, 240), (240, 118.5))
        parts = read(slab)
        assert rows(parts)[:1] == [((120, 0), (120, 120))]
        assert ((240, 120), (240, 240)) in rows(parts)
        assert (
            "G1 stopped short: carried on 0'-1\" to the joint at (10'-0\", 10'-0\")." in parts.notes
        )
        assert any(
            n.endswith("ran over: cut back 0'-1 1/2\" to the joint at (20'-0\", 10'-0\").")
            for n in parts.notes
        )

    def test_a_corner_that_both_stop_short_of(self, slab):
        slab.line(J, (0, 120), (119, 120))
        slab.line(J, (120, 240), (120, 121.5))
        assert rows(read(slab)) == [((0, 120), (120, 120)), ((120, 120), (120, 240))]

    def test_an_end_further_off_stays_as_it_is(self, slab):
        slab.line(J, (120, 3), (120, 240))
        parts = read(slab)
        assert rows(parts) == [((120, 3), (120, 240))]
        assert parts.notes == ()

    def test_the_tolerance_is_the_callers(self, slab):
        from shapely import box

        from kerfline.files.drawing import read_drawing
        from kerfline.files.drawing.joints import read_joints

        slab.line(J, (120, 3), (120, 240))
        drawing = read_drawing(slab.save())
        drawn = [(JointKind.CONTROL, drawing.on(J))]
        concrete = box(0, 0, 480 * 25.4, 240 * 25.4)
        (joint,), notes = read_joints(drawn, concrete, drawing.unit.display, reach=100)
        assert length_of(joint) == pytest.approx(240 * 25.4)
        assert len(notes) == 1

    def test_a_hairs_breadth_is_closed_too(self, slab):
        slab.line(J, (120, 0.01), (120, 239.99))
        parts = read(slab)
        assert length_of(parts.joints[0]) == pytest.approx(240 * 25.4, abs=1e-6)
        assert parts.notes == ("2 joint ends within 0.5 mm of a line put exactly on it.",)

    def test_crossing_joints_are_not_cut(self, slab):
        slab.line(J, *ACROSS)
        slab.line(J, (0, 120), (480, 120))
        assert rows(read(slab)) == [ACROSS, ((0, 120), (480, 120))]


def test_a_joint_through_a_boxout_and_an_opening_is_interrupted(slab):
    slab.square("COLS", (120, 120), 24, turn=45)
    slab.line(J, *ACROSS)
    reach = 12 * math.sqrt(2)
    parts = read(slab, columns=("COLS",))
    assert rows(parts) == [
        ((120, 0), (120, pytest.approx(120 - reach, abs=0.01))),
        ((120, pytest.approx(120 + reach, abs=0.01)), (120, 240)),
    ]
    assert parts.notes.count("G1 interrupted where the concrete has an opening or a boxout.") == 1


def test_joints_outside_and_along_the_edge_are_left_out_and_told(slab):
    slab.line(J, (900, 0), (900, 240))
    slab.line(J, (0, 0), (480, 0))
    slab.line(J, *ACROSS)
    parts = read(slab)
    assert rows(parts) == [ACROSS]
    assert any("lies outside the slab: left out" in n for n in parts.notes)
    assert any("along the slab's edge" in n for n in parts.notes)


class TestCurved:
    """Arcs and free curves."""

    def test_an_arc_whole_in_pieces_and_dashed(self, slab):
        for step, dash in ((90, 90), (30, 30), (3, 2)):
            slab.space.delete_all_entities()
            slab.poly("SLAB", SLAB)
            for a in range(90, 180, step):
                slab.space.add_arc((480, 0), 120, a, min(a + dash, 180), dxfattribs={"layer": J})
            (joint,) = read(slab).joints
            assert length_of(joint) == pytest.approx(math.pi / 2 * 120 * 25.4, rel=1e-4)

    def test_two_arcs_of_a_joint_former_are_one_joint_at_their_centre(self, slab):
        for radius in (119, 121):
            slab.space.add_arc((480, 0), radius, 90, 180, dxfattribs={"layer": J})
        parts = read(slab)
        (joint,) = parts.joints
        assert length_of(joint) == pytest.approx(math.pi / 2 * 120 * 25.4, rel=1e-4)
        assert any("1 pair of parallel lines up to 0'-2\" apart" in n for n in parts.notes)

    def test_an_arc_that_runs_on_into_a_line_is_one_pass(self, slab):
        slab.space.add_arc((480, 0), 120, 90, 180, dxfattribs={"layer": J})
        slab.space.delete_entity(slab.space[-1])
        slab.poly(J, [(0, 120), (240, 120, -math.tan(math.radians(90) / 4)), (360, 0)], close=False)
        (joint,) = read(slab).joints
        assert length_of(joint) == pytest.approx((240 + math.pi / 2 * 120) * 25.4, rel=1e-4)

    def test_a_spline_drawn_twice(self, slab):
        points = [(120, 0, 0), (140, 80, 0), (100, 160, 0), (120, 240, 0)]
        for _ in range(2):
            slab.space.add_spline(points, dxfattribs={"layer": J})
        parts = read(slab)
        (joint,) = parts.joints
        assert len(joint.path) > 20
        assert any("1 curved joint drawn twice" in n for n in parts.notes)

    def test_short_chords_that_stand_for_an_arc_stay_a_curve(self, slab):
        chords = [
            (480 - 120 * math.sin(math.radians(a)), 120 * math.cos(math.radians(a)))
            for a in range(0, 91, 2)
        ]
        for a, b in pairwise(chords):
            slab.line(J, a, b)
        (joint,) = read(slab).joints
        assert length_of(joint) == pytest.approx(math.pi / 2 * 120 * 25.4, rel=1e-3)


class TestKinds:
    """The kind of a joint is what its layer says, or the user."""

    @pytest.mark.parametrize(
        ("layer", "kind"),
        [
            ("S-JNTS-CTLJ", JointKind.CONTROL),
            ("Control Joints", JointKind.CONTROL),
            ("SAWCUT", JointKind.CONTROL),
            ("Contraction_joint", JointKind.CONTROL),
            ("S-JNTS-CNTJ", JointKind.CONSTRUCTION),
            ("CONST JT", JointKind.CONSTRUCTION),
            ("Construction Joint", JointKind.CONSTRUCTION),
            ("S-JNTS-ISOL", JointKind.ISOLATION),
            ("PLAN$0$EXPANSION-JOINTS", JointKind.ISOLATION),
            ("S-JNTS-EXPJ", JointKind.ISOLATION),
        ],
    )
    def test_by_the_layers_name(self, slab, layer, kind):
        slab.line(layer, *ACROSS)
        assert [j.kind for j in read(slab, layer.replace("$", "?")).joints] == [kind]

    def test_a_plain_joint_layer_is_taken_for_control_joints_and_it_is_said(self, slab):
        slab.line("JOINTS", *ACROSS)
        parts = read(slab, "JOINTS")
        assert parts.joints[0].kind is JointKind.CONTROL
        assert any("neither layer nor label says the kind" in n for n in parts.notes)

    def test_a_label_beside_a_joint_says_its_kind(self, slab):
        slab.line("JOINTS", *ACROSS)
        slab.line("JOINTS", (0, 120), (480, 120))
        slab.line("S-JNTS-ISOL", (300, 0), (300, 240))
        for text, at in (
            ("CONST. JT", (125, 40)),
            ("CONTROL JOINT", (302, 40)),
            ("EXPANSION JOINT DETAILS ARE SHOWN ON SHEET S-501, TYPICAL", (240, 125)),
            ("SAWCUT", (240, 400)),
        ):
            slab.space.add_text(text, dxfattribs={"insert": at})
        parts = read(slab, "JOINTS", "S-JNTS*")
        kinds = {j.path[0]: j.kind for j in parts.joints}
        assert kinds[(120 * 25.4, 0)] is JointKind.CONSTRUCTION
        assert kinds[(0, 120 * 25.4)] is JointKind.CONTROL
        assert kinds[(300 * 25.4, 0)] is JointKind.ISOLATION
        assert "1 joint of the kind that the label beside it says." in parts.notes

    def test_a_label_that_says_cj_is_asked_about_unless_a_legend_answers(self, slab):
        slab.line("JOINTS", *ACROSS)
        slab.space.add_text("C.J.", dxfattribs={"insert": (125, 40)})
        with pytest.raises(InputRefused, match=r"label 'C.J.' at .*CJ means construction joint"):
            read(slab, "JOINTS")
        assert read(slab, "JOINTS = control").joints[0].kind is JointKind.CONTROL
        slab.space.add_text("CJ - CONSTRUCTION JOINT", dxfattribs={"insert": (500, 500)})
        assert read(slab, "JOINTS").joints[0].kind is JointKind.CONSTRUCTION

    @pytest.mark.parametrize("layer", ["CJ", "S-CJ", "C.J.", "SLAB_CJ_NEW"])
    def test_cj_alone_is_asked_about(self, slab, layer):
        slab.line(layer, *ACROSS)
        with pytest.raises(InputRefused) as caught:
            read(slab, layer)
        words = str(caught.value)
        assert "CJ means construction joint in some offices and control joint in others" in words
        assert f'"{layer} = control"' in words

    def test_the_user_answers_in_the_pattern(self, slab):
        slab.line("S-CJ", *ACROSS)
        assert read(slab, "S-CJ = construction").joints[0].kind is JointKind.CONSTRUCTION
        assert read(slab, "s-*j=Control").joints[0].kind is JointKind.CONTROL

    def test_the_drawings_legend_answers(self, slab):
        slab.line("S-CJ", *ACROSS)
        slab.space.add_text("C.J. = CONTROL JOINT, SAWN", dxfattribs={"insert": (500, 500)})
        parts = read(slab, "S-CJ")
        assert parts.joints[0].kind is JointKind.CONTROL
        assert any("the drawing's own legend says" in n for n in parts.notes)

    def test_a_legend_that_says_both_answers_nothing(self, slab):
        slab.line("S-CJ", *ACROSS)
        for text in ("CJ CONTROL JOINT", "CJ CONSTRUCTION JOINT"):
            slab.space.add_text(text, dxfattribs={"insert": (500, 500)})
        with pytest.raises(InputRefused):
            read(slab, "S-CJ")

    def test_a_kind_that_is_none_is_refused(self, slab):
        slab.line("S-CJ", *ACROSS)
        with pytest.raises(InputRefused, match="not a kind of joint; found 'S-CJ = sawn'"):
            read(slab, "S-CJ = sawn")

    def test_joints_of_two_kinds_are_kept_apart(self, slab):
        slab.line("S-JNTS-CTLJ", (120, 0), (120, 120))
        slab.line("S-JNTS-CNTJ", (120, 120), (120, 240))
        assert [j.kind for j in read(slab).joints] == [JointKind.CONTROL, JointKind.CONSTRUCTION]
