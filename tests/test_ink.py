"""What stands on the sheets of twenty jobs: no text on a text or a line, and in a panel nothing heavier than its joints."""

import math
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
import shapely
from shapely import LineString

from corpus.footprints import footprints, slab_on
from kerfline.app.lay_out import lay_out_job
from kerfline.app.run_mark import marked
from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, JointKind, Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import PENS, Layer, Path
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.sheets.plan_labels import path_line
from kerfline.units import Unit
from shapes import closets, feet, layout_of
from sheet_checks import grid_lines, overlapping_texts, texts_on_lines, texts_outside
from twenty_jobs import JOBS as TWENTY

RULES = SlabRules(rule_set=load("floor"))
BEND = 0.41421356


def turned(points, degrees):
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((x * cos - y * sin, x * sin + y * cos) for x, y in points)


ELL = feet((0, 0), (60, 0), (60, 24), (36, 24), (36, 40), (0, 40))
SLABS = {
    "hall": Slab(outline=Ring(feet((0, 0), (80, 0), (80, 48), (0, 48))), thickness=150.0),
    "ell": Slab(outline=Ring(ELL), thickness=125.0),
    "ell at 27 degrees": Slab(outline=Ring(turned(ELL, 27.0)), thickness=125.0),
    "ell with walls": Slab(
        outline=Ring(ELL),
        thickness=125.0,
        walls=(Wall(id="W1", path=feet((0, 20), (36, 20))), Wall(id="W2", path=feet((20, 20), (20, 40)))),
    ),
    "walk": Slab(
        outline=Ring(
            feet((0, 0), (5, 0), (5, 20), (20, 35), (60, 35), (60, 40), (20, 40), (0, 20)),
            (0, 0, -BEND, 0, 0, 0, BEND, 0),
        ),
        thickness=100.0,
    ),
    "strip": Slab(outline=Ring(feet((0, 0), (200, 0), (200, 6), (0, 6))), thickness=100.0),
    "posts": Slab(
        outline=Ring(feet((0, 0), (60, 0), (60, 40), (0, 40))),
        thickness=150.0,
        columns=tuple(
            Column(id=f"C{n}", at=p) for n, p in enumerate(feet((20, 20), (40, 20)), 1)
        ),
    ),
}  # fmt: skip
CHOICES = {
    "tabloid": (Unit.FT, "tabloid"),
    "arch-d": (Unit.FT, "arch-d"),
    "a3": (Unit.MM, "a3"),
}
JOBS = [(slab, choice) for slab in SLABS for choice in CHOICES]
"""Seven slabs on three papers, in feet and in metric."""


def drawn(name, choice):
    slab = SLABS[name]
    units, size = CHOICES[choice]
    spacing = 3657.6 if units is Unit.FT else 3600.0
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(slab, spacing)]
    layout = layout_of(slab, lines)
    job = Job(name=name, units=units, slab=slab, sheet=SheetChoice(size=size))
    return layout, (
        *joint_plan(job, layout, (), RULES),
        *cut_sheet(job, layout, RULES),
        *panel_sheet(job, layout, (), RULES),
    )


@pytest.mark.parametrize(("name", "choice"), JOBS)
def test_no_text_stands_on_a_text_or_a_line(name, choice):
    for sheet in drawn(name, choice)[1]:
        assert overlapping_texts(sheet) == []
        assert texts_on_lines(sheet) == []


EACH = [(job, size) for job in TWENTY for size in ("letter", "tabloid", "arch-d", "a3")]
SAMPLE = EACH[:: len(EACH) // 3]


def assert_no_text_stands_on_anything(job, size):
    """On the joint plan as the engine lays it out, with its day where the job tells of one."""
    outcome = marked(lay_out_job(replace(job, sheet=SheetChoice(size=size))))
    for sheet in joint_plan(outcome.job, outcome.layout, outcome.findings, outcome.rules):
        assert overlapping_texts(sheet) == []
        assert texts_on_lines(sheet) == []
        assert texts_outside(sheet) == []


@pytest.mark.parametrize(("job", "size"), SAMPLE, ids=lambda v: getattr(v, "name", v))
def test_no_text_stands_on_a_text_or_a_line_of_a_few_jobs(job, size):
    assert_no_text_stands_on_anything(job, size)


@pytest.mark.long
@pytest.mark.parametrize(("job", "size"), EACH, ids=lambda v: getattr(v, "name", v))
def test_no_text_stands_on_a_text_or_a_line_of_twenty_jobs(job, size):
    assert_no_text_stands_on_anything(job, size)


@pytest.mark.parametrize("name", ["buildings-10", "buildings-14", "buildings-38", "buildings-118"])
def test_no_text_stands_on_a_text_or_a_line_of_a_surveyed_slab(name):
    """Small recesses and slanting sides, whose strings stand in one another's way."""
    slab = slab_on(dict(footprints())[name], 150.0)
    assert_no_text_stands_on_anything(Job(name=name, units=Unit.M, slab=slab), "a3")


CLOSETS = closets()


def test_nothing_is_left_without_its_tag_on_paper_that_is_too_small_for_it():
    lines = [(JointKind.CONTROL, Reason.WALL, list(wall.line.coords)) for wall in CLOSETS.walls]
    layout = layout_of(CLOSETS, lines)
    job = Job(name="House", units=Unit.FT, slab=CLOSETS, sheet=SheetChoice(size="letter"))
    sheets = joint_plan(job, layout, (), RULES)
    named = {t.text.split(" ")[0] for s in sheets for t in s.texts if t.in_plan}
    things = [*layout.joints, *layout.panels, *CLOSETS.walls]
    assert {thing.id for thing in things} <= named
    for sheet in sheets:
        assert overlapping_texts(sheet) == []
        assert not [t for t in sheet.texts if "tagged" in t.text]


HALF_SIZE = 0.5
DOTS = 150 / 25.4
"""Dots a millimetre of the half-size print."""


@pytest.mark.parametrize("name", ["hall", "ell with walls", "posts"])
def test_a_joint_is_the_heaviest_thing_in_a_panels_interior(name):
    """On the rendered half-size picture in grey: the ink across a joint against that across anything else nearby."""
    layout, sheets = drawn(name, "arch-d")
    sheet = sheets[0]
    page = pypdfium2.PdfDocument(pdf_bytes(sheets[:1]))[0]
    scale = HALF_SIZE * DOTS * 25.4 / 72
    ink = 255.0 - np.asarray(page.render(scale=scale, grayscale=True).to_numpy()).squeeze()
    dots = HALF_SIZE * DOTS
    joints = shapely.union_all([sheet.view.shape(j.line) for j in layout.joints]).buffer(1.2)
    marks = [
        m for m in sheet.marks
        if isinstance(m, Path) and m.in_view and m.layer in (Layer.WALL, Layer.PANEL, Layer.ZONE)
    ]  # fmt: skip
    along = [_ink_along(ink, line, dots, sheet) for line in _lines_of(layout, sheet)]
    assert min(along) > 60.0
    others = [
        _ink_along(ink, path_line(m).difference(joints), dots, sheet)
        for m in marks
        if path_line(m).difference(joints).length > 5.0
    ]
    assert all(weight < 0.6 * min(along) for weight in others)
    assert PENS[Layer.CONTROL].width >= 0.5


def _lines_of(layout, sheet):
    """Each joint on the paper, off its ends, where other lines meet it."""
    for joint in layout.joints:
        line = sheet.view.shape(joint.line)
        if line.length > 20.0:
            yield shapely.ops.substring(line, 3.0, line.length - 3.0)


def _ink_along(ink, shape, dots, sheet):
    """Mean of the darkest ink across a line, 0 to 255, at points along it."""
    found = []
    for line in [shape] if isinstance(shape, LineString) else list(getattr(shape, "geoms", [])):
        if not isinstance(line, LineString):
            continue
        for at in np.arange(0.0, line.length, 0.7):
            spot = line.interpolate(float(at))
            column = round(spot.x * dots)
            row = round((sheet.paper.height - spot.y) * dots)
            found.append(float(ink[row - 2 : row + 3, column - 2 : column + 3].max()))
    return float(np.mean(found)) if found else 0.0
