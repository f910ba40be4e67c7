"""What is told of one slab among many."""

import json

import pytest

from kerfline.app.many.line import Fate, Line, line_data, line_of, read_line
from kerfline.model.finding import Severity
from kerfline.model.slab import JointKind
from kerfline.units import Display
from parted import parted_outcome

SLAB = Line(source="a.toml", name="A")


def of(fate, errors=0):
    return Line(source="a.toml", name="A", fate=fate, errors=errors)


@pytest.mark.parametrize(
    ("fate", "errors", "counts", "status"),
    [
        (Fate.DONE, 0, True, 0),
        (Fate.DONE, 2, True, 1),
        (Fate.UNCHANGED, 1, True, 1),
        (Fate.SAME, 0, True, 0),
        (Fate.REFUSED, 0, False, 2),
        (Fate.FAILED, 1, False, 2),
    ],
)
def test_the_exit_status_is_what_the_slab_would_have_alone(fate, errors, counts, status):
    assert of(fate, errors).counts is counts
    assert of(fate, errors).status == status


def test_a_line_holds_the_figures_of_its_layout():
    outcome = parted_outcome()
    line = line_of(outcome, "jobs/workshop.toml")
    joints = outcome.layout.joints
    assert (line.source, line.name, line.fate) == ("jobs/workshop.toml", "Workshop", Fate.DONE)
    assert line.panels == len(outcome.layout.panels)
    assert line.joints == pytest.approx(sum(j.length for j in joints))
    control = [j.length for j in joints if j.kind is JointKind.CONTROL]
    assert line.sawn == pytest.approx(sum(control))
    assert line.concrete == pytest.approx(line.area * outcome.job.slab.thickness)
    assert line.errors == outcome.count(Severity.ERROR)
    assert line.display is Display.FEET_INCHES
    assert len(line.mark) > 4


def test_a_line_that_was_kept_reads_back_as_one_that_is_unchanged():
    line = Line(source="a.toml", name="A", area=3e7, panels=4, metric=True, folder="out/a", files=9)
    read = read_line(json.loads(json.dumps(line_data(line))))
    assert read.fate is Fate.UNCHANGED
    assert {**line_data(read), "fate": "done"} == line_data(line)
    assert read.display is Display.METRIC


def test_what_is_no_line_is_no_line():
    with pytest.raises(TypeError):
        read_line({"source": "a.toml", "name": "A", "moat": 3})
