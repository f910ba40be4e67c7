"""Where a building model says that it stands: true north, and its place on a map."""

import pytest
from ifcopenshell.api import georeference
from shapely import box

from kerfline.files.building.ground import fine_scale, site_of, true_north
from kerfline.files.building.model_file import open_model
from kerfline.units import SiteUnit
from models import ModelWriter, rectangle

SLAB = box(0, 0, 9000, 6000)


def saved(writer, tmp_path):
    writer.prism("IfcSlab", rectangle(0, 0, 9, 6), -0.15, 0)
    return open_model(writer.save(tmp_path / "a.ifc"))


def on_map(tmp_path, scale=1.0, unit="METRE", schema="IFC4"):
    writer = ModelWriter("m", schema=schema)
    georeference.add_georeferencing(writer.file)
    georeference.edit_georeferencing(
        writer.file,
        coordinate_operation={
            "Eastings": 1000.0, "Northings": 2000.0, "OrthogonalHeight": 50.0,
            "XAxisAbscissa": 1.0, "XAxisOrdinate": 0.0, "Scale": scale,
        },
    )  # fmt: skip
    (system,) = writer.file.by_type("IfcProjectedCRS")
    system.MapUnit = writer.file.create_entity("IfcSIUnit", None, "LENGTHUNIT", None, unit)
    return saved(writer, tmp_path)


@pytest.mark.parametrize(
    ("north", "turn"), [((0.0, 1.0), 0.0), ((-1.0, 1.0), 45.0), ((1.0, 0.0), -90.0)]
)
def test_true_north_is_told_anticlockwise_from_up(tmp_path, north, turn):
    writer = ModelWriter("m")
    georeference.edit_true_north(writer.file, true_north=north)
    assert true_north(saved(writer, tmp_path)) == pytest.approx(turn)


def test_a_model_that_says_nothing_has_north_up_and_no_place(tmp_path):
    model = saved(ModelWriter("m"), tmp_path)
    assert true_north(model) == 0.0
    assert site_of(model, SLAB, 0.0) == (None, [])


def test_the_slabs_corners_are_the_control_of_its_place(tmp_path):
    site, notes = site_of(on_map(tmp_path), SLAB, 500.0)
    assert [(c.name, c.plan) for c in site.control] == [("MAP1", (0, 0)), ("MAP2", (9000, 6000))]
    first, second = site.control
    assert (first.easting, first.northing) == pytest.approx((1000e3, 2000e3))
    assert (second.easting, second.northing) == pytest.approx((1009e3, 2006e3))
    assert site.level == pytest.approx(50500)
    assert (site.unit, site.scale) == (SiteUnit.M, 1.0)
    assert notes == [
        "Site: from the model's own place on the map; check it against marks on the ground."
    ]


@pytest.mark.parametrize(
    ("scale", "taken"), [(0.9996, True), (1.009, True), (1.011, False), (0.3048, False)]
)
def test_a_scale_that_is_no_grids_is_left_out(tmp_path, scale, taken):
    site, notes = site_of(on_map(tmp_path, scale), SLAB, 0.0)
    assert (site is not None) is taken
    if not taken:
        assert f"its scale of {scale:g} is no grid's" in notes[0]
    else:
        assert site.scale == pytest.approx(scale)


def test_a_scale_is_freed_of_the_noise_of_arithmetic():
    assert fine_scale(1 + 5e-10) == 1.0
    assert fine_scale(1 + 5e-9) != 1.0
