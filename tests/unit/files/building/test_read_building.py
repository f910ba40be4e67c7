"""Building models, written here by a library, and the slab that each of them gives."""

import math
import pickle

import pytest

pytest.importorskip("ifcopenshell")

import ifcopenshell.api.georeference
import ifcopenshell.api.material
import ifcopenshell.geom
from ifcopenshell.util.shape import get_footprint_area
from shapely import Polygon

from kerfline.errors import InputRefused
from kerfline.files.building import Building, FloorChoice, FloorQuestion, read_building
from kerfline.model.slab import Boxout
from kerfline.units import Unit
from models import ModelWriter, rectangle

L_SHAPE = [(0, 0), (12000, 0), (12000, 8000), (6000, 8000), (6000, 6000), (0, 6000)]
L_AREA = 12000 * 6000 + 6000 * 2000


def in_unit(ring, writer: ModelWriter):
    return [(x / writer.mm, y / writer.mm) for x, y in ring]


def house(unit: str = "mm", turn: float = 0.0, schema: str = "IFC4", kind: str = "BASESLAB"):
    """An L-shaped slab, 150 mm thick, with a pit, a pipe, two walls, a wall upstairs and a column."""
    w = ModelWriter(unit, turn, schema)
    k = 1 / w.mm
    slab = w.prism("IfcSlab", in_unit(L_SHAPE, w), -150 * k, 0, predefined=kind)
    w.void(slab, in_unit(rectangle(2000, 2000, 1000, 800), w), -1000 * k, 1000 * k)
    w.round_void(slab, (9000 * k, 3000 * k), 110 * k)
    w.wall((0, 4000 * k), (6000 * k, 4000 * k), 120 * k, 0, 2700 * k, bearing=True)
    w.wall((8000 * k, 0), (8000 * k, 5000 * k), 100 * k, 0, 2700 * k, bearing=False)
    up = {"bottom": 2900 * k, "top": 5600 * k, "storey": "First floor"}
    w.wall((4000 * k, 0), (4000 * k, 5000 * k), 100 * k, **up)
    w.prism("IfcColumn", in_unit(rectangle(9900, 4850, 200, 300), w), 0, 2700 * k)
    w.prism(
        "IfcSlab", in_unit(L_SHAPE, w), 2700 * k, 2900 * k, predefined="FLOOR", storey="First floor"
    )
    return w, slab


def read(writer: ModelWriter, tmp_path, choice: FloorChoice | None = None) -> Building:
    return read_building(writer.save(tmp_path / "house.ifc"), choice)


def area_of(building: Building) -> float:
    assert building.parts.outline is not None
    return building.parts.outline.polygon.area


@pytest.mark.parametrize(
    ("unit", "turn", "schema"),
    [("mm", 0, "IFC4"), ("m", 30, "IFC4"), ("ft", 0, "IFC2X3"), ("ft", 200, "IFC4X3")],
)
def test_a_house_in_any_unit_and_turn(tmp_path, unit, turn, schema):
    building = read(house(unit, turn, schema)[0], tmp_path)
    parts = building.parts
    assert building.unit is Unit(unit)
    assert area_of(building) == pytest.approx(L_AREA, rel=1e-6)
    assert len(parts.outline.points) == 6
    assert building.thickness == pytest.approx(150, abs=1e-3)
    (pit,) = parts.openings
    assert pit.polygon.area == pytest.approx(1000 * 800, rel=1e-6)
    (pipe,) = parts.penetrations
    assert pipe.diameter == pytest.approx(110, abs=0.2)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    assert pipe.at == pytest.approx((9000 * c - 3000 * s, 9000 * s + 3000 * c), abs=0.2)
    told = sorted((w.bearing, round(w.thickness, 2), round(w.line.length)) for w in parts.walls)
    assert told == [(False, 100.0, 5000), (True, 120.0, 6000)]
    (column,) = parts.columns
    assert column.at == pytest.approx((10000 * c - 5000 * s, 10000 * s + 5000 * c), abs=0.01)
    assert column.turn == pytest.approx(turn % 90, abs=1e-3)
    assert column.boxout is Boxout.DIAMOND
    assert "calls it a slab on ground" in building.reading[0]


def test_areas_are_those_of_the_reference_library(tmp_path):
    writer, slab = house("m", 17)
    building = read(writer, tmp_path)
    shape = ifcopenshell.geom.create_shape(ifcopenshell.geom.settings(), slab)
    holes = sum(o.polygon.area for o in building.parts.openings)
    pipe = math.pi * 110**2 / 4
    net = (area_of(building) - holes) / 1e6
    # The library makes the pipe of chords, we keep its diameter.
    assert net - pipe / 1e6 == pytest.approx(get_footprint_area(shape.geometry), rel=1e-5)
    bare = ModelWriter("m", 17)
    slab = bare.prism("IfcSlab", in_unit(L_SHAPE, bare), -0.15, 0, holes=[rectangle(2, 2, 1, 3)])
    shape = ifcopenshell.geom.create_shape(ifcopenshell.geom.settings(), slab)
    building = read(bare, tmp_path)
    net = area_of(building) - building.parts.openings[0].polygon.area
    assert net / 1e6 == pytest.approx(get_footprint_area(shape.geometry), rel=1e-6)
    assert net == pytest.approx(L_AREA - 3e6, rel=1e-6)


@pytest.mark.parametrize("unit", ["mm", "m", "ft"])
def test_a_rounded_end_is_one_arc(tmp_path, unit):
    """An end of 6 m that bulges by 2 m: its radius is 3.25 m, and its area by the formula of the segment."""
    w = ModelWriter(unit, 17)
    ring = [(0, 0), (9000, 0), (11000, 3000), (9000, 6000), (0, 6000)]
    slab = w.prism("IfcSlab", in_unit(ring, w), -150 / w.mm, 0, predefined="BASESLAB", arcs=[2])
    building = read(w, tmp_path)
    outline = building.parts.outline
    assert len(outline.points) == 4
    (bulge,) = [b for b in outline.bulges if b]
    assert abs(bulge) == pytest.approx(2000 / 3000, rel=1e-5)
    half = math.asin(3000 / 3250)
    segment = 3250**2 * (half - math.sin(half) * math.cos(half))
    assert area_of(building) == pytest.approx(54e6 + segment, rel=1e-5)
    # The library's own footprint is of coarser chords.
    shape = ifcopenshell.geom.create_shape(ifcopenshell.geom.settings(), slab)
    assert get_footprint_area(shape.geometry) == pytest.approx(area_of(building) / 1e6, rel=1e-4)


def test_the_lowest_floor_where_none_is_said_to_lie_on_ground(tmp_path):
    building = read(house(kind="FLOOR")[0], tmp_path)
    assert "the lowest floor" in building.reading[0]
    assert building.thickness == pytest.approx(150)
    assert "top at 0 mm" in building.reading[1]


def test_a_floor_over_a_cellar_is_not_taken_for_one_on_ground(tmp_path):
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -200, 0, predefined="FLOOR")
    w.wall((0, 100), (9000, 100), 200, -2700, -200, storey="Cellar")
    with pytest.raises(InputRefused) as refused:
        read(w, tmp_path)
    said = str(refused.value)
    assert "no floor lies on ground" in said
    assert "9000 mm x 6000 mm, 54.00 m2" in said
    assert "--storey" in said
    building = read(w, tmp_path, FloorChoice(storey="ground floor"))
    assert area_of(building) == pytest.approx(54e6)
    building = read(w, tmp_path, FloorChoice(slab="1"))
    assert area_of(building) == pytest.approx(54e6)
    assert "may be no slab on ground" in building.reading[0]
    for said in ("2", "all"):
        with pytest.raises(FloorQuestion, match="no floor lies on ground"):
            read(w, tmp_path, FloorChoice(slab=said))
    with pytest.raises(InputRefused, match="no floor is in storey 'Attic'"):
        read(w, tmp_path, FloorChoice(storey="Attic"))


def test_a_stem_wall_is_no_cellar(tmp_path):
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -200, 0, predefined="FLOOR")
    w.wall((0, 100), (9000, 100), 200, -1000, -200)
    assert area_of(read(w, tmp_path)) == pytest.approx(54e6)


def two_slabs(gap: float) -> ModelWriter:
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 6000, 5000), -150, 0, predefined="BASESLAB")
    w.prism("IfcSlab", rectangle(6000 + gap, 0, 4000, 5000), -150, 0, predefined="BASESLAB")
    return w


@pytest.mark.parametrize("gap", [0.0, 20.0])
def test_several_slabs_in_one_plane_are_asked_about(tmp_path, gap):
    w = two_slabs(gap)
    with pytest.raises(InputRefused) as refused:
        read(w, tmp_path)
    said = str(refused.value)
    assert "2 slabs that can be meant: 1: 6000 mm x 5000 mm" in said
    assert isinstance(refused.value, FloorQuestion)
    offers = refused.value.offers
    assert [each.number for each in offers] == [1, 2]
    assert [Polygon(each.ring).area for each in offers] == pytest.approx([30e6, 20e6])
    assert pickle.loads(pickle.dumps(refused.value)).offers == offers
    assert "2: 4000 mm x 5000 mm" in said
    assert area_of(read(w, tmp_path, FloorChoice(slab="2"))) == pytest.approx(20e6)
    whole = area_of(read(w, tmp_path, FloorChoice(slab="all")))
    assert whole == pytest.approx((10000 + gap) * 5000)
    with pytest.raises(InputRefused, match="2 slabs that can be meant"):
        read(w, tmp_path, FloorChoice(slab="3"))


def test_slabs_that_do_not_touch_are_not_one(tmp_path):
    with pytest.raises(InputRefused, match="these slabs do not touch: they are 2 pieces"):
        read(two_slabs(500), tmp_path, FloorChoice(slab="all"))


@pytest.mark.parametrize(
    ("top", "depth"), [(-150, 450), (-100, 450), (-400, 0)], ids=["cast on", "cast in", "apart"]
)
def test_a_strip_footing_under_a_wall(tmp_path, top, depth):
    """Cast with the slab it is a thickened strip; apart from it, the wall only bears."""
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -150, 0, predefined="BASESLAB")
    w.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    w.wall((4000, 3000), (4000, 6000), 120, 0, 2700, bearing=False)
    w.prism("IfcFooting", rectangle(-200, 2700, 9400, 600), -450, top, predefined="STRIP_FOOTING")
    w.prism("IfcFooting", rectangle(3000, 1000, 800, 800), -450, -150, predefined="PAD_FOOTING")
    building = read(w, tmp_path)
    bearing, other = sorted(building.parts.walls, key=lambda wall: not wall.bearing)
    assert bearing.bearing
    assert bearing.strip_depth == pytest.approx(depth, abs=1e-3)
    assert bearing.strip_width == pytest.approx(600 if depth else 0, abs=1e-3)
    assert not other.bearing
    assert any("1 footing under no interior wall left out" in n for n in building.parts.notes)


def test_doors_do_not_part_a_wall(tmp_path):
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -150, 0, predefined="BASESLAB")
    wall = w.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    w.void(wall, rectangle(4000, 2900, 1000, 200), 0, 2700)
    (read_wall,) = read(w, tmp_path).parts.walls
    assert read_wall.line.length == pytest.approx(9000)


def test_no_slab_the_outer_faces_of_the_walls(tmp_path):
    w = ModelWriter()
    corners = rectangle(100, 100, 8800, 5800)
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        (x0, y0), (x1, y1) = start, end
        length = math.hypot(x1 - x0, y1 - y0)
        ux, uy = (x1 - x0) / length * 100, (y1 - y0) / length * 100
        w.wall((x0 - ux, y0 - uy), (x1 + ux, y1 + uy), 200, 0, 2700)
    building = read(w, tmp_path)
    assert building.thickness is None
    assert area_of(building) == pytest.approx(9000 * 6000)
    assert "outer faces of the lowest walls" in building.reading[0]
    assert building.parts.walls == ()
    with pytest.raises(InputRefused, match="no floors to choose from"):
        read(w, tmp_path, FloorChoice(slab="1"))


def test_neither_slab_nor_enclosing_walls(tmp_path):
    w = ModelWriter()
    w.wall((0, 0), (9000, 0), 200, 0, 2700)
    with pytest.raises(InputRefused, match="no slab, and no walls that enclose a floor"):
        read(w, tmp_path)


def test_a_slab_that_is_thicker_in_places_or_slopes(tmp_path):
    w = ModelWriter()
    slab = w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -400, 0, predefined="BASESLAB")
    w.void(slab, rectangle(400, 400, 8200, 5200), -500, -150)
    building = read(w, tmp_path)
    assert building.thickness == pytest.approx(150)
    assert any("thicker in places, up to 400 mm" in n for n in building.parts.notes)


def test_layers_of_a_slab_are_named(tmp_path):
    writer, slab = house()
    layers = ifcopenshell.api.material.add_material_set(
        writer.file, name="Floor", set_type="IfcMaterialLayerSet"
    )
    for name, thick in (("screed", 50), ("concrete", 100)):
        made = ifcopenshell.api.material.add_material(writer.file, name=name)
        layer = ifcopenshell.api.material.add_layer(writer.file, layer_set=layers, material=made)
        ifcopenshell.api.material.edit_layer(
            writer.file, layer=layer, attributes={"LayerThickness": thick}
        )
    ifcopenshell.api.material.assign_material(
        writer.file, products=[slab], type="IfcMaterialLayerSetUsage", material=layers
    )
    notes = read(writer, tmp_path).parts.notes
    assert any("(screed, concrete): give the concrete's own with --thickness" in n for n in notes)


def test_a_thick_column_gets_a_larger_diamond(tmp_path):
    """A column of 600 mm: its half diagonal, and 3 in clear on each side of the diamond, by hand."""
    w = ModelWriter()
    w.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -150, 0, predefined="BASESLAB")
    w.prism("IfcColumn", rectangle(4000, 3000, 600, 600), -900, 2700)
    (column,) = read(w, tmp_path).parts.columns
    assert column.at == (4300, 3300)
    assert column.size == 1010  # 600 x sqrt(2) + 2 x 76.2 = 1000.9, to the next 10 mm


def test_north(tmp_path):
    writer, _ = house()
    ifcopenshell.api.georeference.edit_true_north(writer.file, true_north=(-1.0, 1.0))
    assert read(writer, tmp_path).north == pytest.approx(45)
    assert read(house()[0], tmp_path).north == 0


def test_what_the_reader_refuses(tmp_path):
    path = house()[0].save(tmp_path / "house.ifc")
    text = path.read_bytes()
    path.write_bytes(text[: len(text) // 2])
    with pytest.raises(InputRefused, match=r"house\.ifc: this model is cut off"):
        read_building(path)
    path.write_bytes(text[:300] + b"\n#1=IFCWALL((((((;\n" * 20 + b"END-ISO-10303-21;")
    with pytest.raises(InputRefused):
        read_building(path)
    path.write_bytes(text.replace(b"IFC4", b"IFC9"))
    with pytest.raises(InputRefused):
        read_building(path)


def test_a_model_without_bodies(tmp_path):
    path = ModelWriter().save(tmp_path / "empty.ifc")
    with pytest.raises(InputRefused, match="no slab, and no walls"):
        read_building(path)


def test_an_element_without_a_sound_body_is_named(tmp_path):
    writer, _ = house()
    wall = writer.wall((0, 1000), (3000, 1000), 100, 0, 2700)
    wall.Representation.Representations[0].Items[0].Depth = 0.0
    notes = read(writer, tmp_path).parts.notes
    assert any("1 element of the class IfcWall not read" in note for note in notes)


def test_the_place_on_the_map(tmp_path):
    """Turned by 30 degrees, by hand: the x axis points along (cos 30, sin 30) of the grid."""
    writer, _ = house("mm")
    georeference = ifcopenshell.api.georeference
    georeference.add_georeferencing(writer.file)
    georeference.edit_georeferencing(
        writer.file,
        coordinate_operation={
            "Eastings": 500_000.0,
            "Northings": 4_100_000.0,
            "OrthogonalHeight": 101.5,
            "XAxisAbscissa": math.cos(math.radians(30)),
            "XAxisOrdinate": math.sin(math.radians(30)),
            "Scale": 0.0009996,
        },
    )
    systems = writer.file.by_type("IfcProjectedCRS")
    systems[0].MapUnit = writer.file.create_entity("IfcSIUnit", None, "LENGTHUNIT", None, "METRE")
    site = read(writer, tmp_path).site
    assert site is not None
    assert site.scale == pytest.approx(0.9996)
    assert site.level == pytest.approx(101_500)
    east, north = site.similarity.to_site((10_000.0, 0.0))
    assert east == pytest.approx(500_000e3 + 9996 * math.cos(math.radians(30)), abs=0.01)
    assert north == pytest.approx(4_100_000e3 + 9996 * math.sin(math.radians(30)), abs=0.01)
    assert site.north == pytest.approx(-30)
    assert read(house()[0], tmp_path).site is None
