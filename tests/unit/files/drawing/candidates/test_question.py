"""The question which outline is the slab's, in words that can be answered."""

from pathlib import Path

from drawn_curves import box, box_ring, closed
from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source
from kerfline.files.drawing.candidates.decide import Decision
from kerfline.files.drawing.candidates.question import court_words, described, slab_question
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import drawn_unit
from kerfline.units import Display

METRIC = Display.METRIC


def candidate(number, *, layers=("SLAB",), signs=(), inside="", courts=(), x=0.0):
    return Candidate(
        ring=box_ring(x, 0, 9000, 6000), layers=layers, source=Source.CLOSED, number=number,
        signs=signs, inside=inside, courts=courts,
    )  # fmt: skip


def asked(*candidates, why="two outlines can be the slab", others="", notes=()):
    drawing = Drawing(
        path=Path("plan.dxf"), curves=(closed("SLAB", *box(0, 0, 9000, 6000)),),
        drawn_in=drawn_unit("mm"), notes=notes,
    )  # fmt: skip
    return slab_question(drawing, Decision(candidates=candidates, why=why), others)


def test_a_candidate_is_a_line_with_its_number_size_and_layers():
    words = described(candidate(2), METRIC)
    assert (
        words
        == "2. 9000 mm x 6000 mm, 54.00 m2 at (4500 mm, 3000 mm); closed outline on layer SLAB"
    )


def test_what_lies_in_it_and_the_gravest_doubt_are_said():
    signs = (Sign(points=-1, words="it is small"), Sign(points=-9, words="it is a border"))
    words = described(candidate(1, signs=signs, inside="2 columns"), METRIC)
    assert words.endswith("in it 2 columns; but it is a border")


def test_more_than_three_layers_are_counted():
    assert "on layers A, B, C;" in described(candidate(1, layers=tuple("ABC"), inside="x"), METRIC)
    assert "on layers A, B, C and 2 more" in described(candidate(1, layers=tuple("ABCDE")), METRIC)


def test_courts_are_told_by_size_and_place():
    one = candidate(1, courts=(box_ring(1000, 1000, 2000, 2000),))
    assert court_words(candidate(1), METRIC) == ""
    assert court_words(one, METRIC) == (
        "without 4.00 m2 at (2000 mm, 2000 mm), which walls go all around: a court or a shaft"
    )
    assert "50.00 m2" in described(one, METRIC)


def test_the_question_lists_every_candidate_and_how_to_answer():
    question = asked(candidate(1), candidate(2, x=20000.0))
    assert [c.number for c in question.candidates] == [1, 2]
    head, *lines = question.mistakes
    assert "say which, as --slab 1, or --slab-at" in head.remedy
    assert [m.what[:2] for m in lines] == ["1.", "2."]


def test_slabs_side_by_side_can_all_be_taken():
    assert "--slab all" in asked(candidate(1), why="2 slabs lie side by side").mistakes[0].remedy
    assert "--slab all" not in asked(candidate(1)).mistakes[0].remedy


def test_without_candidates_it_says_what_to_draw():
    (only,) = asked(why="nothing closes").mistakes
    assert only.what == "nothing closes"
    assert "draw the slab's edge as one closed outline" in only.remedy


def test_other_layers_and_what_is_missing_are_told_too():
    notes = ("The drawing x.dwg is attached and not in this file.", "Another note.")
    said = [m.what for m in asked(candidate(1), others="walls on A", notes=notes).mistakes]
    assert "beside the slab: walls on A" in said
    assert "The drawing x.dwg is attached and not in this file" in said
    assert not any("Another" in each for each in said)
