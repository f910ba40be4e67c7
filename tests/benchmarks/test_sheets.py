"""How long sheets take; run with --benchmark-only. Times are shown, ratios are held.

Run as a script for how they grow with the walls of a floor::

    PYTHONPATH=tests python tests/benchmarks/test_sheets.py
"""

import io
import math
import time

import ezdxf
import pytest

from benchmarks.test_engine import growth
from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.files.sheet_svg import svg_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.panel_sheet import panel_sheet
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


CROWD = (100, 200, 400)
"""Walls of the floors that the growth is told of."""


def crowded(walls):
    """A floor with a short wall aslant in every other bay, and a joint under it from edge to edge of the bay.

    Every fifth of these bays is cut small beside the wall, so that some numbers find room on a larger sheet only.
    """
    across = math.ceil(math.sqrt(2 * walls))
    up = math.ceil(2 * walls / across)
    width, height = across * BAY, up * BAY
    lines = [[(i * BAY, 0.0), (i * BAY, height)] for i in range(1, across)]
    lines += [[(0.0, j * BAY), (width, j * BAY)] for j in range(1, up)]
    standing = []
    bays = [(i, j) for j in range(up) for i in range(across) if (i + j) % 2 == 0][:walls]
    for n, (i, j) in enumerate(bays):
        x, y, lean = i * BAY, j * BAY, 0.2 + 0.6 * (n * 7 % 10) / 10
        foot, head = (x + lean * BAY, y), (x + (1 - lean) * BAY, y + BAY)
        lines.append([foot, head])
        if n % 5 == 0:
            level = [(x + k * BAY / 16, y) for k in range(1, 3)]
            lines += [[(a, y), (a, y + BAY)] for a, _ in level]
        path = tuple(
            tuple(a + share * (b - a) for a, b in zip(foot, head, strict=True))
            for share in (0.2, 0.8)
        )
        standing.append(Wall(id=f"W{n + 1}", path=path, thickness=100.0))
    slab = Slab(
        outline=Ring(((0, 0), (width, 0), (width, height), (0, height))),
        thickness=150.0,
        walls=tuple(standing),
    )
    drawn = [(JointKind.CONTROL, Reason.WALL, path) for path in lines]
    return Job(name="Crowd", units=Unit.M, slab=slab), layout_of(slab, drawn)


def every_set(job, layout):
    """Joint plan, cut sheet and panel sheet, as PDF, and the drawing of all of them."""
    rules = SlabRules(rule_set=load("floor"))
    plan = joint_plan(job, layout, (), rules)
    more = [*cut_sheet(job, layout, rules), *panel_sheet(job, layout, (), rules)]
    return pdf_bytes([*plan, *more]), dxf_bytes(job, layout, plan, more)


def test_sheets_of_many_walls_grow_with_the_walls_and_not_with_their_square(benchmark):
    """200 short walls aslant against 100."""
    few, many = crowded(100), crowded(200)
    assert len(many[0].slab.walls) == 200
    every_set(*few)
    ratio = benchmark.pedantic(lambda: spent(every_set, *many) / spent(every_set, *few), rounds=1)
    benchmark.extra_info["growth"] = math.log2(ratio)
    assert ratio < GROWTH * 2


def main():
    """Prints the seconds of the sheets of floors of many walls, and their growth."""
    print("| walls | panels | joints | seconds |")
    print("|---|---|---|---|")
    every_set(*crowded(10))
    points = []
    for walls in CROWD:
        job, layout = crowded(walls)
        seconds = spent(every_set, job, layout)
        print(f"| {walls} | {len(layout.panels)} | {len(layout.joints)} | {seconds:.1f} |")
        points.append((walls, seconds))
    print(f"\nGrowth of the sheets: walls to the power {growth(points):.2f}.")


if __name__ == "__main__":
    main()
