"""Several layouts of one job: the table that compares them, and the files of those beside the first."""

import pytest

from checked import grid_slab, joint
from kerfline.app.alternatives import Choice
from kerfline.app.check import check_job
from kerfline.app.deliver_choices import HEAD, choices_contents, choices_table
from kerfline.model.finding import Severity
from kerfline.model.job import Job
from kerfline.units import Unit


@pytest.fixture(scope="module")
def choices():
    def held(name, wide, bay, joints=None):
        slab = grid_slab(wide, 1, bay=bay, **({"joints": joints} if joints else {}))
        job = Job(name="Workshop", units=Unit.FT, slab=slab)
        return Choice(name=name, outcome=check_job(job))

    return [
        held("best overall", 4, 10.0),
        held("least joint", 2, 20.0, (joint("V1", (15, 0), (15, 20)),)),
    ]


def test_the_table_tells_what_each_layout_costs(choices):
    """Three joints of 10 ft part four bays of 10 ft; one of 20 ft parts 40 ft at 15 ft, so that the longest is 25 ft."""
    head, first, second = choices_table(choices, 2).splitlines()
    assert head.split()[:4] == ["layout", "panels", "longest", "joint"]
    cells = [[first[head.index(h) :].split("  ")[0].strip() for h in HEAD if h != "layout"]]
    cells += [[second[head.index(h) :].split("  ")[0].strip() for h in HEAD if h != "layout"]]
    assert cells[0][:6] == ["4", "10'-0\"", "30 ft", "0 ft", "3", "0"]
    assert cells[1][:4] == ["2", "25'-0\"", "20 ft", "0 ft"]
    for choice, row in zip(choices, cells, strict=True):
        assert row[6] == str(choice.outcome.count(Severity.ERROR))
        assert row[7] == str(choice.outcome.count(Severity.WARNING))
    assert int(cells[1][6]) > 0, "25 ft at 4 in is beyond the greatest span"


@pytest.mark.parametrize(("asked", "told"), [(2, False), (3, True)])
def test_it_is_said_where_there_are_fewer_than_were_asked_for(choices, asked, told):
    said = choices_table(choices, asked).splitlines()[-1]
    assert said.startswith("No trade-off leads to more than 2 layouts here: ") is told


def test_the_first_is_written_elsewhere_and_the_others_under_their_names(choices):
    files = choices_contents(choices)
    assert files
    assert {name.startswith("workshop-least-joint") for name in files} == {True}
    assert "workshop-least-joint-layout.json" in files
    assert choices_contents(choices[:1]) == {}
