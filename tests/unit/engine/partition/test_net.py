"""The net that candidate lines and settled joints draw on a piece: cells and the seams between them."""

from itertools import product

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity, box

from kerfline.engine.lines.candidates import CandidateLine, straight
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.partition.net import SETTLED, Net, Seam, lengths_under, net_of
from kerfline.engine.regions.features import AskingLine
from kerfline.model.layout import Reason
from strategies import convex_plans

FLOOR = box(0, 0, 6000, 4000)


def lines(axis, *places, reach=(0.0, 6000.0)):
    return [CandidateLine(straight(p, axis, reach), Reason.SPAN) for p in places]


def net(piece=FLOOR, up=(2000.0, 4000.0), across=(2000.0,), settled=()):
    settled = [LineString(r) for r in settled]
    return net_of(piece, SquareChart(), lines(0, *up), lines(1, *across), settled)


def test_two_lines_up_and_one_across_make_six_cells_and_seven_seams():
    found = net()
    assert len(found.cells) == 6
    assert len(found.seams) == 7
    assert {c.index for c in found.cells} == {(i, j) for i in range(3) for j in range(2)}
    assert len(found.lines) == 3


def test_each_cell_counts_the_lines_before_it_and_has_its_box():
    (cell,) = [c for c in net().cells if c.index == (1, 1)]
    assert cell.box == (2000, 2000, 4000, 4000)
    assert cell.polygon.area == pytest.approx(4e6)


def test_a_seam_knows_its_line_and_the_two_cells_beside_it():
    found = net()
    for seam in found.seams:
        line = found.lines[seam.line]
        axis = 0 if seam.line < 2 else 1
        assert seam.path.coords[0][axis] == pytest.approx(line.through[0][axis])
        one, two = (found.cells[c] for c in seam.cells)
        assert sum(abs(a - b) for a, b in zip(one.index, two.index, strict=True)) == 1


def test_nodes_on_the_rim_are_told_from_those_inside():
    found = net()
    inside = [at for at, edge in zip(found.nodes, found.edge, strict=True) if not edge]
    assert sorted(inside) == [(2000, 2000), (4000, 2000)]
    assert sum(found.edge) == 6


def test_a_settled_joint_parts_cells_for_good():
    """Without it a cell has its neighbours on all sides; across the joint it has none."""
    plain, parted = net(), net(settled=[((2000, 0), (2000, 4000))])
    assert sum(s.line == SETTLED for s in parted.seams) == 2
    assert sum(len(n) for n in plain.neighbours) == 2 * 7
    assert sum(len(n) for n in parted.neighbours) == 2 * 5


def test_a_settled_joint_aslant_makes_cells_of_its_own():
    found = net(settled=[((0, 0), (6000, 4000))])
    assert len(found.cells) > 6
    assert sum(c.polygon.area for c in found.cells) == pytest.approx(FLOOR.area)


def test_concrete_without_lines_is_one_cell():
    found = net(up=(), across=())
    assert (len(found.cells), found.seams, found.nodes, found.edge) == (1, (), (), ())
    assert found.neighbours == (frozenset(),)


def test_an_opening_is_no_cell():
    found = net(piece=FLOOR - box(2500, 500, 3500, 1500))
    assert sum(c.polygon.area for c in found.cells) == pytest.approx(23e6)


@given(convex_plans(), st.lists(st.floats(-5000, 5000), max_size=3), st.floats(-80, 80))
def test_cells_tile_the_piece_whatever_the_lines(plan, places, turn):
    drawn = lines(0, *sorted(places), reach=(-1e4, 1e4))
    spun = affinity.rotate(plan, turn, origin=(0, 0))
    found = net_of(spun, SquareChart(turn), drawn, [], [])
    assert sum(c.polygon.area for c in found.cells) == pytest.approx(plan.area, rel=1e-6)
    whole = shapely.union_all([c.polygon for c in found.cells], grid_size=1e-3)
    assert whole.symmetric_difference(spun).area < 100.0


def wall(*path, slack=50.0):
    return AskingLine(name="W", path=LineString(path), slack=slack)


@pytest.mark.parametrize(
    ("path", "length"),
    [
        (((2000, 0), (2000, 4000)), 4000),
        (((2040, 0), (2040, 4000)), 4000),
        (((2060, 0), (2060, 4000)), 0),
        (((2000, 500), (2000, 1500)), 1000),
        (((0, 1000), (6000, 1000)), 0),
        (((0, 2000), (6000, 2000)), 6000),
    ],
)
def test_the_length_of_wall_over_each_seam(path, length):
    found = lengths_under([wall(*path)], net())
    assert sum(found) == pytest.approx(length, abs=1.5)


def test_of_walls_over_one_seam_the_longest_counts():
    short, long = wall((2000, 0), (2000, 500)), wall((2000, 0), (2000, 1500))
    assert max(lengths_under([short, long], net())) == pytest.approx(1500, abs=1.0)
    rated = lengths_under([short, long], net(), [4.0, 1.0])
    assert max(rated) == pytest.approx(2000, abs=4.0)
    assert list(lengths_under([], net())) == [0.0] * 7
    assert list(lengths_under([short], net(up=(), across=()))) == []


def test_a_polygon_with_a_slanted_side_has_its_cells_cut_by_it():
    skew = Polygon([(0, 0), (6000, 0), (4000, 4000), (0, 4000)])
    found = net(piece=skew)
    assert sum(c.polygon.area for c in found.cells) == pytest.approx(skew.area)


@pytest.mark.parametrize(
    ("up", "across"),
    [((), (1000,)), ((1500,), ()), ((1000, 2500), (500, 1700, 3100)), ((3000,), (2000,))],
)
def test_cells_seams_and_nodes_of_a_full_net_are_counted(up, across):
    """With m lines up and n across: (m+1)(n+1) cells, m(n+1) + n(m+1) seams, mn nodes inside, 2m + 2n on the rim."""
    m, n = len(up), len(across)
    found = net(up=up, across=across)
    assert len(found.cells) == (m + 1) * (n + 1)
    assert len(found.seams) == m * (n + 1) + n * (m + 1)
    assert (found.edge.count(False), found.edge.count(True)) == (m * n, 2 * m + 2 * n)
    assert sum(s.path.length for s in found.seams) == pytest.approx(4000 * m + 6000 * n)


def test_cells_are_neighbours_where_a_piece_has_them_side_by_side():
    """All pieces of up to six cells, three by two: cells and pairs counted on the grid itself."""
    tried = 0
    for there in product((False, True), repeat=6):
        cells = {(n // 2, n % 2) for n in range(6) if there[n]}
        piece = shapely.union_all(
            [box(2000 * i, 2000 * j, 2000 * i + 2000, 2000 * j + 2000) for i, j in cells]
        )
        if not isinstance(piece, Polygon):
            continue
        tried += 1
        found = net(piece=piece)
        index = [cell.index for cell in found.cells]
        assert sorted(index) == sorted(cells)
        for cell, beside in zip(found.cells, found.neighbours, strict=True):
            i, j = cell.index
            assert cell.box == (2000 * i, 2000 * j, 2000 * i + 2000, 2000 * j + 2000)
            sides = {(i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)}
            assert {index[n] for n in beside} == sides & cells
        assert len(found.seams) == sum(len(n) for n in found.neighbours) / 2
    assert tried > 30


def test_a_line_along_the_edge_makes_no_seam_and_lies_before_all_cells():
    found = net(up=(0.0, 2000.0), across=())
    assert [c.index for c in sorted(found.cells, key=lambda c: c.index)] == [(1, 0), (2, 0)]
    assert [s.line for s in found.seams] == [1]


def test_nodes_on_the_rim_of_an_opening_are_on_the_edge():
    """An opening over the crossing at (2000, 2000) leaves one crossing inside."""
    found = net(piece=FLOOR - box(1500, 1500, 2500, 2500))
    inside = [at for at, edge in zip(found.nodes, found.edge, strict=True) if not edge]
    assert inside == [(4000, 2000)]
    rim = {at for at, edge in zip(found.nodes, found.edge, strict=True) if edge}
    assert {(2000, 1500), (2000, 2500), (1500, 2000), (2500, 2000)} <= rim


@pytest.mark.parametrize(
    ("length", "line", "beside"), [(1.0, 0, 0), (1.1, 0, 1), (1.1, SETTLED, 0), (500.0, SETTLED, 0)]
)
def test_cells_over_a_millimetre_of_seam_share_a_panel_unless_it_is_settled(length, line, beside):
    drawn = net(up=(2000.0,), across=())
    seam = Seam(LineString([(2000, 0), (2000, length)]), line, (0, 1), (0, 1))
    found = Net(drawn.chart, drawn.lines, drawn.cells, (seam,), drawn.nodes, drawn.edge)
    assert [len(n) for n in found.neighbours] == [beside, beside]


def test_a_turned_net_is_the_same_net_turned():
    plain = net()
    turned = net_of(
        affinity.rotate(FLOOR, 30, origin=(0, 0)),
        SquareChart(30.0),
        lines(0, 2000.0, 4000.0),
        lines(1, 2000.0),
        [],
    )
    ours, theirs = ({c.index: c.box for c in found.cells} for found in (plain, turned))
    assert theirs == {index: pytest.approx(at, abs=0.01) for index, at in ours.items()}
    assert sorted(s.line for s in turned.seams) == sorted(s.line for s in plain.seams)


@pytest.mark.parametrize(("off", "length"), [(50.4, 4000), (50.6, 0), (-50.4, 4000), (-50.6, 0)])
def test_a_wall_lies_over_a_seam_to_half_a_millimetre_beyond_its_slack(off, length):
    found = lengths_under([wall((2000 + off, 0), (2000 + off, 4000))], net())
    assert sum(found) == pytest.approx(length, abs=1.5)


def test_a_wall_aslant_over_a_seam_runs_along_none():
    assert not lengths_under([wall((1000, 500), (3000, 2500))], net()).any()
