"""Questions and refusals list the layers that may hold walls, columns and joints, by name or by what is drawn there."""

import pytest
from ezdxf import units

from kerfline.errors import InputRefused
from kerfline.files.drawing import ReadingWishes, SlabOpen, reading
from kerfline.files.drawing.candidates.scene import scene_of
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.likely_layers import likely_layers, likely_words
from kerfline.files.drawing.opened import gather

M = 1000.0


@pytest.fixture
def two_halls(sheet):
    """Two slabs of one size side by side, so that it is asked which; on layers of the names given."""

    def draw(*, walls="A-WALL", columns="S-COLS", joints="S-JNTS"):
        drawn = sheet(units.MM)
        for x in (0.0, 40 * M):
            drawn.poly("SLAB", [(x, 0), (x + 30 * M, 0), (x + 30 * M, 18 * M), (x, 18 * M)])
            for y in (6 * M, 12 * M):
                drawn.wall(walls, (x, y), (x + 30 * M, y), 200)
            for dx in (10 * M, 20 * M):
                drawn.square(columns, (x + dx, 9 * M), 400)
                drawn.line(joints, (x + dx, 0), (x + dx, 18 * M))
        return gather(drawn.save())

    return draw


def asked(drawing, **layers):
    with pytest.raises(SlabOpen) as found:
        reading(drawing, ReadingWishes(layers=layers))
    return str(found.value)


def test_the_question_lists_the_layers_that_are_named_for_the_parts(two_halls):
    said = asked(two_halls())
    assert "beside the slab: walls on A-WALL; columns on S-COLS; joints on S-JNTS" in said
    assert "--walls, --columns or --joints" in said


def test_layers_of_no_telling_name_are_listed_by_what_is_drawn_there(two_halls):
    said = asked(two_halls(walls="1", columns="2", joints="3"))
    assert "beside the slab: walls perhaps on 1; columns perhaps on 2; joints perhaps on 3" in said


def test_layers_that_the_user_named_are_known(two_halls):
    said = asked(two_halls(walls="1"), walls=("1",))
    assert "walls on 1, as you say; columns on S-COLS" in said


def test_a_layer_that_is_not_there_is_refused_at_once_with_those_that_may_be_meant(two_halls):
    with pytest.raises(InputRefused) as refused:
        reading(two_halls(walls="1"), ReadingWishes(layers={"walls": ("PARTITIONS",)}))
    said = str(refused.value)
    assert not isinstance(refused.value, SlabOpen)
    assert "no layer of the drawing matches 'PARTITIONS'" in said
    assert "walls perhaps on 1; columns on S-COLS; joints on S-JNTS" in said


@pytest.mark.parametrize(("length", "listed"), [(990, False), (1010, True)])
def test_short_lines_are_no_joints(sheet, length, listed):
    drawn = sheet(units.MM)
    drawn.poly("SLAB", [(0, 0), (9 * M, 0), (9 * M, 6 * M), (0, 6 * M)])
    drawn.line("7", (M, M), (M + length, M))
    assert ("joints" in likely_layers(scene_of(gather(drawn.save())))) is listed


def test_nothing_is_said_where_nothing_is_likely(sheet):
    drawn = sheet(units.MM)
    drawn.poly("SLAB", [(0, 0), (9 * M, 0), (9 * M, 6 * M), (0, 6 * M)])
    likely = likely_layers(scene_of(gather(drawn.save())))
    assert likely == {}
    assert likely_words(likely) == ""
    assert likely_words(likely, Layers(walls=("W",))) == "walls on W, as you say"
