"""Typical details are drawn to their scale and only where the layout has what they show."""

from dataclasses import replace

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.day import MaterialChoice, SteelChoice
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import Boxout, Column, Edge, EdgeKind, JointKind, Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.detail_marks import trade_size
from kerfline.sheets.details import detail_numbers, details
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Board, Fill, Layer, Path
from kerfline.units import Display, Unit
from shapes import layout_of, workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))


def drawn(job, layout):
    out = []
    for figure in details(job, layout, RULES, 2.4):
        board = Board()
        figure.draw(board, (0.0, 0.0), 64.0)
        out.append((board, [m.text for m in board if hasattr(m, "text")]))
    return out


def titles(job, layout):
    return [words[0] for _, words in drawn(job, layout)]


def test_a_layout_with_everything_has_every_detail():
    assert titles(workshop_job(), workshop_layout()) == [
        "1  Control joint (CTLJ)",
        "2  Construction joint (CNTJ)",
        "3  Isolation joint (ISOL)",
        "4  Column boxout (plan)",
        "5  Bars at a corner (plan)",
    ]


def test_every_detail_is_called_out_by_its_number_on_the_plan():
    job, layout = workshop_job(), workshop_layout()
    words = {t.text for s in joint_plan(job, layout, (), RULES) for t in s.texts}
    for shown, number in detail_numbers(job, layout).items():
        assert any(w.endswith((f": detail {number}", f"detail {number}")) for w in words), shown
    assert len(detail_numbers(job, layout)) == len(details(job, layout, RULES, 2.4)) == 5


@pytest.mark.parametrize(
    ("mm", "inches", "metric"),
    [
        (12.7, '1/2"', "12 mm"),
        (19.05, '3/4"', "20 mm"),
        (15.875, '5/8"', "16 mm"),
        (914.4, '36"', "900 mm"),
    ],
)
def test_figures_of_details_are_sizes_of_their_trade(mm, inches, metric):
    """Metric bars of 12, 16 and 20 mm stand for No. 4, 5 and 6 (common practice)."""
    assert trade_size(mm, Display.FEET_INCHES) == inches
    assert trade_size(mm, Display.METRIC) == metric


def test_a_bare_slab_has_none():
    slab = Slab(outline=Ring(((0, 0), (3000, 0), (3000, 3000), (0, 3000))), thickness=100.0)
    assert titles(Job(name="Bare", units=Unit.M, slab=slab), layout_of(slab, [])) == []


@pytest.mark.parametrize(("units", "scale"), [(Unit.FT, 8.0), (Unit.MM, 10.0)])
def test_the_saw_cut_is_drawn_to_scale(units, scale):
    board, _ = drawn(workshop_job(units), workshop_layout())[0]
    cut = next(m for m in board if isinstance(m, Fill) and m.layer is Layer.DETAIL)
    heights = [y for _, y in cut.rings[0]]
    assert (max(heights) - min(heights)) * scale == pytest.approx(25.4)
    faces = [m.points for m in board if isinstance(m, Path) and m.width == 0.5]
    assert abs(faces[0][0][1] - faces[1][0][1]) * scale == pytest.approx(101.6)


def test_a_thick_slab_shows_the_dowel_of_the_trade_table():
    """6 in: 3/4 in x 14 in at 12 in (trade question-and-answer page on floor dowels)."""
    job = workshop_job()
    job = replace(job, slab=replace(job.slab, thickness=152.4))
    board, words = drawn(job, workshop_layout())[1]
    said = " ".join(words)
    assert '3/4" round, 14" long, 12" apart' in said
    bar = next(m for m in board if isinstance(m, Fill))
    xs = [x for x, _ in bar.rings[0]]
    ys = [y for _, y in bar.rings[0]]
    assert (max(ys) - min(ys)) * 8.0 == pytest.approx(0.75 * 25.4)
    assert (max(xs) - min(xs)) * 8.0 == pytest.approx(14 * 25.4, rel=0.06)


def test_every_detail_stays_in_its_column():
    for board, _ in drawn(workshop_job(), workshop_layout()):
        xs = [x for m in board if isinstance(m, Path) for x, _ in m.points]
        assert min(xs) >= 0.0
        assert max(xs) <= 64.0


def words_of(job, layout, number):
    return " ".join(drawn(job, layout)[number - 1][1])


def test_what_lies_in_and_under_the_slab_is_drawn_and_told_where_the_job_says_it():
    order = MaterialChoice(base_depth=101.6, retarder_roll=3657.6, mat_spacing=406.4, mat_bar=4)
    bare, told = workshop_job(), replace(workshop_job(), order=order)
    layout = workshop_layout()
    for number in (1, 2, 3):
        assert "base" not in words_of(bare, layout, number)
        said = words_of(told, layout, number)
        assert 'On a vapour retarder, laps 6", over 4" of compacted base.' in said
        assert 'No. 4 bars 16" apart each way in the upper third' in said
        lowest = [
            min(y for m in board if isinstance(m, Path) for _, y in m.points)
            for board, _ in (drawn(bare, layout)[number - 1], drawn(told, layout)[number - 1])
        ]
        assert lowest[1] <= lowest[0]


def test_the_base_is_drawn_to_scale():
    """4 in of base at 1 1/2" = 1'-0" is 1/2 in of paper below the slab's underside."""
    job = replace(workshop_job(), order=MaterialChoice(base_depth=101.6))
    board, _ = drawn(job, workshop_layout())[0]
    under = min(m.points[0][1] for m in board if isinstance(m, Path) and m.width == 0.5)
    foot = min(
        m.points[0][1]
        for m in board
        if isinstance(m, Path) and m.width == 0.18 and len(m.points) == 2
    )
    assert under - foot == pytest.approx(101.6 / 8)


def test_a_turned_down_edge_and_a_thickened_strip_have_their_details():
    job = workshop_job()
    wall = Wall(
        id="W1",
        path=((0.0, 3000.0), (9000.0, 3000.0)),
        bearing=True,
        strip_width=406.4,
        strip_depth=304.8,
    )
    edge = Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, width=304.8, depth=457.2)
    job = replace(job, slab=replace(job.slab, edges=(edge,), walls=(wall,)))
    found = titles(job, workshop_layout())
    assert found[-2:] == ["6  Turned-down edge", "7  Thickened strip under a wall"]


def test_each_detail_is_called_out_once_on_the_plan():
    job, layout = workshop_job(), workshop_layout()
    sheet = joint_plan(job, layout, (), RULES)[0]
    called = [t.text for t in sheet.texts if t.ref.startswith("detail ") and t.in_plan]
    assert sorted(called) == [f"{n}" for n in detail_numbers(job, layout).values()]


@pytest.mark.parametrize("display", [Unit.FT, Unit.M])
def test_large_things_are_drawn_smaller_so_that_their_details_fit_the_column(display):
    """A boxout of 16 ft, bars of 20 ft, an edge 5 ft deep, a strip 10 ft wide: each is no wider than its column."""
    column = Column(id="C1", at=(9000.0, 6000.0), boxout=Boxout.CIRCLE, size=4877.0)
    edge = Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, depth=1524.0, width=1800.0)
    wall = Wall(
        id="W1", path=((0.0, 3000.0), (18000.0, 3000.0)), strip_width=3048.0, strip_depth=1200.0
    )
    slab = Slab(
        outline=Ring(((0, 0), (18000, 0), (18000, 12000), (0, 12000))),
        thickness=127.0,
        columns=(column,),
        edges=(edge,),
        walls=(wall,),
    )
    job = Job(
        name="Large", units=display, slab=slab, steel=SteelChoice(bar_length=6096.0, tee_bars=3)
    )
    lines = [
        (JointKind.CONTROL, Reason.SPAN, [(4500.0, 0.0), (4500.0, 6000.0)]),
        (JointKind.CONTROL, Reason.SPAN, [(0.0, 6000.0), (9000.0, 6000.0)]),
    ]
    figures = details(job, layout_of(slab, lines), RULES, 2.4)
    assert len(figures) == len(detail_numbers(job, layout_of(slab, lines))) >= 5
    for figure in figures:
        board = Board()
        figure.draw(board, (0.0, 0.0), 64.0)
        spots = [p for m in board if isinstance(m, Path) for p in m.points]
        assert min(x for x, _ in spots) >= -0.01
        assert max(x for x, _ in spots) <= 64.01
        assert figure.tall <= 150.0
