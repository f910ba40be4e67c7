"""What stands on the slab of a building model, and what carries it."""

import pytest

from kerfline.files.building.bodies import Bodies
from kerfline.files.building.floors import FloorChoice, floor_of
from kerfline.files.building.model_file import open_model
from kerfline.files.building.standing import bears, columns_on, walls_on, with_footings
from kerfline.units import Display, Unit
from models import ModelWriter, rectangle

METRIC = Display.METRIC


class House:
    """A slab of 9 by 6 m, and what is added to it."""

    def __init__(self, tmp_path, hole=None):
        self.writer = ModelWriter()
        slab = self.writer.prism(
            "IfcSlab", rectangle(0, 0, 9000, 6000), -150, 0, predefined="BASESLAB"
        )
        if hole:
            self.writer.void(slab, rectangle(*hole), -500, 500)
        self.path = tmp_path / "house.ifc"

    def read(self):
        bodies = Bodies(open_model(self.writer.save(self.path)), self.path)
        return bodies, floor_of(bodies, self.path, FloorChoice(), Unit.MM)

    def walls(self):
        return walls_on(*self.read(), METRIC)

    def columns(self):
        return columns_on(*self.read(), METRIC)

    def footed(self):
        bodies, floor = self.read()
        return with_footings(bodies, floor, walls_on(bodies, floor, METRIC)[0])


@pytest.fixture
def house(tmp_path):
    return House(tmp_path)


def test_walls_are_told_bearing_or_not_and_numbered_from_below(house):
    house.writer.wall((0, 4000), (6000, 4000), 120, 0, 2700, bearing=True)
    house.writer.wall((0, 2000), (5000, 2000), 100, 0, 2700, bearing=False)
    walls, notes = house.walls()
    told = [(w.id, w.bearing, round(w.thickness), round(w.line.length)) for w in walls]
    assert told == [("W1", False, 100, 5000), ("W2", True, 120, 6000)]
    assert notes == []
    bodies, _ = house.read()
    assert sorted(bears(b) for b in bodies.of("IfcWall")) == [False, True]


def test_a_wall_that_the_model_says_nothing_of_does_not_bear(house):
    house.writer.wall((0, 4000), (6000, 4000), 120, 0, 2700)
    (wall,), notes = house.walls()
    assert not wall.bearing
    assert notes == ["1 wall of the model not said to be bearing or not: taken as not bearing."]


@pytest.mark.parametrize(
    ("foot", "stands"), [(-300, True), (300, True), (301, False), (2900, False)]
)
def test_what_begins_a_storey_up_does_not_stand_on_the_slab(house, foot, stands):
    house.writer.wall((0, 4000), (6000, 4000), 120, foot, 5000, bearing=True)
    assert len(house.walls()[0]) == stands


def test_a_curb_is_no_wall(house):
    house.writer.wall((0, 4000), (6000, 4000), 120, 0, 299, bearing=True)
    assert house.walls()[0] == ()


def test_a_column_stands_in_a_diamond_of_two_feet(house):
    house.writer.prism("IfcColumn", rectangle(3900, 2900, 200, 200), 0, 2700)
    (column,), notes = house.columns()
    assert (column.id, column.at, column.size) == ("C1", (4000, 3000), 609.6)
    assert notes[0].startswith("1 column read; the model shows no isolation around them")


def test_a_thick_column_needs_a_larger_one(house):
    """Its half diagonals and 3 in clear on each side: 500 x sqrt(2) + 2 x 76.2 = 859.5, to the next 10 mm."""
    house.writer.prism("IfcColumn", rectangle(3000, 2000, 500, 500), 0, 2700)
    assert house.columns()[0][0].size == 860


def test_a_column_in_an_opening_is_isolated_by_it(tmp_path):
    house = House(tmp_path, hole=(3000, 2000, 1000, 1000))
    house.writer.prism("IfcColumn", rectangle(3400, 2400, 200, 200), -900, 2700)
    assert house.columns() == ((), ["1 column in an opening of the slab: the opening isolates it."])


def test_a_strip_cast_with_the_slab_thickens_it_under_its_wall(house):
    house.writer.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    house.writer.prism("IfcFooting", rectangle(0, 2700, 9000, 600), -450, -150)
    (wall,), notes = house.footed()
    assert (wall.bearing, wall.strip_width, wall.strip_depth) == (True, 600, 450)
    assert notes == []


@pytest.mark.parametrize(("top", "cast"), [(-200, True), (-201, False)])
def test_a_strip_apart_from_the_slab_only_bears(house, top, cast):
    house.writer.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    house.writer.prism("IfcFooting", rectangle(0, 2700, 9000, 600), -600, top)
    (wall,), _ = house.footed()
    assert wall.bearing
    assert bool(wall.strip_depth) is cast


@pytest.mark.parametrize(("length", "own"), [(7200, True), (7000, False)])
def test_a_strip_is_the_walls_where_it_runs_under_most_of_it(house, length, own):
    house.writer.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    house.writer.prism("IfcFooting", rectangle(0, 2700, length, 600), -450, -150)
    (wall,), notes = house.footed()
    assert wall.bearing is own
    assert len(notes) == 1 - own


def test_a_pad_is_left_out_and_told(house):
    house.writer.prism("IfcFooting", rectangle(3000, 1000, 800, 800), -450, -150)
    walls, notes = house.footed()
    assert walls == ()
    assert notes[0].startswith("1 footing under no interior wall left out")
