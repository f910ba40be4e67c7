"""A job from nothing, and columns on a grid."""

import pytest

from kerfline.app.start_job import start_job
from kerfline.errors import InputRefused
from kerfline.files.written_size import read_legs
from kerfline.units import Unit
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.wire import read_state
from paged import opened

FT = 304.8


def test_a_bare_thickness_is_in_inches_and_a_repeated_corner_is_one():
    square = ((0.0, 0.0), (0.0, 0.0), (6096.0, 0.0), (6096.0, 6096.0), (0.0, 6096.0), (0.0, 0.0))
    job = start_job("Garage", Unit.FT, "4", points=square)

    assert job.slab.thickness == pytest.approx(101.6)
    assert len(job.slab.outline.points) == 4


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"name": " "}, "needs a name"),
        ({"thickness": ""}, "needs a thickness"),
        ({"size": "right 40, up 28, left 12"}, "do not close"),
        ({"size": "", "points": ((0.0, 0.0), (6096.0, 0.0))}, "outline"),
    ],
)
def test_what_is_no_slab_is_refused_in_words(said, words):
    whole = {"name": "Garage", "units": Unit.FT, "thickness": "4", "size": "40 x 28", **said}
    with pytest.raises(InputRefused, match=words):
        start_job(**whole)


def test_legs_lead_on_from_where_the_last_point_is():
    legs = read_legs("right 10, up 5 ft, left 2 up 2", Unit.FT, (FT, 0.0))

    way = [(FT, 0), (11 * FT, 0), (11 * FT, 5 * FT), (9 * FT, 7 * FT)]
    assert legs == tuple(map(pytest.approx, way))


@pytest.mark.parametrize(
    ("text", "way"),
    [
        ("at 12, 8", [(12, 8)]),
        ("at 12 ft, 8 ft right 10", [(12, 8), (22, 8)]),
        ("At 12' 6\", 96 in; up 2, left 1", [(12.5, 8), (12.5, 10), (11.5, 10)]),
        ("at -1, 0, right 5 up 5", [(-1, 0), (4, 5)]),
    ],
)
def test_legs_begin_where_they_say(text, way):
    """Measured from a corner of the slab, wherever the last point is."""
    legs = read_legs(text, Unit.FT, (99.0, 99.0), (100 * FT, 200 * FT))
    assert legs == tuple(pytest.approx(((100 + x) * FT, (200 + y) * FT)) for x, y in way)


@pytest.mark.parametrize(
    "text", ["at", "at 12", "at 12 right 3", "at , 3", "at 3, x", "at 3, 4 sideways 5"]
)
def test_a_place_that_cannot_be_read(text):
    with pytest.raises(InputRefused):
        read_legs(text, Unit.FT)


def test_columns_stand_on_their_grid(tmp_path):
    state = opened(tmp_path)[1]["state"]
    said = {"do": "column-grid", "at": ["5", "4"], "every": ["15", "12"], "times": [2, 2]}
    columns = apply(read_action(said), read_state(state)).slab.columns

    places = [(5 * FT, 4 * FT), (20 * FT, 4 * FT), (5 * FT, 16 * FT), (20 * FT, 16 * FT)]
    assert [c.at for c in columns] == list(map(pytest.approx, places))
