"""Which floor of a building model is the slab on ground."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.building.bodies import Bodies
from kerfline.files.building.floors import (
    ONE_LEVEL,
    FloorChoice,
    FloorQuestion,
    floor_of,
    floor_storeys,
    main_level,
    storey_of,
)
from kerfline.files.building.model_file import open_model
from kerfline.units import Unit
from models import ModelWriter, rectangle


def slab(w, x=0, width=6000, bottom=-150, top=0, **more):
    return w.prism("IfcSlab", rectangle(x, 0, width, 5000), bottom, top, **more)


def bodies_of(w, tmp_path):
    path = w.save(tmp_path / "house.ifc")
    return Bodies(open_model(path), path)


def floor(w, tmp_path, choice=None):
    bodies = bodies_of(w, tmp_path)
    return floor_of(bodies, bodies.path, choice or FloorChoice(), Unit.MM)


def width_of(found):
    x0, _, x1, _ = found.outline.bounds
    return x1 - x0


def test_the_one_that_the_model_calls_a_slab_on_ground(tmp_path):
    w = ModelWriter()
    slab(w, predefined="BASESLAB")
    slab(w, x=20000, bottom=-950, top=-800, predefined="FLOOR")
    found = floor(w, tmp_path)
    assert found.why == "Slab: the model calls it a slab on ground."
    assert (found.top, found.bottom) == (pytest.approx(0), pytest.approx(-150))
    assert found.outline.area == pytest.approx(30e6)
    assert len(found.bodies) == 1


def test_else_the_lowest_and_it_is_said(tmp_path):
    w = ModelWriter()
    slab(w, bottom=2700, top=2900)
    slab(w)
    found = floor(w, tmp_path)
    assert found.top == pytest.approx(0)
    assert found.why.startswith("Slab: the lowest floor;")


def test_a_roof_or_a_landing_is_no_floor(tmp_path):
    w = ModelWriter()
    slab(w, predefined="ROOF")
    assert floor(w, tmp_path) is None
    with pytest.raises(InputRefused, match="the model has no floors to choose from"):
        floor(w, tmp_path, FloorChoice(slab="1"))


@pytest.mark.parametrize(
    "name",
    ["127 mm slab on grade", "Floor: SOG 6 in", "Bodenplatte 250", "Dallage sur terre-plein"],
)
def test_a_name_says_as_much_though_foundation_walls_stand_under_it(tmp_path, name):
    w = ModelWriter()
    slab(w, name=name)
    slab(w, bottom=-2000, top=-1800, x=20000, name="Sump")
    w.wall((0, 100), (6000, 100), 200, -1400, -150)
    found = floor(w, tmp_path)
    assert (found.top, found.why) == (
        pytest.approx(0),
        "Slab: the model calls it a slab on ground.",
    )


@pytest.mark.parametrize(("thick", "taken"), [(49, 6000), (51, 5900)])
def test_a_finish_is_no_slab_unless_it_is_all_there_is(tmp_path, thick, taken):
    w = ModelWriter()
    slab(w, x=20000, width=6000)
    slab(w, bottom=-200 - thick, top=-200, width=5900)
    assert width_of(floor(w, tmp_path)) == pytest.approx(taken)
    w = ModelWriter()
    slab(w, bottom=0, top=19, width=5900)
    assert width_of(floor(w, tmp_path)) == pytest.approx(5900)


@pytest.mark.parametrize(("width", "asked"), [(2900, True), (3100, False)])
def test_a_small_floor_below_a_large_one_is_asked_about(tmp_path, width, asked):
    w = ModelWriter()
    slab(w)
    slab(w, x=20000, width=width, bottom=-1600, top=-1400)
    if not asked:
        assert floor(w, tmp_path).top == pytest.approx(-1400)
        return
    with pytest.raises(FloorQuestion, match="small beside the one above it") as question:
        floor(w, tmp_path)
    assert [o.number for o in question.value.offers] == [1, 2]
    assert not question.value.together
    assert floor(w, tmp_path, FloorChoice(slab="2")).top == pytest.approx(0)


def test_planks_beside_each_other_are_one_floor_without_seams(tmp_path):
    w = ModelWriter()
    for x in (0, 1205, 2410):
        slab(w, x=x, width=1200)
    found = floor(w, tmp_path, FloorChoice(slab="all"))
    assert not found.outline.interiors
    assert found.outline.area == pytest.approx(3610 * 5000)


@pytest.mark.parametrize(("higher", "asked"), [(ONE_LEVEL, True), (ONE_LEVEL + 1, False)])
def test_slabs_in_one_plane_are_asked_about_and_a_step_parts_them(tmp_path, higher, asked):
    w = ModelWriter()
    slab(w)
    slab(w, x=20000, bottom=higher - 150, top=higher)
    if asked:
        with pytest.raises(FloorQuestion, match="2 slabs that can be meant"):
            floor(w, tmp_path)
    else:
        assert floor(w, tmp_path).top == pytest.approx(0)


def test_the_question_can_be_answered_by_number_or_with_all(tmp_path):
    w = ModelWriter()
    slab(w, predefined="BASESLAB")
    slab(w, x=6020, width=4000, predefined="BASESLAB")
    with pytest.raises(FloorQuestion) as asked:
        floor(w, tmp_path, FloorChoice(slab="3"))
    question = asked.value
    assert question.mistakes[0].found == "--slab 3"
    assert [o.number for o in question.offers] == [1, 2]
    assert question.offers[0].words.startswith("6000 mm x 5000 mm, 30.00 m2 at (3000 mm, 2500 mm)")
    assert (question.together, question.unit) == (True, Unit.MM)
    assert floor(w, tmp_path, FloorChoice(slab="2")).outline.area == pytest.approx(20e6)
    assert floor(w, tmp_path, FloorChoice(slab=" ALL ")).outline.area == pytest.approx(50.1e6)


def test_slabs_that_do_not_touch_are_not_one(tmp_path):
    w = ModelWriter()
    slab(w, predefined="BASESLAB")
    slab(w, x=6500, predefined="BASESLAB")
    with pytest.raises(InputRefused, match="these slabs do not touch: they are 2 pieces"):
        floor(w, tmp_path, FloorChoice(slab="all"))


@pytest.mark.parametrize(("deep", "grounded"), [(990, True), (1010, False)])
def test_a_floor_over_a_room_does_not_lie_on_ground(tmp_path, deep, grounded):
    w = ModelWriter()
    slab(w)
    w.wall((0, 100), (6000, 100), 200, -150 - deep, -150)
    if grounded:
        assert floor(w, tmp_path).top == pytest.approx(0)
        return
    with pytest.raises(FloorQuestion, match="no floor lies on ground") as asked:
        floor(w, tmp_path)
    assert not asked.value.together
    assert "may be no slab on ground" in floor(w, tmp_path, FloorChoice(slab="1")).why


def test_a_storey_is_named_in_any_case_and_one_without_floors_is_refused(tmp_path):
    w = ModelWriter()
    slab(w, predefined="BASESLAB")
    slab(w, bottom=2700, top=2900, storey="First floor")
    assert floor(w, tmp_path, FloorChoice(storey=" first FLOOR ")).top == pytest.approx(2900)
    with pytest.raises(InputRefused, match="no floor is in storey 'Attic'; the model has 6000 mm"):
        floor(w, tmp_path, FloorChoice(storey="Attic"))


def test_storeys_are_told_from_the_lowest_up(tmp_path):
    w = ModelWriter()
    slab(w, bottom=2700, top=2900, storey="First floor")
    slab(w)
    bodies = bodies_of(w, tmp_path)
    lowest = min(bodies.of("IfcSlab"), key=lambda b: b.top)
    assert floor_storeys(bodies) == (storey_of(lowest), "First floor")


def test_the_main_level_is_that_of_the_greatest_face(tmp_path):
    w = ModelWriter()
    made = slab(w, bottom=-400)
    w.void(made, rectangle(200, 200, 5600, 4600), -500, -150)
    (body,) = bodies_of(w, tmp_path).of("IfcSlab")
    assert main_level(body, 1) == pytest.approx(0)
    assert main_level(body, -1) == pytest.approx(-150)
    assert body.bottom == pytest.approx(-400)
