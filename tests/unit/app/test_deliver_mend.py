"""The files and the words of an amended plan."""

from dataclasses import replace

import pytest

from checked import feet, grid_slab, joint
from kerfline.app.check import check_job
from kerfline.app.deliver_mend import MOST, mend_contents, mend_text
from kerfline.app.mend import Mended, mend
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Path
from kerfline.units import MM_PER_FOOT, Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=2.0, **more)


@pytest.fixture(scope="module")
def amended():
    """An L of which a corner joint is missing, its existing joints kept."""
    ell = Ring(feet((0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)))
    joints = (joint("G1", (20, 0), (20, 10)), joint("G2", (0, 20), (10, 20)))
    slab = Slab(outline=ell, thickness=101.6, joints=joints)
    return mend(check_job(job_of(slab)))


def test_the_amended_plan_draws_additions_heavier_and_on_their_own_layer(amended):
    out = amended.after
    sheets = joint_plan(out.job, out.layout, out.findings, out.rules)
    sheet = sheets[0]
    assert sheet.title == "Amended joint plan"
    paths = [m for m in sheet.marks if isinstance(m, Path) and m.ref]
    of = {m.ref: m.layer for m in paths if m.layer.value.startswith("S-JNTS")}
    assert of["A1"] is of["A2"] is Layer.CONTROL_NEW
    assert of["G1"] is of["G2"] is Layer.CONTROL_EXISTING
    assert Layer.CONTROL not in {m.layer for m in sheet.marks}
    words = " ".join(t.text for s in sheets for t in s.texts)
    assert "Added joints" in {t.text for t in sheet.texts}
    for said in (
        "added control joint",
        "existing control joint",
        "Mended for panels of",
    ):
        assert said in words


def test_the_amended_plan_states_the_limits_that_it_was_mended_to(amended):
    """The greatest span at 4 in, 36 t: 12 ft (ACI 302.1R, 1996), not the advised 10 ft."""
    assert amended.after.layout.limits.span == pytest.approx(12 * MM_PER_FOOT)


def test_the_files_of_a_mend(amended):
    names = set(mend_contents(amended))
    assert {
        f"workshop-amended{end}" for end in (".pdf", ".svg", ".dxf", "-joints.csv", "-layout.json")
    } <= names


def outcome_of(slab, **more):
    return check_job(job_of(slab, **more))


def added_joints(count):
    """An amended plan with so many added joints of 10 ft each, and findings that stay."""
    before = outcome_of(grid_slab())
    one = before.layout.joints[0]
    added = tuple(replace(one, id=f"A{n}", note="added: span") for n in range(1, count + 1))
    layout = replace(before.layout, joints=added, added=frozenset(j.id for j in added))
    return Mended(before=before, after=replace(before, layout=layout), bars=(), unmended=())


def test_nothing_added_is_said_so():
    clean = outcome_of(grid_slab())
    mended = Mended(before=clean, after=clean, bars=(), unmended=())
    assert mend_text(mended) == "amended   no error; nothing added"
    faulty = outcome_of(grid_slab(2, 1, bay=20.0))
    assert mend_text(Mended(before=faulty, after=faulty, bars=(), unmended=())) == (
        "amended   no error that a joint could clear; nothing added"
    )


@pytest.mark.parametrize(("count", "more"), [(1, ""), (MOST, ""), (MOST + 3, "3 more")])
def test_additions_are_listed_until_the_terminal_is_full(count, more):
    lines = mend_text(added_joints(count)).splitlines()
    head = "1 joint added" if count == 1 else f"{count} joints added"
    assert lines[0].startswith(f"amended   {head}, ")
    assert lines[0].endswith("errors 0 before, 0 after")
    assert lines[1].startswith("          A1, 30'-0\": added: span")
    assert len(lines) == 1 + min(count, MOST) + bool(more)
    assert (f"and {more}, all on the amended plan" in lines[-1]) is bool(more)


def test_what_bars_must_answer_and_what_is_left_stand_with_their_remedy():
    faulty = outcome_of(grid_slab(2, 1, bay=20.0))
    one, two = faulty.findings[:2]
    text = mend_text(Mended(before=faulty, after=faulty, bars=(one,), unmended=(two,)))
    said = " ".join(text.split())
    assert f"bars {one.message} {one.remedy}" in said
    assert f"left {two.message} {two.remedy}" in said
    assert max(map(len, text.splitlines())) <= 100
