"""The cut sheet's table and lists in words."""

import re
from dataclasses import replace

import pytest
import shapely

from kerfline.geometry.ring import Ring
from kerfline.model.day import SawMethod
from kerfline.model.slab import Slab
from kerfline.placement.cut_ends import EndAt, SawnEnd
from kerfline.placement.kerf import cut_end
from kerfline.sheets.baselines import Baselines, baselines, way_of
from kerfline.sheets.cut.lines import ALONG_WALL, CutLine, Saw
from kerfline.sheets.cut.words import (
    before_walls,
    by_hand,
    corner_name,
    cut_table,
    ends_words,
    squareness,
    start_name,
    totals,
)
from kerfline.units import MM_PER_FOOT, Display, Unit
from shapes import workshop_job, workshop_layout
from workshop_cuts import words_of


def test_totals_of_a_placement_are_of_its_own_lines_and_name_the_blade(areas, sets):
    for area, sheets in zip(areas, sets, strict=True):
        length = sum(one.sawn.line.length for one in area.passes) / MM_PER_FOOT
        said = re.search(r"slab: (\d+) lines?, ([\d.]+) ft", words_of(sheets))
        assert int(said[1]) == len(area.passes)
        assert float(said[2]) == pytest.approx(length, abs=0.6)
        assert 'blade 10"' in words_of(sheets)


BASE = Baselines(origin=(0, 0), turn=0.0, corner=True)
FREE = SawnEnd(joint="J1", at=(0, 0), meets=EndAt.FREE_EDGE, cut=cut_end(355.6, 25.4))


def cut(number, start, end, **more):
    line = shapely.LineString([start, end])
    values = {
        "number": number, "joint": f"J{number}", "line": line, "start": start, "end": end, "depth": 25.4,
        "thickness": 101.6, "covered": 0.0, "window": "", "ends": (FREE, FREE), "formed": (False, False),
        "way": way_of(line),
    }  # fmt: skip
    return CutLine(**{**values, **more})


def cells(one):
    table = cut_table(
        workshop_job(Unit.MM), [one], Saw(method=SawMethod.CONVENTIONAL, blade=355.6), 2.5
    )
    return table.rows[0]


def test_a_square_line_is_told_by_its_place_and_its_ends_and_a_slanting_one_by_both_offsets():
    assert cells(cut(1, (3000, 0), (3000, 8000)))[2:6] == ("3000 right", "0 up", "8000 up", "8000")
    assert cells(cut(1, (0, 2500), (9000, 2500)))[2:6] == (
        "2500 up",
        "0 right",
        "9000 right",
        "9000",
    )
    slanting = cells(cut(1, (0, 0), (3000, 4000)))
    assert slanting[2:6] == ("slanting", "0 right, 0 up", "3000 right, 4000 up", "5000")
    bent = cut(1, (0, 0), (3000, 4000), knees=((1000, 3000),))
    assert cells(bent)[2] == "bent"
    assert "bends at" in ends_words(bent, Display.METRIC)


def test_what_stands_at_an_end_is_said_and_nothing_of_a_free_edge():
    def said(meets, formed=False):
        end = replace(FREE, meets=meets)
        return ends_words(
            cut(1, (0, 0), (0, 900), ends=(end, FREE), formed=(formed, False)), Display.METRIC
        )

    assert said(EndAt.FREE_EDGE) == "runs out"
    assert said(EndAt.JOINT) == "start on a joint"
    assert said(EndAt.WALL).startswith("start stops short at wall: leaves ")
    assert said(EndAt.BOXOUT).startswith("start: boxout, stop at its edge")
    assert said(EndAt.OPENING) == "start: opening, do not run past a corner"
    assert said(EndAt.FREE_EDGE, formed=True) == "start at construction joint"


def test_totals_are_by_depth_and_thickness():
    job = workshop_job(Unit.MM)
    saw = Saw(method=SawMethod.CONVENTIONAL, blade=355.6)
    cuts = [
        cut(1, (0, 0), (0, 6000)),
        cut(2, (0, 0), (0, 4000)),
        cut(3, (0, 0), (0, 3000), depth=38.0, thickness=152.0),
    ]
    said = totals(job, cuts, saw, 2.5, 90.0).paragraphs
    assert said[0] == "25 mm deep in 102 mm slab: 2 lines, 10.0 m"
    assert said[1] == "38 mm deep in 152 mm slab: 1 line, 3.0 m"
    assert said[2].startswith("Saw: conventional, blade 356 mm")
    assert totals(job, [], saw, 2.5, 90.0).paragraphs == ("No line is sawn.",)


@pytest.mark.parametrize(
    ("numbers", "said"),
    [((3,), "Cut 3 ends"), ((3, 4), "Cuts 3, 4 end"), ((3, 5, 6, 7), "Cuts 3, 5 to 7 end")],
)
def test_cuts_to_finish_by_hand_are_named(numbers, said):
    wall = replace(FREE, meets=EndAt.WALL)
    cuts = [cut(n, (0, 0), (0, 900), ends=(FREE, wall)) for n in numbers]
    assert by_hand(cuts, 2.5, 90.0).paragraphs[0].startswith(f"{said} at a wall or a boxout.")
    assert by_hand([cut(1, (0, 0), (0, 900))], 2.5, 90.0) is None


@pytest.mark.parametrize(
    ("covered", "words", "row"),
    [
        (1000 * ALONG_WALL, "a wall will stand on it.", "cut before the wall stands"),
        (1000 * ALONG_WALL - 1, "on a short piece of it.", "runs out"),
    ],
)
def test_a_line_under_a_wall_is_told_from_one_that_only_ends_there(covered, words, row):
    line = cut(1, (0, 0), (0, 1000), covered=covered)
    said = before_walls(workshop_job(), [line], 2.5, 90.0)
    assert said.paragraphs[0].endswith(words)
    assert ends_words(line, Display.METRIC) == row
    assert before_walls(workshop_job(), [cut(1, (0, 0), (0, 1000))], 2.5, 90.0) is None


def test_offsets_start_at_a_corner_or_where_both_baselines_meet():
    assert start_name(None, BASE) == "corner A"
    assert start_name(None, replace(BASE, corner=False)) == "point A"
    assert corner_name(None) == "A"


def test_a_slab_without_a_rectangle_at_its_corner_is_squared_by_three_four_five():
    job, layout = workshop_job(), workshop_layout()
    said = squareness(job, layout, baselines(job.slab), None, 2.5, 90.0).paragraphs
    assert said[0].startswith("Corner A, ")
    triangle = replace(
        job, slab=Slab(outline=Ring(((0, 0), (9000, 4000), (4000, 9000))), thickness=100)
    )
    bare = squareness(
        triangle, replace(layout, joints=()), baselines(triangle.slab), None, 2.5, 90.0
    )
    assert bare.paragraphs == ("Square the first line off the longest straight edge by 3-4-5.",)
