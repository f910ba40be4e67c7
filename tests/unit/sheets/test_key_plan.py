"""The key plan: which parts of the slab a sheet shows."""

from dataclasses import replace
from itertools import combinations

import pytest
import shapely

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import baselines
from kerfline.sheets.key_plan import TALL, Piece, area_key, key_plan
from kerfline.sheets.marks import Board, Text
from kerfline.sheets.parts import part_name
from sheet_checks import box_of
from views import fills, paths, texts, workshop_plan


def key(here):
    plan = workshop_plan(size="letter", scale=96.0)[0]
    figure = key_plan(plan.job.slab, plan.base, plan.choice, here)
    board = Board()
    figure.draw(board, (10.0, 200.0), figure.width)
    return plan.choice, figure, board


def test_every_part_is_named_and_those_of_this_sheet_are_shaded():
    choice, _, board = key([0])
    assert len(choice.parts) > 1
    assert set(texts(board)) == {"Key plan", *(part_name(i) for i in range(len(choice.cells)))}
    assert len(fills(board)) == 1
    assert len(fills(key(list(range(len(choice.cells))))[2])) == len(choice.cells)


def test_it_keeps_inside_the_room_that_it_asks_for():
    _, figure, board = key([0])
    ys = [y for m in paths(board) for _, y in m.points]
    assert min(ys) >= 200.0 - figure.tall
    assert figure.tall <= TALL + 20.0


def test_the_slab_is_drawn_over_its_parts_in_its_own_shape():
    _, _, board = key([0])
    outline = next(m for m in paths(board) if len(m.points) == 6)
    xs, ys = zip(*outline.points, strict=True)
    assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(60 / 40)


def test_the_key_of_an_area_shows_the_whole_slab_and_tones_the_area():
    slab = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 4000), (0, 4000))), thickness=100)
    here, other = shapely.box(0, 0, 5000, 4000), shapely.box(5000, 0, 9000, 4000)
    pieces = (Piece(id="1", region=here), Piece(id="2", region=other))
    figure = area_key(slab, baselines(slab), here, pieces, 2.5, 90.0)
    board = Board()
    figure.draw(board, (0.0, 100.0), 90.0)
    assert texts(board) == ["Key plan", "1", "2"]
    (tone,) = fills(board)
    xs = [x for x, _ in tone.rings[0]]
    whole = [x for x, _ in paths(board)[-1].points]
    assert (max(xs) - min(xs)) / (max(whole) - min(whole)) == pytest.approx(5 / 9)


def test_parts_of_a_large_slab_are_there_however_small_the_key_draws_them():
    slab = Slab(outline=Ring(((0, 0), (180e3, 0), (180e3, 150e3), (0, 150e3))), thickness=100)
    here, other = shapely.box(0, 0, 3000, 3000), shapely.box(9000, 0, 12_000, 3000)
    pieces = (Piece(id="1", region=here), Piece(id="2", region=other))
    board = Board()
    area_key(slab, baselines(slab), here, pieces, 2.5, 90.0).draw(board, (0.0, 100.0), 90.0)
    assert texts(board) == ["Key plan", "1", "2"]
    assert len(fills(board)) == 1
    assert sum(path.closed for path in paths(board)) == len(pieces) + 1


def test_names_of_pieces_stand_clear_of_each_other_and_this_sheets_is_there():
    slab = Slab(outline=Ring(((0, 0), (180e3, 0), (180e3, 150e3), (0, 150e3))), thickness=100)
    areas = [shapely.box(1000 * n, 0, 1000 * (n + 1), 1000) for n in range(8)]
    pieces = [Piece(id=f"{n}", region=area) for n, area in enumerate(areas)]
    board = Board()
    area_key(slab, baselines(slab), areas[5], pieces, 2.5, 90.0).draw(board, (0.0, 100.0), 90.0)
    names = [mark for mark in board if isinstance(mark, Text) and mark.text != "Key plan"]
    assert "5" in {name.text for name in names}
    assert 1 <= len(names) < len(pieces)
    assert not any(box_of(a).intersects(box_of(b)) for a, b in combinations(names, 2))
    assert sum(path.closed for path in paths(board)) == len(pieces) + 1


@pytest.mark.parametrize("upright", [False, True])
def test_the_numbers_of_many_thin_parts_stand_clear_of_each_other_and_this_sheets_is_there(upright):
    """A walk in 40 parts: there is no room for all of their numbers."""
    cells = [(1000.0 * n, 0.0, 1000.0 * (n + 1), 600.0) for n in range(40)]
    cells = [(b, a, d, c) for a, b, c, d in cells] if upright else cells
    outline = ((0, 0), (40000, 0), (40000, 600), (0, 600))
    points = tuple((y, x) for x, y in outline)[::-1] if upright else outline
    slab = Slab(outline=Ring(points), thickness=100)
    plan = workshop_plan(size="letter", scale=96.0)[0]
    choice = replace(plan.choice, cells=tuple(cells))
    figure = key_plan(slab, baselines(slab), choice, [17])
    board = Board()
    figure.draw(board, (10.0, 200.0), figure.width)
    names = [t for t in board if isinstance(t, Text) and t.text.isdigit()]
    assert "18" in {t.text for t in names}
    assert 2 < len(names) < 40
    boxes = [box_of(t) for t in names]
    assert not any(a.intersects(b) for i, a in enumerate(boxes) for b in boxes[:i])
