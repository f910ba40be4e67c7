"""Large floors: typical blocks solved once and repeated."""

from collections import Counter
from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from kerfline.engine.effort import Budget, Effort
from kerfline.engine.large import blockwise
from kerfline.engine.large.blockwise import is_large, is_regular, solve_large
from kerfline.engine.measure.score import panels_between
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.region import Proof, X, Y
from kerfline.geometry.span import span_of
from kerfline.model.layout import Status
from kerfline.model.slab import Column, Wall
from unit.engine.plans import MM_PER_FOOT, box, feet, region_of, ring, slab

FOOT = MM_PER_FOOT


def solved(plan, seconds=3.0):
    region = region_of(plan)
    return region, solve_large(region, Effort(seconds), EngineOptions())


@pytest.mark.parametrize(("side", "large"), [(100.0, False), (100.1, True)])
def test_more_than_a_hundred_squares_of_the_span_are_large(side, large):
    """10 ft at 4 in: 100 x 100 ft is just searched as a whole."""
    assert is_large(region_of(slab(box(side, 100)))) is large


def test_a_rectangle_is_regular_and_a_small_or_a_slanted_floor_is_not():
    assert is_regular(region_of(slab(box(200, 100))))
    assert not is_regular(region_of(slab(box(40, 30))))
    aslant = slab(ring((0, 0), (55, 0), (255, 200), (200, 200)))
    assert is_large(region_of(aslant))
    assert not is_regular(region_of(aslant))


HALL = slab(box(160, 80))


def test_a_hall_of_whole_bays_has_squares_of_ten_feet_from_edge_to_edge():
    region, found = solved(HALL)
    joints = [LineString(c.path) for c in found.cuts]
    panels = panels_between(region.concrete, joints)
    sizes = Counter(round(span_of(p) / FOOT, 2) for p in panels)
    assert sizes == {10.0: 128}
    assert sum(j.length for j in joints) == pytest.approx((15 * 80 + 7 * 160) * FOOT)
    assert found.status is Status.PARTS


def test_blocks_that_are_alike_are_searched_once(monkeypatch):
    asked = []
    whole = blockwise.solve_exact

    def counted(region, weights, effort):
        asked.append(region)
        return whole(region, weights, effort)

    monkeypatch.setattr(blockwise, "solve_exact", counted)
    region, _ = solved(slab(box(240, 80)))
    blocks = list(blockwise.blocks(region, blockwise_lines(region)))
    assert len(blocks) >= 4
    assert 1 <= len(asked) < len(blocks)


def blockwise_lines(region):
    span = region.working.span
    return tuple(blockwise.separators(region, axis, span) for axis in (0, 1))


def test_joints_of_one_line_are_drawn_through_from_block_to_block():
    _, found = solved(HALL)
    assert len(found.cuts) == 15 + 7


def test_panels_tile_an_odd_floor_with_a_notch_within_the_greatest_span():
    plan = slab(ring((0, 0), (150, 0), (150, 60), (110, 60), (110, 97), (0, 97)))
    region, found = solved(plan)
    panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
    assert sum(p.area for p in panels) == pytest.approx(region.concrete.area)
    assert max(span_of(p) for p in panels) <= region.working.span * region.stretch + 0.5
    assert found.bound <= found.cost + 1e-6


def test_a_mirrored_floor_has_mirrored_joints():
    columns = tuple(Column(id=f"C{n}", at=at) for n, at in enumerate(feet((40, 40), (80, 40))))
    mirrored = tuple(replace(c, at=(160 * FOOT - c.at[0], c.at[1])) for c in columns)
    one, other = (solved(replace(HALL, columns=c))[1] for c in (columns, mirrored))
    lengths = [round(sum(LineString(c.path).length for c in f.cuts)) for f in (one, other)]
    assert lengths[0] == pytest.approx(lengths[1], rel=1e-6)


def test_without_effort_every_block_is_laid_out_all_the_same():
    region, found = solved(HALL, seconds=0.0)
    panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
    assert sum(p.area for p in panels) == pytest.approx(region.concrete.area)
    assert max(span_of(p) for p in panels) <= region.working.span * region.stretch + 0.5


def test_paths_are_drawn_through_along_either_axis_and_slanted_ones_stay():
    """All on a hall of 60 x 60 mm, so that nothing of them lies outside the concrete."""
    region = replace(region_of(slab(box(40, 40))), concrete=shapely.box(-60, -60, 60, 60))
    slanted = ((0.0, 0.0), (3.0, 4.0))
    paths = [
        ((10.0, 20.0), (10.0, 40.0)),
        slanted,
        ((0.0, 5.0), (8.0, 5.0)),
        ((10.0, 20.0), (10.0, 0.0)),
        ((8.0, 5.0), (9.0, 5.0)),
        ((10.0, 41.0), (10.0, 50.0)),
    ]
    assert {tuple(sorted(run.path)) for run in blockwise._runs(region, paths)} == {
        slanted,
        ((10.0, 0.0), (10.0, 40.0)),
        ((10.0, 41.0), (10.0, 50.0)),
        ((0.0, 5.0), (9.0, 5.0)),
    }


@pytest.mark.parametrize(
    ("axis", "at", "stretches"),
    [
        (X, 50.0, [(0.0, 20.0), (60.0, 100.0)]),
        (X, 30.0, [(0.0, 100.0)]),  # along the side of the piece, not inside it
        (X, 20.0, [(0.0, 100.0)]),
        (Y, 40.0, [(0.0, 30.0), (70.0, 100.0)]),
    ],
)
def test_a_separator_runs_outside_the_pieces_that_are_left_out(axis, at, stretches):
    piece = shapely.box(30, 20, 70, 60)
    assert blockwise._outside([piece], axis, at, (0.0, 100.0)) == stretches


def test_no_stretch_is_left_of_a_separator_inside_one_piece_or_between_two_that_touch():
    low, high = shapely.box(0, 0, 100, 50), shapely.box(0, 50, 100, 100)
    assert blockwise._outside([low, high], X, 50.0, (0.0, 100.0)) == []
    assert blockwise._outside([low], X, 50.0, (0.0, 50.5)) == []
    assert blockwise._outside([low], X, 50.0, (0.0, 51.0)) == [(50.0, 51.0)]


def test_separators_run_from_side_to_side_and_cost_their_length():
    region = region_of(slab(box(160, 80)))
    paths = blockwise._separator_paths(region, ([40 * FOOT], [20 * FOOT, 60 * FOOT]), [])
    assert paths == [
        feet((40, 0), (40, 80)),
        feet((0, 20), (160, 20)),
        feet((0, 60), (160, 60)),
    ]
    assert blockwise._settled(paths) == Proof(pytest.approx(400 * FOOT), pytest.approx(400 * FOOT))


def test_a_plain_rectangle_is_a_box_and_one_with_a_notch_is_not():
    whole = shapely.box(0, 0, 3000, 2000)
    assert blockwise._is_box(whole)
    assert not blockwise._is_box(whole - shapely.box(0, 0, 5, 5))
    assert blockwise._is_box(whole - shapely.box(0, 0, 2, 2))


@pytest.mark.parametrize(
    ("other", "alike"),
    [
        (slab(box(20, 10)), True),
        (slab(box(20, 10.1)), False),
        (slab(box(20, 10), columns=(Column(id="C1", at=feet((5, 5))[0]),)), False),
    ],
)
def test_blocks_are_of_a_kind_where_all_that_bears_on_them_agrees(other, alike):
    one = blockwise._kind(region_of(slab(box(20, 10))))
    assert (blockwise._kind(region_of(other)) == one) is alike
    shifted = replace(region_of(other), baseline=(0.25, 0.0))
    assert blockwise._kind(shifted) != one
    whole = replace(region_of(other), baseline=(-25.4, 50.8))
    assert (blockwise._kind(whole) == one) is alike


def rim(*, flip=False, by=0.0):
    """A piece beside a slanting edge, or its mirror image elsewhere, so much (mm) longer; and where a joint arrives."""
    away, way = (-1, -100) if flip else (1, 0)
    points = ((0, 0), (18, 0), (12, 20 + by / FOOT), (0, 20 + by / FOOT))
    shape = shapely.Polygon([((away * x + way) * FOOT, y * FOOT) for x, y in points])
    path = ((way * FOOT, -FOOT), (way * FOOT, 10 * FOOT))
    return replace(region_of(slab(box(40, 40))), gross=shape, concrete=shape), path


@pytest.mark.parametrize(
    ("by", "walled", "searches"),
    [(0.0, False, 1), (0.2, False, 1), (40.0, False, 2), (0.0, True, 2)],
)
def test_alike_bare_pieces_are_laid_out_once_and_mirrored(monkeypatch, by, walled, searches):
    """As far as they agree to the mm; where something stands on one its own names count."""
    asked = []
    whole = blockwise.lay_out_region

    def counted(region, options, effort):
        asked.append(region)
        return whole(region, options, effort)

    monkeypatch.setattr(blockwise, "lay_out_region", counted)
    parts, paths = zip(rim(), rim(flip=True, by=by), strict=True)
    if walled:
        walls = [
            ((x0 * FOOT, 6 * FOOT), (x1 * FOOT, 6 * FOOT)) for x0, x1 in ((0, 12), (-112, -100))
        ]
        parts = tuple(
            replace(part, walls=(Wall(id=f"W{n}", path=path),))
            for n, (part, path) in enumerate(zip(parts, walls, strict=True))
        )
    cuts, proofs = blockwise._solved_pieces(parts, paths, EngineOptions(), Effort(1.0))
    assert len(asked) == searches
    assert len(proofs) == 2
    for part in parts:
        lines = [LineString(c.path) for c in cuts]
        panels = panels_between(part.concrete, lines)
        assert len(panels) >= 4
        assert max(span_of(p) for p in panels) <= part.working.span * part.stretch + 0.5


def test_it_is_told_which_block_and_which_piece_is_being_laid_out():
    told = []
    floor = slab(ring((0, 0), (200, 0), (200, 90), (170, 120), (0, 120)))
    options = EngineOptions(effort=0.5, progress=told.append)
    solve_large(region_of(floor), Effort(0.5), options)
    for kind in ("block", "piece"):
        own = [sentence for sentence in told if f" {kind} " in sentence]
        assert own == [f"Laying out {kind} {n} of {len(own)}" for n in range(1, len(own) + 1)]
        assert own


def test_a_block_that_has_no_grid_is_laid_out_by_the_general_method(monkeypatch):
    """Every joint in it is divided where it bends: blocks know straight ones."""
    monkeypatch.setattr(blockwise, "solve_exact", lambda *_: None)
    region = region_of(slab(box(20, 10)))
    paths, proof = blockwise._block_paths(region, EngineOptions(), Effort(5.0))
    (path,) = paths
    ends = [place for at in sorted(path) for place in at]
    assert ends == pytest.approx([10 * FOOT, 0.0, 10 * FOOT, 10 * FOOT], abs=0.01)
    assert proof.cost > 0.0


@pytest.mark.parametrize(("reserve", "patience"), [(30.0, [2.0, 2.0]), (3.0, [2.0, 1.0, 0.0, 0.0])])
def test_blocks_share_the_effort_and_what_they_overspend_comes_out_of_one_budget(
    monkeypatch, reserve, patience
):
    """However many differ, they spend no more than the floor may."""
    given = []

    def watched(region, options, effort):
        given.append((effort.left, effort.patience))
        effort.left = (
            -effort.patience - 1.0
        )  # carried on by a second, which is out of the budget already
        return [], Proof(0.0, 0.0)

    monkeypatch.setattr(blockwise, "_block_paths", watched)
    whole = Effort(3.0, patience=2.0, budget=Budget(reserve=reserve))
    columns = tuple(Column(id=f"C{n}", at=feet((11 + 13 * n, 23))[0]) for n in range(11))
    solve_large(region_of(replace(HALL, columns=columns)), whole, EngineOptions())
    assert sum(left for left, _ in given) <= 3.0 + 1e-9
    assert [p for _, p in given][: len(patience)] == patience
    assert whole.budget.reserve == pytest.approx(max(reserve - 2.0 * len(given), 0.0))
