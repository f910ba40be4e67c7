"""The files that a surveyor sets out from."""

import csv
import io
from dataclasses import replace
from xml.etree import ElementTree as Xml

import pytest

from kerfline.app.site_files import site_files
from kerfline.model.site import ControlPoint, Site
from kerfline.units import SiteUnit
from shapes import workshop_job, workshop_layout

# The plan lies a quarter turn round: what goes right on it goes north on site.
SITE = Site(
    control=(
        ControlPoint(name="CP1", plan=(0, 0), easting=1_000_000, northing=500_000),
        ControlPoint(name="CP2", plan=(0, 10_000), easting=990_000, northing=500_000),
    ),
    unit=SiteUnit.M,
    level=12_500.0,
)


@pytest.fixture(scope="module")
def files():
    return site_files(replace(workshop_job(), site=SITE), workshop_layout())


def test_a_job_without_a_site_has_none():
    assert site_files(workshop_job(), workshop_layout()) == {}


def test_points_stand_on_site_where_the_turn_puts_them(files):
    rows = {
        row[0]: row[1:] for row in csv.reader(io.StringIO(files["workshop-points.csv"].decode()))
    }
    assert rows["CP1"][:2] == ["500.0000", "1000.0000"]
    assert rows["SLAB1"] == ["500.0000", "1000.0000", "12.5000", "slab corner"]
    assert rows["SLAB2"][:2] == ["518.2880", "1000.0000"], "60 ft to the north"


def test_the_slabs_edge_its_opening_and_every_joint_are_lines(files):
    root = Xml.fromstring(files["workshop-points.xml"])
    text = files["workshop-points.xml"].decode()
    assert root.tag.endswith("LandXML")
    for name in ("SLAB", "OPEN1", *(joint.id for joint in workshop_layout().joints)):
        assert f'name="{name}"' in text


def test_there_is_a_points_sheet(files):
    assert {"workshop-points-sheet.pdf", "workshop-points-sheet.svg"} <= set(files)
