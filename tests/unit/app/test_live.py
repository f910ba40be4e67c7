"""The page's live measures are those of ``kerfline check``, panel by panel and finding by finding."""

import math
from dataclasses import replace

import pytest
from shapely import affinity

from kerfline.app import joint_edit, slab_edit
from kerfline.app.check import check_job
from kerfline.app.joint_axis import line_of
from kerfline.app.live import measured
from kerfline.app.open_job import open_job
from kerfline.app.save_job import save_job
from kerfline.app.working import DrawnJoint, Working, job_of
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab, Wall
from kerfline.units import Unit

FT = 304.8
ELL = [(0, 0), (48, 0), (48, 20), (28, 20), (28, 34), (0, 34)]


def turned(points, degrees):
    turn = math.radians(degrees)
    return tuple(
        (
            FT * (x * math.cos(turn) - y * math.sin(turn)),
            FT * (x * math.sin(turn) + y * math.cos(turn)),
        )
        for x, y in points
    )


def state(number):
    """One of twenty layouts: an L-shaped slab, turned, with joints and things in different places."""
    degrees = [0, 0, 0, 17, 45][number % 5]
    slab = Slab(
        outline=Ring(turned(ELL, degrees)),
        thickness=[101.6, 127.0, 152.4][number % 3],
        walls=(Wall(id="W1", path=turned([(0, 20), (28, 20)], degrees), bearing=number % 4 == 1),),
    )
    if number % 2:
        (at,) = turned([(20 + number / 4, 11)], degrees)
        slab = slab_edit.add(slab, "column", (at,), "C1")
    lines = [((12 + number / 7, 1), (12 + number / 7, 2)), ((1, 10), (2, 10)), ((29, 1), (29, 2))]
    lines += [((30, 12), (31, 12))] if number % 3 else [((3, 25), (4, 25))]
    joints = ()
    for line in lines:
        joints = joint_edit.draw(slab.concrete, joints, *turned(line, degrees))
    return Working(
        name=f"Layout {number}", units=Unit.FT, slab=slab, joints=joints, rule_set="floor"
    )


@pytest.mark.parametrize("number", range(20))
def test_page_and_check_agree_on_every_panel_and_finding(number, tmp_path):
    """A layout is drawn, measured live, saved as a job file, and checked from that file."""
    working = state(number)
    base = Job(name=working.name, units=Unit.FT, slab=working.slab)
    live = measured(base, working)
    path = tmp_path / "layout.toml"

    save_job(path, job_of(base, working, only_pinned=False))
    checked = check_job(open_job(path))

    assert len(live.layout.panels) > 4
    sizes = [(p.id, p.length, p.width, p.aspect, p.area) for p in live.layout.panels]
    again = [(p.id, p.length, p.width, p.aspect, p.area) for p in checked.layout.panels]
    assert [s[0] for s in sizes] == [s[0] for s in again]
    assert [s[1:] for s in sizes] == [pytest.approx(s[1:], rel=1e-9) for s in again]
    assert [(f.rule, f.severity, f.subject, f.message) for f in live.findings] == [
        (f.rule, f.severity, f.subject, f.message) for f in checked.findings
    ]


def test_a_joint_keeps_its_depth_reason_and_note():
    slab = Slab(outline=Ring(turned(ELL, 0)), thickness=101.6)
    noted = DrawnJoint(
        id="J1", path=((3000.0, 0.0), (3000.0, 6000.0)), depth=40.0, note="as agreed"
    )
    plain = replace(noted, id="J2", path=((6000.0, 0.0), (6000.0, 6000.0)), depth=None)
    working = Working(name="x", units=Unit.FT, slab=slab, joints=(noted, plain), rule_set="floor")

    first, second = measured(Job(name="x", units=Unit.FT, slab=slab), working).layout.joints

    assert first.depth == 40.0
    assert first.note == "as agreed"
    # a quarter of 4 in, the floor rule's least depth of a conventional cut (rule set ``floor``)
    assert second.depth == pytest.approx(101.6 / 4)


def test_a_slab_turned_as_a_whole_has_the_same_panels():
    """Measures do not depend on the direction of the drawing's axes."""
    flat, steep = state(0), state(0)
    spun = replace(
        steep,
        slab=replace(
            steep.slab,
            outline=Ring.of(affinity.rotate(steep.slab.outline.polygon, 33, origin=(0, 0))),
            walls=(),
        ),
        joints=tuple(
            replace(
                j,
                path=tuple(
                    (float(x), float(y))
                    for x, y in affinity.rotate(line_of(j), 33, origin=(0, 0)).coords
                ),
            )
            for j in steep.joints
        ),
    )
    plain = replace(flat, slab=replace(flat.slab, walls=()))
    sizes = [
        sorted((round(p.length), round(p.width)) for p in measured(job, w).layout.panels)
        for w in (plain, spun)
        for job in (Job(name="x", units=Unit.FT, slab=w.slab),)
    ]
    assert sizes[0] == sizes[1]
