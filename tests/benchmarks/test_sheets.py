"""How long sheets take; run with --benchmark-only. Times are shown, ratios are held."""

import io
import time

import ezdxf
import pytest

from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.files.sheet_svg import svg_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Unit
from shapes import layout_of

BAY = 4500.0

GROWTH = 2.0
"""Ten times the joints may take this many times ten times as long: trees, and the noise of the machine."""

PLAIN = 3.0
"""The whole set may take so many times as long as the library alone needs for a DXF of as many texts."""


def floor(bays):
    """A floor whose joints are chopped at every crossing: 51 bays have 5,100 joints."""
    side = bays * BAY
    slab = Slab(outline=Ring(((0, 0), (side, 0), (side, side), (0, side))), thickness=150.0)
    lines = [
        (JointKind.CONTROL, Reason.SPAN, path)
        for j in range(1, bays)
        for i in range(bays)
        for path in (
            [(i * BAY, j * BAY), ((i + 1) * BAY, j * BAY)],
            [(j * BAY, i * BAY), (j * BAY, (i + 1) * BAY)],
        )
    ]
    return Job(name="Floor", units=Unit.M, slab=slab), layout_of(slab, lines)


def whole_set(job, layout):
    sheets = joint_plan(job, layout, (), SlabRules(rule_set=load("floor")))
    return (
        pdf_bytes(sheets),
        [svg_bytes(s) for s in sheets],
        dxf_bytes(job, layout, sheets),
        flat_dxf_bytes(job, layout, sheets),
    )


@pytest.mark.parametrize("bays", [7, 16, 51])
def test_whole_set_of_sheets(benchmark, bays):
    job, layout = floor(bays)
    assert len(layout.joints) == 2 * bays * (bays - 1)
    benchmark.pedantic(whole_set, args=(job, layout), rounds=1)


def spent(work, *args):
    """Processor time of a piece of work, seconds, whatever else the machine does."""
    start = time.process_time()
    work(*args)
    return time.process_time() - start


def test_the_set_grows_with_the_joints_and_not_with_their_square(benchmark):
    """5,100 joints against 480."""
    small, large = floor(16), floor(51)
    ratio = benchmark.pedantic(
        lambda: spent(whole_set, *large) / spent(whole_set, *small), rounds=1
    )
    assert ratio < GROWTH * 5100 / 480


def plain_dxf(count):
    """As many texts as a library writes one by one."""
    document = ezdxf.new("R2010")
    space = document.modelspace()
    for n in range(count):
        space.add_text(f"J{n}", height=2.5, dxfattribs={"layer": "0"}).set_placement((n, n))
    document.write(io.StringIO())


def test_the_set_costs_little_more_than_its_texts_alone(benchmark):
    """Plan, PDF, SVG and two DXF of 5,100 joints against one bare DXF of the texts of the sheets."""
    job, layout = floor(51)
    sheets = joint_plan(job, layout, (), SlabRules(rule_set=load("floor")))
    texts = sum(len(sheet.texts) for sheet in sheets)
    ratio = benchmark.pedantic(
        lambda: spent(whole_set, job, layout) / spent(plain_dxf, texts), rounds=1
    )
    assert ratio < PLAIN
