"""The layout file of a slab that boxouts part: it holds every piece, whatever they enclose."""

import pytest
import shapely

from kerfline.checks.given import given_layout
from kerfline.files.layout_json import layout_json, read_layout_json
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Boxout, Column, Slab
from kerfline.units import MM_PER_FOOT as FOOT
from kerfline.units import Unit


def square(name, x, y, size):
    return Column(id=name, at=(x * FOOT, y * FOOT), boxout=Boxout.SQUARE, size=size * FOOT)


ACROSS = (square("C1", 20, 10, 25),)
"""One boxout right across a slab of 60 by 20 ft."""

ROUND = (
    square("C1", 20, 10, 8),
    square("C2", 28, 18, 8),
    square("C3", 28, 2, 8),
    square("C4", 36, 10, 8),
)
"""Four boxouts that touch at their corners, round an island of 8 by 8 ft."""


@pytest.mark.parametrize(("columns", "pieces"), [(ACROSS, 2), (ROUND, 3)])
def test_a_parted_slab_comes_back_whole(tmp_path, columns, pieces):
    points = ((0.0, 0.0), (60 * FOOT, 0.0), (60 * FOOT, 20 * FOOT), (0.0, 20 * FOOT))
    slab = Slab(outline=Ring(points), thickness=101.6, columns=columns)
    job = Job(name="Parted", units=Unit.FT, slab=slab)
    file = tmp_path / "parted-layout.json"
    file.write_bytes(layout_json(job, given_layout(slab), ()))
    read = read_layout_json(file)
    assert len(shapely.get_parts(read.concrete)) == len(slab.pieces) == pieces
    assert read.concrete.symmetric_difference(slab.concrete).area < 100.0
