"""A slab as a program gives it."""

import numpy as np
import pytest
import shapely

import kerfline
from boathouses import FT, OUTLINE, boathouse, laid_out
from kerfline.files.job_schema import JobFile
from kerfline.library.slab import TABLES, Slab, job_of, tables_of


@pytest.fixture(scope="module")
def result():
    return laid_out()


def test_a_shapely_polygon_is_a_slab(result):
    holes = [[(10, 10), (14, 10), (14, 13), (10, 13)]]
    shape = shapely.Polygon(OUTLINE, holes)
    slab = kerfline.Slab(
        shape, "4 in", name="Boathouse", columns=[(32, 12)],
        walls=[{"path": [(0, 16), (24, 16)], "thickness": "4 1/2 in"}],
    )  # fmt: skip
    assert kerfline.lay_out(slab).concrete.equals(result.concrete)


@pytest.mark.parametrize(
    ("slab", "told"),
    [
        (kerfline.Slab(OUTLINE), "Slab, slab.thickness"),
        (kerfline.Slab(OUTLINE, "four"), "four"),
        (kerfline.Slab([(0, 0), (40, 24), (40, 0), (0, 24)], "4 in"), "cross"),
        (kerfline.Slab(OUTLINE, "4 in", units="cubit"), "job.units"),
        (kerfline.Slab(OUTLINE, "4 in", walls=[{"path": [(0, 0), (9, 9)], "weight": 3}]), "weight"),
        (kerfline.Slab(OUTLINE, "4 in", joints=[[(99, 0), (99, 10)]]), "does not lie on the slab"),
    ],
)  # fmt: skip
def test_a_slab_that_makes_no_sense_is_refused_in_words(slab, told):
    with pytest.raises(kerfline.InputRefused, match=told):
        kerfline.lay_out(slab)


def test_things_are_given_by_their_points_or_as_tables():
    slab = Slab(
        [(0, 0), (40, 0), (40, 24), (0, 24)], "4 in", walls=[[(0, 12), (24, 12)]],
        columns=[(10, 10), {"at": (20, 10), "size": "1 ft"}], joints=[np.array([[0, 6], [40, 6]])],
    )  # fmt: skip
    tables = tables_of(slab, None)
    assert tables["job"] == {"name": "slab", "units": "ft"}
    assert tables["slab"]["thickness"] == "4 in"
    assert tables["wall"] == [{"path": [[0, 12], [24, 12]]}]
    assert tables["column"] == [{"at": [10, 10]}, {"at": [20, 10], "size": "1 ft"}]
    assert tables["joint"] == [{"path": [[0, 6], [40, 6]]}]
    assert set(tables) == {"job", "slab", "wall", "column", "joint"}, "nothing that was not given"


def test_a_thickness_beside_a_slab_goes_before_its_own():
    assert tables_of(Slab([], "4 in"), "5 in")["slab"]["thickness"] == "5 in"
    assert "thickness" not in tables_of(Slab([]), None)["slab"]


def test_the_tables_are_those_of_a_job_file():
    """Every table that a slab stands for is one that the schema of job files has."""
    assert {table for table, _ in TABLES.values()} <= set(JobFile.model_fields)
    assert job_of(boathouse(), "4 in").slab.columns[0].at == (32 * FT, 12 * FT)
