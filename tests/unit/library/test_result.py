"""A layout as a program gets it: tables, GeoJSON, a plan in a notebook, a pickle."""

import json
import pickle
from xml.etree import ElementTree

import ezdxf
import pytest
import shapely

import kerfline
from boathouses import OUTLINE, laid_out
from kerfline.library.result import Refusal


@pytest.fixture(scope="module")
def result():
    return laid_out()


def test_a_drawing_says_how_it_was_read_and_draws_it_also_after_pickling(tmp_path):
    drawing = ezdxf.new(units=ezdxf.units.FT)
    drawing.modelspace().add_lwpolyline(OUTLINE, close=True, dxfattribs={"layer": "SLAB EDGE"})
    path = tmp_path / "plan.dxf"
    drawing.saveas(path)
    read = kerfline.lay_out(path, thickness="4 in")
    assert "SLAB EDGE" in " ".join(read.reading)
    again = pickle.loads(pickle.dumps(read))
    assert again.files()["plan-reading.pdf"] == read.files()["plan-reading.pdf"]
    assert [options.slab for options in kerfline.slabs_of(path, kerfline.Options())] == [""]


def test_tables_and_geojson(result):
    panels = result.to_dataframe()
    assert list(panels["id"]) == [p.id for p in result.panels]
    assert panels["area"].sum() == pytest.approx(result.concrete.area, rel=1e-6)
    assert len(result.to_dataframe("joints")) == len(result.joints)
    assert len(result.to_dataframe("findings")) == len(result.findings)
    collection = json.loads(json.dumps(result.to_geojson()))
    assert collection["type"] == "FeatureCollection"
    shapes = [shapely.geometry.shape(f["geometry"]) for f in collection["features"]]
    assert all(shape.is_valid for shape in shapes)
    assert sum(s.area for s in shapes) == pytest.approx(result.concrete.area, rel=1e-6)


def test_a_notebook_is_shown_the_plan(result):
    drawing = ElementTree.fromstring(result._repr_svg_())
    assert drawing.tag.endswith("svg")
    said = "".join(drawing.itertext())
    assert "Boathouse" in said
    assert result.mark in said
    assert repr(result).startswith("<Result 'Boathouse': ")


def test_a_result_can_be_pickled(result):
    again = pickle.loads(pickle.dumps(result))
    assert again.to_dict() == result.to_dict()


def test_findings_are_counted_by_how_much_they_matter(result):
    bays = kerfline.Slab([(0, 0), (40, 0), (40, 20), (0, 20)], "4 in", joints=[[(20, 0), (20, 20)]])
    found = kerfline.check(bays)
    assert found.errors == sum(f.severity == "error" for f in found.findings) > 0
    assert found.warnings == sum(f.severity == "warning" for f in found.findings)
    assert result.errors == 0
    refused = Refusal(source="a", message="b")
    assert not refused.clean


def test_files_are_written_where_the_name_says_and_told(result, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    written = result.write()
    assert {path.parent.as_posix() for path in written} == {"out/boathouse"}
    assert {path.name for path in written} == set(result.files())
    assert "boathouse" in result.summary(written)
