"""How long sheets take; run with --benchmark-only."""

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
