"""A job file whose slab comes from a drawing: what it adds, takes the place of, and gets wrong."""

from functools import partial

import ezdxf
import pytest
from ezdxf import units

from kerfline.files.job_file import read_job
from written_jobs import mistakes, written


@pytest.fixture
def write(tmp_path):
    return partial(written, tmp_path)


@pytest.fixture
def drawing(tmp_path):
    """A slab of 40 by 24 ft with a wall, drawn in inches."""
    document = ezdxf.new(setup=True)
    document.units = units.IN
    space = document.modelspace()
    corners = [(0, 0), (480, 0), (480, 288), (0, 288)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "SLAB"})
    space.add_line((0, 144), (480, 144), dxfattribs={"layer": "WALLS"})
    document.saveas(tmp_path / "plan.dxf")


DRAWN = """\
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"

[drawing]
file = "plan.dxf"
outline = "SLAB"
walls = ["WALL*"]
"""


@pytest.mark.usefixtures("drawing")
class TestDrawing:
    def test_the_slab_may_come_from_a_drawing(self, write):
        slab = read_job(write(DRAWN)).slab
        assert slab.outline.polygon.area == pytest.approx(40 * 24 * 304.8**2)
        assert [w.id for w in slab.walls] == ["W1"]

    def test_the_files_own_things_are_added_and_numbered_on(self, write):
        added = DRAWN + "[[wall]]\npath = [[20, 0], [20, 24]]\n[[column]]\nat = [10, 6]\n"
        slab = read_job(write(added)).slab
        assert [w.id for w in slab.walls] == ["W1", "W2"]
        assert [c.id for c in slab.columns] == ["C1"]

    def test_a_thing_of_the_same_id_takes_the_place_of_the_drawn_one(self, write):
        slab = read_job(write(DRAWN + '[[wall]]\nid = "W1"\npath = [[0, 10], [40, 10]]\n')).slab
        assert [w.path[0][1] for w in slab.walls] == [pytest.approx(3048)]

    def test_an_outline_in_the_file_takes_the_place_of_the_drawn_one(self, write):
        text = DRAWN.replace('"4 in"', '"4 in"\noutline = [[0, 0], [40, 0], [40, 30], [0, 30]]')
        assert read_job(write(text)).slab.outline.polygon.bounds[3] == pytest.approx(9144)

    def test_a_mistake_in_a_drawn_thing_says_so(self, write):
        text = DRAWN.replace('"4 in"', '"4 in"\noutline = [[0, 0], [20, 0], [20, 24], [0, 24]]')
        (told,) = mistakes(write(text))
        assert told.startswith("job.toml, W1 of the drawing: wall W1 lies outside the slab")

    def test_mistakes_of_file_and_drawing_are_told_together(self, write):
        text = DRAWN.replace('"SLAB"', '"NO-SUCH-LAYER"') + '[cut]\nmethod = "laser"\n'
        told = " ".join(mistakes(write(text)))
        assert "cut.method" in told
        assert "NO-SUCH-LAYER" in told
