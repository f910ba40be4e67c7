"""Our LandXML read by a reader that is not ours: ``survte`` 0.3 (MIT), of the package index.

It reads heights beside every point, and wants windows on the screen to be there; a stand-in does for those.
No index carries the standard's schema as a package, so that the order and names of the elements are held by
this reader and by ``test_points_file`` alone.
"""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType
from xml.etree import ElementTree

import pytest

from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import open_job
from kerfline.app.site_files import site_files
from kerfline.files.land_xml import NAMESPACE, UNDATED, land_xml
from kerfline.files.points_file import SitePoint
from kerfline.model.site import Site
from kerfline.units import SiteUnit
from paged import HOUSE, house

SITE = """
[site]
units = "m"
level = 103.25

[[site.point]]
name = "CP1"
plan = [0, 0]
easting = 5000.0
northing = 2000.0
height = 103.1

[[site.point]]
name = "CP2"
plan = [30, 0]
easting = 5009.144
northing = 2000.0
height = 103.2
"""


@pytest.fixture
def reader(monkeypatch):
    """The package's own parser, loaded from where it is installed."""
    found = importlib.util.find_spec("survte2")
    if found is None:
        pytest.skip("survte is not installed")
    windows = ModuleType("PyQt5.QtWidgets")
    windows.QMessageBox = windows.QFileDialog = object
    monkeypatch.setitem(sys.modules, "PyQt5", ModuleType("PyQt5"))
    monkeypatch.setitem(sys.modules, "PyQt5.QtWidgets", windows)
    for name in ("landxml_exporter", "landxml_objects", "landxml_parser"):
        monkeypatch.delitem(sys.modules, name, raising=False)
    monkeypatch.syspath_prepend(str(Path(found.origin).parent))
    from landxml_parser import LandXMLParser

    return LandXMLParser()


def test_every_point_is_read_where_the_table_has_it(reader, tmp_path):
    outcome = lay_out_job(open_job(house(tmp_path, HOUSE + SITE)))
    files = site_files(outcome.job, outcome.layout)
    xml, table = (next(v for k, v in files.items() if k.endswith(end)) for end in (".xml", ".csv"))
    (tmp_path / "points.xml").write_bytes(xml)
    reader.parse(str(tmp_path / "points.xml"))

    read = {p.name: (p.north, p.east, p.elevation) for p in reader.parse_points()}
    rows = [line.split(",") for line in table.decode().splitlines()]
    assert len(read) == len(rows) > 8
    for name, *place in (row[:4] for row in rows):
        assert read[name] == pytest.approx(tuple(map(float, place)), abs=1e-3)
    assert read["CP1"] == (2000.0, 5000.0, 103.1)


def xml(unit=SiteUnit.M, day="2026-05-14", height=None):
    site = Site(control=(), unit=unit)
    point = SitePoint(name="P1", easting=2000.0, northing=1000.0, height=height, what="corner")
    path = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0)]
    return ElementTree.fromstring(land_xml("Yard", day, [point], [("J1", "joint", path)], site))


def texts_of(root, tag):
    return [element.text for element in root.iter(f"{{{NAMESPACE}}}{tag}")]


def test_northing_stands_before_easting_and_a_height_last():
    assert texts_of(xml(), "CgPoint") == ["1.000000 2.000000"]
    assert texts_of(xml(height=101.5), "CgPoint") == ["1.000000 2.000000 0.101500"]


def test_a_line_of_three_places_is_two_segments():
    assert texts_of(xml(), "Start") == ["0.000000 0.000000", "0.000000 1.000000"]
    assert texts_of(xml(), "End") == ["0.000000 1.000000", "0.500000 1.000000"]


@pytest.mark.parametrize(
    ("unit", "tag", "name"),
    [
        (SiteUnit.M, "Metric", "meter"),
        (SiteUnit.FT, "Imperial", "foot"),
        (SiteUnit.SURVEY_FT, "Imperial", "USSurveyFoot"),
    ],
)
def test_the_unit_is_named_as_the_standard_names_it(unit, tag, name):
    (units,) = xml(unit).iter(f"{{{NAMESPACE}}}{tag}")
    assert units.get("linearUnit") == name


@pytest.mark.parametrize(
    ("day", "date"),
    [("2026-05-14", "2026-05-14"), ("May", UNDATED), ("", UNDATED), ("2026-13-01", UNDATED)],
)
def test_a_date_is_one_of_the_calendar(day, date):
    assert xml(day=day).get("date") == date
