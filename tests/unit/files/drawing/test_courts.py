"""Areas within a building that may be courts: walls go all around them and no door leads in, or a word says so."""

from pathlib import Path

import ezdxf
import pytest
from ezdxf import units
from shapely import LineString, Polygon, box

from kerfline.files.drawing import ReadingWishes, SlabOpen, reading
from kerfline.files.drawing.courts import LEAST_COURT, NARROWEST, courts_in
from kerfline.files.drawing.names import names_court
from kerfline.files.drawing.opened import drawing_of

HOUSE = box(0, 0, 24_000, 18_000)
COURT = box(8_000, 6_000, 16_000, 12_000)
WALL = 240


def faces(court=COURT, gap=0.0):
    """The lines of a house's walls around a court, with a gap in the court's wall."""
    floor = Polygon(HOUSE.exterior, [court.exterior])
    bodies = floor.difference(floor.buffer(-WALL, join_style="mitre"))
    middle = court.centroid.x
    bodies = bodies.difference(box(middle - gap / 2, 5_000, middle + gap / 2, 7_000))
    parts = getattr(bodies, "geoms", [bodies])
    return [LineString(r.coords) for b in parts for r in (b.exterior, *b.interiors)]


def test_what_walls_go_all_around_without_a_door_may_be_a_court():
    (found,) = courts_in(HOUSE, faces())
    assert found.symmetric_difference(COURT).area < 1e-3 * COURT.area


@pytest.mark.parametrize(("gap", "count"), [(NARROWEST - 10, 1), (NARROWEST + 10, 0)])
def test_a_gap_of_a_doors_width_makes_it_a_room(gap, count):
    assert len(courts_in(HOUSE, faces(gap=gap))) == count


@pytest.mark.parametrize(("away", "count"), [(590, 0), (610, 1)])
def test_a_door_that_hangs_at_it_makes_it_a_room(away, count):
    assert len(courts_in(HOUSE, faces(), hinges=[(8_000 - away, 9_000)])) == count


def test_a_word_names_a_court_behind_a_door():
    drawn = faces(gap=1_000)
    assert courts_in(HOUSE, drawn) == []
    (found,) = courts_in(HOUSE, drawn, words=[(12_000, 9_000)])
    assert found.symmetric_difference(COURT).area < 1e-3 * COURT.area
    assert courts_in(HOUSE, drawn, words=[(2_000, 2_000)]) == []


def test_a_word_in_a_court_without_a_door_names_the_same_court():
    assert len(courts_in(HOUSE, faces(), words=[(12_000, 9_000)])) == 1


@pytest.mark.parametrize(("side", "count"), [(0.99, 0), (1.01, 1)])
def test_a_flue_is_none(side, count):
    half = side * LEAST_COURT**0.5 / 2
    small = box(12_000 - half, 9_000 - half, 12_000 + half, 9_000 + half)
    assert len(courts_in(HOUSE, faces(small))) == count


def test_rooms_drawn_without_doors_are_none():
    """The floor does not hang together around any of them: the plan shows no doors at all."""
    lines = [*faces(), LineString([(0, 9_000), (8_000, 9_000)])]
    lines.append(LineString([(16_000, 9_000), (24_000, 9_000)]))
    assert courts_in(HOUSE, lines) == []


@pytest.mark.parametrize(
    ("text", "yes"),
    [
        ("COURTYARD", True),
        ("Light well", True),
        ("Cour intérieure", True),
        ("COURT 2", True),
        ("COURTESY DESK", False),
        ("Squash", False),
    ],
)
def test_words_for_courts(text, yes):
    assert names_court(text) is yes


def drawn(*, outline: str = ""):
    """A drawing of the house, the slab's edge on a layer where one is named."""
    document = ezdxf.new(units=units.MM)
    space = document.modelspace()
    for face in faces():
        space.add_lwpolyline(face.coords, dxfattribs={"layer": "A-WALL"})
    if outline:
        space.add_lwpolyline(HOUSE.exterior.coords[:-1], close=True, dxfattribs={"layer": outline})
    return drawing_of(document, Path("house.dxf"))


@pytest.mark.parametrize("outline", ["", "7"])
def test_a_court_is_asked_about_and_taken_as_the_user_says(outline):
    """Around walls, and inside a line of no telling name."""
    drawing = drawn(outline=outline)
    with pytest.raises(SlabOpen) as asked:
        reading(drawing)
    assert "which walls go all around: a court or a shaft" in str(asked.value)
    courts = {c.number: c for c in asked.value.candidates}
    with_court = next(n for n, c in courts.items() if c.courts)
    parts = reading(drawing, ReadingWishes(slab=with_court)).parts
    assert sum(o.polygon.area for o in parts.openings) == pytest.approx(COURT.area, rel=1e-3)
    without = next(n for n, c in courts.items() if not c.courts)
    assert reading(drawing, ReadingWishes(slab=without)).parts.openings == ()


def test_a_point_in_the_court_says_that_it_is_floor():
    drawing = drawn()
    inside = reading(drawing, ReadingWishes(at=(12_000, 9_000))).parts
    assert inside.openings == ()


def test_the_slabs_own_line_shows_no_court_and_is_believed():
    assert reading(drawn(outline="S-SLAB-EDGE")).parts.openings == ()
