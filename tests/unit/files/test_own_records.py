"""Our own drawings read again: unit, thickness, zones, keep-outs, walls and edges without a word beside them."""

import ezdxf
import pytest
import shapely

from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.files.own_records import millimetres_in_unit
from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import (
    Edge,
    EdgeKind,
    Fall,
    KeepOut,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
    Zone,
)
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Unit
from shapes import feet

RULES = SlabRules(rule_set=load("floor"))
SLAB = Slab(
    outline=Ring(feet((0, 0), (60, 0), (60, 24), (36, 24), (36, 40), (0, 40))),
    thickness=127.0,
    walls=(
        Wall(
            id="W1", path=feet((0, 24), (36, 24)), bearing=True, strip_width=406.4,
            strip_depth=304.8, strip_slope=1.0,
        ),
    ),
    zones=(Zone(id="pad", outline=Ring(feet((0, 0), (15, 0), (15, 24), (0, 24))), thickness=203.2),),
    keep_outs=(
        KeepOut(id="K1", outline=Ring(feet((40, 2), (55, 2), (55, 10), (40, 10))), what="tubing", cover=76.2),
        KeepOut(id="K2", outline=Ring(feet((4, 30), (10, 30), (10, 36), (4, 36))), what="conduit"),
    ),
    penetrations=(Penetration(id="N1", at=feet((24, 30))[0], diameter=50.8, kind=PenetrationKind.DRAIN),),
    edges=(
        Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, depth=457.2, width=304.8, slope=0.5),
        Edge(ring=0, segment=1, kind=EdgeKind.ISOLATED),
    ),
)  # fmt: skip


@pytest.fixture(scope="module", params=[Unit.FT, Unit.MM])
def drawn(request, tmp_path_factory):
    job = Job(name="Yard", units=request.param, slab=SLAB)
    outcome = lay_out_job(job)
    sheets = joint_plan(job, outcome.layout, outcome.findings, RULES)
    folder = tmp_path_factory.mktemp("drawn")
    for name, body in (
        ("plan.dxf", dxf_bytes(job, outcome.layout, sheets)),
        ("flat.dxf", flat_dxf_bytes(job, outcome.layout, sheets)),
    ):
        (folder / name).write_bytes(body)
    return outcome, folder


@pytest.mark.parametrize("name", ["plan.dxf", "flat.dxf"])
def test_everything_that_lines_do_not_tell_is_read_again(drawn, name):
    outcome, folder = drawn
    read = open_job(folder / name, Wishes())
    slab = read.slab
    assert read.units.display is outcome.job.display
    assert slab.thickness == pytest.approx(127.0)
    assert slab.concrete.area == pytest.approx(SLAB.concrete.area, rel=1e-6)
    (zone,) = slab.zones
    assert (zone.id, zone.thickness) == ("pad", pytest.approx(203.2))
    assert zone.outline.polygon.area == pytest.approx(SLAB.zones[0].outline.polygon.area)
    assert [(k.id, k.what, k.cover) for k in slab.keep_outs] == [
        ("K1", "tubing", pytest.approx(76.2)), ("K2", "conduit", None)
    ]  # fmt: skip
    (wall,) = slab.walls
    assert (wall.bearing, wall.strip_width, wall.strip_depth, wall.strip_slope) == (
        True, pytest.approx(406.4), pytest.approx(304.8), pytest.approx(1.0)
    )  # fmt: skip
    (hole,) = slab.penetrations
    assert (hole.kind, hole.diameter) == (PenetrationKind.DRAIN, pytest.approx(50.8))
    edges = {e.kind: e for e in slab.edges}
    assert set(edges) == {EdgeKind.TURNDOWN, EdgeKind.ISOLATED}
    assert edges[EdgeKind.TURNDOWN].depth == pytest.approx(457.2)
    for kind, own in edges.items():
        given = next(e for e in SLAB.edges if e.kind is kind)
        ends = {
            frozenset((round(x), round(y)) for x, y in (p, q))
            for s, e in ((slab, own), (SLAB, given))
            for p, q in [segment(s, e)]
        }
        assert len(ends) == 1


def segment(slab, edge):
    points = slab.outline.points
    return points[edge.segment], points[(edge.segment + 1) % len(points)]


@pytest.mark.parametrize("name", ["plan.dxf", "flat.dxf"])
def test_every_joint_that_is_read_again_has_its_kind_and_depth(drawn, name):
    outcome, folder = drawn
    read = open_job(folder / name, Wishes())
    assert read.slab.pinned
    lines = [(j.line, j.kind, j.depth) for j in outcome.layout.joints]
    for joint in read.slab.pinned:
        x, y = ((a + b) / 2 for a, b in zip(joint.path[0], joint.path[-1], strict=True))
        kinds = {k for line, k, _ in lines if line.distance(shapely.Point(x, y)) < 60.0}
        assert joint.kind in kinds
        assert joint.depth is not None or joint.kind.value != "control"


def test_a_drawing_that_was_scaled_is_read_in_its_new_unit(drawn):
    """A program that scales the plan scales its lengths of extended data with it: feet become the unit."""
    outcome, folder = drawn
    if outcome.job.units is not Unit.FT:
        pytest.skip("one unit is enough")
    document = ezdxf.readfile(folder / "flat.dxf")
    edge = next(e for e in document.modelspace().query("POLYLINE") if e.dxf.layer == "S-SLAB-EDGE")
    tags = [
        (t.code, t.value / 12 if t.code == 1041 else t.value) for t in edge.get_xdata("KERFLINE")
    ]
    edge.set_xdata("KERFLINE", tags)
    assert millimetres_in_unit(edge) == pytest.approx(304.8)


def test_a_record_that_makes_no_sense_is_passed_over(drawn, tmp_path):
    _, folder = drawn
    document = ezdxf.readfile(folder / "plan.dxf")
    for entity in document.modelspace().query("LWPOLYLINE"):
        if entity.dxf.layer == "S-SLAB-ZONE" and entity.has_xdata("KERFLINE"):
            entity.set_xdata("KERFLINE", [(1000, "zone:"), (1040, -4.0)])
    document.saveas(tmp_path / "plan.dxf")
    read = open_job(tmp_path / "plan.dxf", Wishes())
    assert read.slab.zones == ()
    assert read.slab.thickness == pytest.approx(127.0)


@pytest.mark.parametrize("draw", [dxf_bytes, flat_dxf_bytes])
def test_joints_that_bend_are_read_again_as_the_joints_they_are(tmp_path, draw):
    """Joints that bend to meet the valleys of a drain's fall, in line with joints of other names before the bend."""
    fall = Fall(id="D1", area=Ring(feet((28, 4), (44, 4), (44, 24), (28, 24))), to=feet((36, 14)))
    slab = Slab(
        outline=Ring(feet((0, 0), (48, 0), (48, 42), (0, 42))), thickness=152.4, falls=(fall,)
    )
    job = Job(name="Wash court", units=Unit.FT, slab=slab)
    outcome = lay_out_job(job)
    drawn = outcome.layout.joints
    assert any(len(j.line.coords) > 2 for j in drawn)
    sheets = joint_plan(job, outcome.layout, outcome.findings, RULES)
    (tmp_path / "plan.dxf").write_bytes(draw(job, outcome.layout, sheets))

    read = open_job(tmp_path / "plan.dxf", Wishes()).slab.joints

    assert len(read) == len(drawn)
    lines = [shapely.LineString(j.path) for j in read]
    for joint in drawn:
        again = min(range(len(read)), key=lambda i: lines[i].hausdorff_distance(joint.line))
        assert lines[again].hausdorff_distance(joint.line) < 0.1
        assert read[again].depth == pytest.approx(joint.depth)
