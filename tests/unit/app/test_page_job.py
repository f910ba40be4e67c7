"""A page of a PDF as a drawing: its scale gives the unit, and a guess at its outline is asked about."""

from types import SimpleNamespace

import pytest
from reportlab.pdfgen.canvas import Canvas
from shapely.geometry import box

from kerfline.app import page_job
from kerfline.app.page_job import AROUND, UNNAMED, page_of, taken_from_page
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.files.drawing import SlabOpen
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.decide import Decision
from kerfline.geometry.ring import Ring
from kerfline.units import Unit


@pytest.fixture
def paper(tmp_path):
    """A rectangle of 288 x 216 points: 4 x 3 in on paper."""
    canvas = Canvas(str(tmp_path / "plan.pdf"), pagesize=(600, 600))
    canvas.rect(100, 100, 288, 216)
    canvas.save()
    return tmp_path / "plan.pdf"


def test_the_scale_makes_inches_on_paper_into_feet(paper):
    """At 1/8 in to the foot 4 in are 32 ft; the unit was for the page and is not said again."""
    said = Wishes(units=Unit.FT, page=1, scale="1/8 in = 1 ft", thickness="4 in")
    drawing, rest = page_of(paper, said)
    x0, y0, x1, y1 = drawing.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((32 * 304.8, 24 * 304.8), rel=1e-4)
    assert (rest.units, rest.drawn_in, rest.thickness) == (None, "", "4 in")


def test_a_page_without_a_scale_asks_for_it(paper):
    with pytest.raises(InputRefused, match="scale"):
        page_of(paper, Wishes(page=1))


@pytest.fixture
def drawing(paper):
    return page_of(paper, Wishes(page=1, scale="1:100"))[0]


def candidate(number, bounds, source=Source.CLOSED, layers=("1",)):
    ring = Ring.of(box(*(1000.0 * c for c in bounds)))
    return Candidate(ring=ring, layers=layers, source=source, number=number)


def look(drawing, slab, *others):
    decision = Decision(candidates=(slab, *others), slab=slab)
    return SimpleNamespace(drawing=drawing, slab=slab, proposal=SimpleNamespace(decision=decision))


OUTER = (0, 0, 12, 8)
WELL_INSIDE = (0.5, 0.5, 11.5, 7.5)
ON_A_LEDGE = (0.15, 0.15, 11.85, 7.85)
FAR_INSIDE = (2, 2, 8, 6)


def test_outer_faces_of_what_may_be_walls_are_a_guess(drawing):
    guess = candidate(1, OUTER, Source.WALLS)
    with pytest.raises(SlabOpen, match=UNNAMED):
        taken_from_page(look(drawing, guess), Wishes())


def test_an_outline_well_around_walls_may_be_a_roof(drawing):
    walls = candidate(2, WELL_INSIDE, Source.WALLS)
    with pytest.raises(SlabOpen, match=AROUND):
        taken_from_page(look(drawing, candidate(1, OUTER), walls), Wishes())


@pytest.mark.parametrize(
    ("outline", "inside"),
    [
        (candidate(1, OUTER), candidate(2, ON_A_LEDGE, Source.WALLS)),
        (candidate(1, OUTER), candidate(2, FAR_INSIDE, Source.WALLS)),
        (candidate(1, OUTER), candidate(2, WELL_INSIDE)),
        (candidate(1, OUTER, layers=("S-SLAB-EDGE",)), candidate(2, WELL_INSIDE, Source.WALLS)),
    ],
    ids=["bricks stand on the edge", "a building on its site", "no walls", "named"],
)
def test_other_outlines_are_taken_as_a_drawings_are(drawing, monkeypatch, outline, inside):
    taken = []
    monkeypatch.setattr(page_job, "taken_by", lambda look, _: taken.append(look.slab.number))
    taken_from_page(look(drawing, outline, inside), Wishes())
    assert taken == [1]


@pytest.mark.parametrize(
    "said", [{"slab": "1"}, {"slab_at": "1 m, 1 m"}, {"layers": (("walls", ("1",)),)}]
)
def test_what_the_user_chose_is_no_guess(drawing, monkeypatch, said):
    monkeypatch.setattr(page_job, "taken_by", lambda look, _: look.slab.number)
    assert taken_from_page(look(drawing, candidate(1, OUTER, Source.WALLS)), Wishes(**said)) == 1
