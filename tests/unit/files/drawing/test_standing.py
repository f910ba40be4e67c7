"""Columns, penetrations and keep-outs, told apart by what is drawn."""

import math

import pytest

from kerfline.files.drawing import Layers, read_slab_parts
from kerfline.model.slab import Boxout, PenetrationKind

SLAB = [(0, 0), (480, 0), (480, 240), (0, 240)]


@pytest.fixture
def slab(sheet):
    drawn = sheet()
    drawn.poly("SLAB", SLAB)
    return drawn


def columns_of(drawn, joints=()):
    parts = read_slab_parts(
        drawn.save(), Layers(outline=("SLAB",), columns=("COLS",), joints=joints)
    )
    return parts.columns, parts.notes


def row(column):
    return (
        column.boxout,
        *(round(c / 25.4, 2) for c in column.at),
        round(column.size / 25.4, 3),
        round(column.turn, 3),
    )


def test_squares_diamonds_and_circles(slab):
    slab.square("COLS", (100, 60), 24)
    slab.square("COLS", (200, 60), 24, turn=45)
    slab.circle("COLS", (300, 60), 30)
    columns, _ = columns_of(slab)
    assert list(map(row, columns)) == [
        (Boxout.SQUARE, 100, 60, 24, 0),
        (Boxout.DIAMOND, 200, 60, 24, 0),
        (Boxout.CIRCLE, 300, 60, 30, 0),
    ]
    assert [c.id for c in columns] == ["C1", "C2", "C3"]


@pytest.mark.parametrize("turn", [0, 10, 45, 80])
def test_a_diamond_is_one_in_a_building_at_any_angle(sheet, turn):
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def turned(x, y):
        return (x * cos - y * sin, x * sin + y * cos)

    drawn = sheet()
    drawn.poly("SLAB", [turned(*p) for p in SLAB])
    drawn.square("COLS", turned(100, 60), 24, turn)
    drawn.square("COLS", turned(200, 60), 24, turn + 45)
    by_kind = {c.boxout: c for c in columns_of(drawn)[0]}
    assert set(by_kind) == {Boxout.SQUARE, Boxout.DIAMOND}
    for column in by_kind.values():
        off = (column.turn - turn) % 90
        assert min(off, 90 - off) == pytest.approx(0, abs=1e-4)
        drawn_as = turn + (45 if column.boxout is Boxout.DIAMOND else 0)
        at = turned(*((200, 60) if column.boxout is Boxout.DIAMOND else (100, 60)))
        corners = {
            (
                round((at[0] + 12 * math.sqrt(2) * math.cos(a)) * 25.4, 1),
                round((at[1] + 12 * math.sqrt(2) * math.sin(a)) * 25.4, 1),
            )
            for a in (math.radians(drawn_as + 45 + 90 * i) for i in range(4))
        }
        assert {(round(x, 1), round(y, 1)) for x, y in column.outline.points} == corners


def test_loose_lines_and_blocks(slab):
    points = [(88, 48), (112, 48), (112, 72), (88, 72)]
    slab.loop("COLS", points)
    block = slab.doc.blocks.new("COL")
    block.add_lwpolyline([(-12, 0), (0, -12), (12, 0), (0, 12)], close=True)
    block.add_line((-12, 0), (12, 0))
    slab.space.add_blockref("COL", (200, 60), dxfattribs={"layer": "COLS"})
    cross = slab.doc.blocks.new("CROSS")
    cross.add_line((-6, 0), (6, 0))
    cross.add_line((0, -6), (0, 6))
    slab.space.add_blockref("CROSS", (300, 60), dxfattribs={"layer": "COLS"})
    rows = list(map(row, columns_of(slab)[0]))
    assert rows[0] == (Boxout.SQUARE, 100, 60, 24, 0)
    assert rows[1][:3] == (Boxout.DIAMOND, 200, 60)
    assert rows[1][3] == pytest.approx(24 / math.sqrt(2), abs=1e-3)
    assert rows[2][1:3] == (300, 60)


def test_a_column_inside_its_boxout_is_one_column(slab):
    slab.square("COLS", (100, 60), 8)
    slab.square("COLS", (100, 60), 24, turn=45)
    slab.square("COLS", (100, 60), 24, turn=45)
    assert list(map(row, columns_of(slab)[0])) == [(Boxout.DIAMOND, 100, 60, 24, 0)]


def test_boxouts_drawn_as_closed_isolation_joints(slab):
    slab.square("COLS", (100, 60), 8)
    slab.square("S-JNTS-ISOL", (100, 60), 24, turn=45)
    slab.loop("S-JNTS-ISOL", [(288, 48), (312, 48), (312, 72), (288, 72)])
    columns, _ = columns_of(slab, ("S-JNTS*",))
    assert list(map(row, columns)) == [
        (Boxout.DIAMOND, 100, 60, 24, 0),
        (Boxout.SQUARE, 300, 60, 24, 0),
    ]
    parts = read_slab_parts(slab.save(), Layers(outline=("SLAB",), joints=("S-JNTS*",)))
    assert parts.joints == ()


def test_oblong_and_steel_shapes_get_the_square_around_them(slab):
    slab.poly("COLS", [(90, 54), (110, 54), (110, 66), (90, 66)])
    h = [
        (-4, -4),
        (4, -4),
        (4, -3.5),
        (0.2, -3.5),
        (0.2, 3.5),
        (4, 3.5),
        (4, 4),
        (-4, 4),
        (-4, 3.5),
        (-0.2, 3.5),
        (-0.2, -3.5),
        (-4, -3.5),
    ]
    slab.poly("COLS", [(200 + x, 60 + y) for x, y in h])
    columns, notes = columns_of(slab)
    assert list(map(row, columns)) == [
        (Boxout.SQUARE, 100, 60, 20, 0),
        (Boxout.SQUARE, 200, 60, 8, 0),
    ]
    assert any("2 columns neither square nor round" in n for n in notes)


def test_points_are_columns_without_a_boxout(slab):
    slab.space.add_point((100, 60), dxfattribs={"layer": "COLS"})
    slab.space.add_point((100, 60), dxfattribs={"layer": "COLS"})
    (column,) = columns_of(slab)[0]
    assert column.boxout is Boxout.NONE


def test_columns_outside_the_slab_are_left_out_and_told(slab):
    slab.square("COLS", (100, 60), 24)
    slab.square("COLS", (900, 60), 24)
    columns, notes = columns_of(slab)
    assert len(columns) == 1
    assert any(n.startswith("1 column outside the slab left out") for n in notes)


def test_large_figures_are_no_columns(slab):
    slab.poly("COLS", SLAB)
    slab.square("COLS", (100, 60), 24)
    assert len(columns_of(slab)[0]) == 1


def test_penetrations_by_layer_and_size(slab):
    slab.circle("P-DRAIN-FLOR", (100, 60), 4)
    slab.circle("P-DRAIN-FLOR", (100, 60), 6)
    slab.circle("E-CONDUIT", (200, 60), 2)
    slab.square("BOLLARDS", (300, 60), 6)
    slab.space.add_point((400, 60), dxfattribs={"layer": "P-PIPE"})
    slab.circle("P-PIPE", (900, 60), 4)
    parts = read_slab_parts(
        slab.save(),
        Layers(outline=("SLAB",), penetrations=("P-*", "E-COND*", "BOLLARDS")),
    )
    found = [
        (p.kind, round(p.at[0] / 25.4), round(p.diameter / 25.4, 3)) for p in parts.penetrations
    ]
    assert found == [
        (PenetrationKind.DRAIN, 100, 6),
        (PenetrationKind.CONDUIT, 200, 2),
        (PenetrationKind.POST, 300, 6),
        (PenetrationKind.PIPE, 400, 0),
    ]
    assert any("1 penetration drawn as a point" in n for n in parts.notes)
    assert any("1 penetration outside the slab" in n for n in parts.notes)


def test_keep_outs(slab):
    slab.loop("TUBING", [(10, 10), (100, 10), (100, 100), (10, 100)])
    slab.square("TUBING", (900, 900), 50)
    slab.line("TENDON", (0, 0), (480, 240))
    parts = read_slab_parts(slab.save(), Layers(outline=("SLAB",), keep_outs=("TUBING", "TENDON")))
    (area,) = parts.keep_outs
    assert (area.id, area.what) == ("K1", "tubing")
    assert area.outline.polygon.area == pytest.approx(8100 * 25.4**2)
    assert any("lies outside the slab" in n for n in parts.notes)
    assert any("TENDON: no closed area" in n for n in parts.notes)
