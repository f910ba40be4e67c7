"""Blocks on which many walls stand out of line are divided until the lines that they cannot do without are few."""

from itertools import pairwise
from random import Random

import pytest
import shapely
from shapely import LineString

from kerfline.engine.large import crowded as module
from kerfline.engine.large.crowded import HALF, LEAST, MOST_CELLS, is_crowded, uncrowded
from kerfline.engine.lines.lattice import fixed_lines
from kerfline.geometry.faces import faces
from kerfline.model.slab import Wall
from unit.engine.plans import box, feet, layout, region_of, slab

SIZE = 60.0


def strewn(count, size=SIZE):
    """A floor, side in feet, with so many walls of 4 ft at places that follow no grid."""
    draw = Random(count)
    walls = []
    for n in range(count):
        x, y = (round(draw.uniform(2, size - 6), 2) for _ in range(2))
        end = (x + 4, y) if n % 2 else (x, y + 4)
        walls.append(Wall(id=f"W{n}", path=feet((x, y), end)))
    return region_of(slab(box(size, size), walls=tuple(walls)))


@pytest.fixture(scope="module")
def full():
    return strewn(120)


def test_a_crowded_block_is_divided_until_no_part_is_crowded_or_they_are_small(full):
    parts, _ = uncrowded([full])
    assert len(parts) > 1
    for part in parts:
        x0, y0, x1, y1 = part.gross.bounds
        assert not is_crowded(part) or max(x1 - x0, y1 - y0) <= LEAST * part.working.span


def test_the_joints_between_its_parts_cut_it_into_just_those(full):
    parts, cuts = uncrowded([full])
    pieces = faces(full.gross, [LineString(cut) for cut in cuts])
    assert len(pieces) == len(parts)
    for piece, part in zip(
        sorted(pieces, key=lambda p: p.bounds),
        sorted(parts, key=lambda p: p.gross.bounds),
        strict=True,
    ):
        assert shapely.symmetric_difference(piece, part.gross).area < 1.0


def test_no_part_is_much_longer_than_half(full):
    parts, _ = uncrowded([full])
    low, high = full.gross.bounds[0], full.gross.bounds[2]
    assert max(p.gross.bounds[2] - p.gross.bounds[0] for p in parts) <= HALF * (high - low)


def test_what_is_not_crowded_stays_whole_and_all_keep_their_order(full):
    plain = region_of(slab(box(40, 30)))
    parts, cuts = uncrowded([plain, full, plain])
    assert parts[0] is plain
    assert parts[-1] is plain
    assert uncrowded([plain]) == ([plain], [])
    assert cuts


@pytest.mark.parametrize(("across", "up", "crowds"), [(31, 21, False), (31, 22, True)])
def test_what_crowds_is_the_number_of_cells(across, up, crowds, monkeypatch):
    assert MOST_CELLS == (31 - 1) * (21 - 1)
    lines = (tuple(range(across)), tuple(range(up)))
    monkeypatch.setattr(module, "fixed_lines", lambda *_: lines)
    assert is_crowded(strewn(60)) is crowds
    assert not is_crowded(strewn(1))


def test_a_block_of_two_spans_is_not_divided_whatever_stands_on_it(monkeypatch):
    monkeypatch.setattr(module, "is_crowded", lambda _: True)
    side = LEAST * strewn(0).working.span / 304.8
    small = strewn(0, side)
    assert uncrowded([small]) == ([small], [])
    parts, _ = uncrowded([strewn(0, side + 1)])
    assert len(parts) > 1


def test_a_crowded_floor_too_small_for_blocks_is_laid_out_in_them():
    region = strewn(120)
    assert is_crowded(region)
    given = slab(box(SIZE, SIZE), walls=region.walls)
    found = layout(given)
    assert sum(p.area for p in found.panels) == pytest.approx(region.gross.area)
    assert len(found.solution.regions) == 1
    lines = [LineString(p) for _, cut in [uncrowded([region])] for p in cut]
    assert any(joint.line.distance(line) < 1.0 for joint in found.joints for line in lines)


def test_the_lines_that_are_fixed_are_in_order_on_either_axis(full):
    for lines in fixed_lines(full):
        assert all(one.at < other.at for one, other in pairwise(lines))
