"""Details in section, on the ground that the job tells of."""

from dataclasses import replace

import pytest

from checked import rules
from kerfline.model.layout import Dowels
from kerfline.model.slab import Edge, EdgeKind, Wall
from kerfline.sheets.marks import Board, Layer
from kerfline.sheets.section_details import (
    construction_detail,
    control_detail,
    edge_detail,
    isolation_detail,
    strip_detail,
)
from kerfline.units import Unit
from shapes import workshop_job, workshop_slab
from views import fills, paths

SCALE = 8.0
THICK = 101.6 / SCALE


def drawn(detail):
    board = Board()
    detail.draw(board, (100.0, 100.0))
    return board


def test_a_saw_cut_is_as_deep_as_the_rules_say_at_scale():
    detail = control_detail(workshop_job(), rules())
    cut = fills(drawn(detail))[0].rings[0]
    ys = [y for _, y in cut]
    assert (max(ys), min(ys)) == (100.0, pytest.approx(100.0 - 25.4 / SCALE))
    assert detail.words.startswith('Saw cut 1" deep in a 4" slab; the crack forms below it.')
    assert detail.scale == SCALE
    assert control_detail(workshop_job(Unit.MM), rules()).scale == 10.0


def test_a_filled_joint_says_its_filler():
    steel = replace(workshop_job().steel, filler_width=6.35, filler_depth=25.4)
    job = replace(workshop_job(), steel=steel, order=replace(workshop_job().order, backer_rod=True))
    assert 'Filled 1/4" wide, 1" deep over a backer rod.' in control_detail(job, rules()).words
    half = replace(workshop_job(), steel=replace(steel, filler_depth=None))
    assert "Filled" not in control_detail(half, rules()).words


def test_dowels_stand_in_a_bulkhead_where_they_are_asked():
    asked = Dowels(count=4, diameter=19.05, length=406.4, spacing=304.8)
    told = construction_detail(workshop_job(), asked)
    assert 'Dowels 3/4" round, 16" long, 12" apart, at mid-depth' in told.words
    middle = fills(drawn(told))[-1].rings[0]
    assert sum(y for _, y in middle) / 4 == pytest.approx(100.0 - THICK / 2)
    thick = replace(workshop_job(), slab=replace(workshop_slab(), thickness=203.2))
    assert "Where dowels are asked:" in construction_detail(thick, None).words


def test_filler_is_as_thick_as_the_job_says_through_the_full_depth():
    job = replace(workshop_job(), steel=replace(workshop_job().steel, isolation=25.4))
    strip = next(
        m for m in drawn(isolation_detail(job)) if getattr(m, "layer", None) is Layer.ISOLATION
    )
    xs, ys = zip(*strip.rings[0], strict=True)
    assert max(xs) - min(xs) == pytest.approx(25.4 / SCALE)
    assert max(ys) - min(ys) == pytest.approx(THICK)
    assert 'Filler 1/2" through the full depth' in isolation_detail(workshop_job()).words


def test_a_turned_edge_and_a_strip_have_their_sizes():
    edge = Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, width=304.8, depth=457.2)
    detail = edge_detail(workshop_job(), edge)
    assert '12" wide at its foot, 18" deep in all' in detail.words
    assert min(y for m in paths(drawn(detail)) for _, y in m.points) == pytest.approx(
        100 - 457.2 / detail.scale, abs=0.6
    )
    wall = Wall(id="W1", path=((0, 0), (9, 0)), strip_width=304.8, strip_depth=203.2)
    assert 'Strip 12" wide, 8" deep in all' in strip_detail(workshop_job(), wall).words


def test_the_ground_is_drawn_and_told_below():
    job = replace(workshop_job(), order=replace(workshop_job().order, base_depth=101.6))
    with_base, bare = control_detail(job, rules()), control_detail(workshop_job(), rules())
    assert with_base.words == f'{bare.words} On 4" of compacted base.'
    assert with_base.tall == pytest.approx(bare.tall + 101.6 / SCALE)
