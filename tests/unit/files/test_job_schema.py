"""The tables of a job file take the keys that they know, and each value of its kind."""

import pytest
from pydantic import ValidationError

from kerfline.files.job_schema import (
    MOST_SEGMENTS,
    DrawingTable,
    EdgeTable,
    JobTable,
    SlabTable,
    WallTable,
)
from kerfline.model.slab import EdgeKind
from kerfline.units import Unit

PATH = [[0, 0], [5000, 0]]


def read(table, unit=Unit.MM, /, **values):
    return table.model_validate(values, context={"unit": unit})


def faults(table, **values):
    with pytest.raises(ValidationError) as caught:
        read(table, **values)
    return [(e["loc"], e["type"]) for e in caught.value.errors()]


def test_a_word_of_a_list_comes_as_text():
    assert read(JobTable, name="x", units="ft").units is Unit.FT
    assert faults(JobTable, name="x", units="yards") == [(("units",), "enum")]


def test_a_name_is_not_empty():
    assert faults(JobTable, name="", units="mm") == [(("name",), "string_too_short")]


def test_a_key_that_is_not_known_is_refused():
    assert faults(WallTable, path=PATH, thick="100 mm") == [(("thick",), "extra_forbidden")]


def test_numbers_are_in_the_unit_of_the_job():
    assert read(SlabTable, Unit.M, thickness=0.1).thickness == pytest.approx(100)
    assert read(SlabTable, Unit.M, thickness="4 in").thickness == pytest.approx(101.6)


def test_a_slab_has_a_thickness_and_lines_have_two_points():
    assert ("thickness",) in [where for where, _ in faults(SlabTable)]
    assert [where for where, _ in faults(WallTable, path=PATH[:1])] == [("path",)]
    assert [where for where, _ in faults(SlabTable, thickness="4 in", outline=[])] == [("outline",)]


@pytest.mark.parametrize(
    ("segment", "fine"), [(0, True), (MOST_SEGMENTS, True), (-1, False), (MOST_SEGMENTS + 1, False)]
)
def test_a_segment_is_one_that_a_ring_can_have(segment, fine):
    if fine:
        edge = read(EdgeTable, kind="free", segment=segment)
        assert (edge.segment, edge.kind) == (segment, EdgeKind.FREE)
    else:
        assert [where for where, _ in faults(EdgeTable, kind="free", segment=segment)] == [
            ("segment",)
        ]


def test_a_ring_of_one_point_is_left_to_the_check_of_sense():
    assert len(read(SlabTable, thickness="4 in", outline=[[0, 0]]).outline) == 1


def test_layers_may_be_one_name_or_several():
    assert list(read(DrawingTable, file="a.dxf", walls="W").walls) == ["W"]
    assert list(read(DrawingTable, file="a.dxf", walls=["W", "V"]).walls) == ["W", "V"]
    assert [where for where, _ in faults(DrawingTable, file="a.pdf", page=0)] == [("page",)]


def test_a_read_table_does_not_change():
    with pytest.raises(ValidationError):
        read(JobTable, name="x", units="mm").name = "y"
