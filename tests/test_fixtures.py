"""The examples in ``fixtures`` do what their own words say."""

from pathlib import Path

import pytest

from kerfline.app.check import check_job
from kerfline.app.lay_out import lay_out_job
from kerfline.app.mend import mend
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Rule, Severity

FIXTURES = Path(__file__).parents[1] / "fixtures"
SHED = FIXTURES / "packing-shed" / "packing-shed-existing.dxf"


def test_the_boathouse_is_laid_out_clear_of_its_tubing() -> None:
    outcome = lay_out_job(open_job(FIXTURES / "boathouse" / "boathouse.toml"))
    assert outcome.clean
    tubing = outcome.job.slab.keep_outs[0].outline.polygon
    assert outcome.job.slab.concrete.covers(tubing)
    assert all(j.line.intersection(tubing).length < 1.0 for j in outcome.layout.joints)


def test_the_packing_shed_has_a_line_missing_and_a_joint_that_stops_short() -> None:
    outcome = check_job(open_job(SHED, Wishes(thickness="5 in")))
    errors = {f.rule for f in outcome.findings if f.severity is Severity.ERROR}
    assert errors == {Rule.SPAN, Rule.ASPECT, Rule.FREE_END}


def test_the_packing_shed_is_mended_with_two_joints() -> None:
    """The missing piece of the line at 48 ft and the last 6 ft of the short joint (read off the drawing)."""
    mended = mend(check_job(open_job(SHED, Wishes(thickness="5 in"))))
    assert mended.after.clean
    lengths = sorted(j.length for j in mended.added)
    assert lengths == pytest.approx([6 * 304.8, 12 * 304.8], abs=2 * TOUCH)
