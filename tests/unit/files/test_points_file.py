"""Points of a site as text and as LandXML: written, read back, refused."""

import csv
import io
import math
from xml.etree import ElementTree as Xml

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.files.land_xml import NAMESPACE, land_xml
from kerfline.files.points_file import SitePoint, points_csv, read_points
from kerfline.model.site import ControlPoint, Site
from kerfline.units import SiteUnit

PLACES = {"x": NAMESPACE}


def site(unit: SiteUnit = SiteUnit.M, *, easting_first: bool = False, turn: float = 0.5) -> Site:
    c, s = math.cos(turn), math.sin(turn)
    control = (
        ControlPoint(name="A", plan=(0.0, 0.0), easting=5e8, northing=4.1e9),
        ControlPoint(name="B", plan=(5e4, 0.0), easting=5e8 + 5e4 * c, northing=4.1e9 + 5e4 * s),
    )
    return Site(control=control, unit=unit, easting_first=easting_first)


POINTS = (
    SitePoint(name="J1-1", easting=500_000_123.4, northing=4_100_000_567.8, what="joint J1 end"),
    SitePoint(name="CP 1", easting=1.0, northing=-2.0, height=101_250.0, what="control"),
)


def test_order_and_digits():
    text = points_csv(POINTS, site()).decode()
    assert text.split("\r\n") == [
        "J1-1,4100000.5678,500000.1234,,joint J1 end",
        "CP 1,-0.0020,0.0010,101.2500,control",
        "",
    ]
    first = points_csv(POINTS, site(easting_first=True)).decode().split("\r\n")[0]
    assert first == "J1-1,500000.1234,4100000.5678,,joint J1 end"


def test_feet_of_both_kinds():
    """One US survey foot is 1200/3937 m, the other 0.3048 m (NIST SP 811, B.6)."""
    point = [SitePoint(name="P", easting=304.8, northing=1_200_000 / 3937)]
    assert points_csv(point, site(SiteUnit.FT)).startswith(b"P,1.0000,1.0000")
    far = [SitePoint(name="P", easting=0.0, northing=2_000_000 * 304.8)]
    assert points_csv(far, site(SiteUnit.SURVEY_FT)).startswith(b"P,1999996.0000,")


coordinate = st.floats(-2e5, 2e5)


@given(
    st.lists(st.tuples(coordinate, coordinate), min_size=1, max_size=20),
    st.sampled_from(SiteUnit),
    st.booleans(),
    st.floats(-4, 4),
)
def test_plan_to_site_to_file_to_plan_within_a_tenth_of_a_millimetre(
    tmp_path_factory, plan, unit, easting_first, turn
):
    ground = site(unit, easting_first=easting_first, turn=turn)
    placed = [
        SitePoint(name=f"P{n}", easting=e, northing=north)
        for n, (e, north) in enumerate(map(ground.similarity.to_site, plan))
    ]
    path = tmp_path_factory.mktemp("points") / "points.csv"
    path.write_bytes(points_csv(placed, ground))
    read = read_points(path, ground)
    for number, point in enumerate(plan):
        back = ground.similarity.to_plan(read[f"P{number}"].at)
        assert math.dist(back, point) < 0.1


def test_headings_blank_lines_and_missing_ends_are_taken(tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text("Point,Northing,Easting\n\nP1,10.5,20.25\nP2,1,2,3\n", encoding="utf-8-sig")
    read = read_points(path, site())
    assert read["P1"].at == (20_250.0, 10_500.0)
    assert read["P1"].height is None
    assert read["P2"].height == 3000.0


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("P1,1,2\nP2,x,2\nP3,1\n", ["line 2: this is no point", "line 3: this is no point"]),
        ("P1,1,2\nP1,1,2\n", ["point P1 stands there twice"]),
        ("P1,1,2\nP2,nan,2\n", ["line 2"]),
        ("P1,1,2\nP2,1e300,2\n", ["line 2"]),
        ("P1,1,2,tall\n", ["line 1"]),
        (",1,2\n", ["line 1"]),
        ("", ["this file holds no points"]),
        ("a\x00b", ["this is no file of points"]),
    ],
)
def test_what_is_no_point_is_told_by_its_line(tmp_path, text, words):
    path = tmp_path / "survey.csv"
    path.write_text(text)
    with pytest.raises(InputRefused) as refused:
        read_points(path, site())
    for word in words:
        assert word in str(refused.value)


def test_no_such_survey(tmp_path):
    with pytest.raises(InputRefused, match="the survey cannot be read"):
        read_points(tmp_path / "gone.csv", site())


def test_land_xml():
    """Element and attribute names after LandXML 1.2; coordinates north first (its PointType)."""
    lines = [("J1", "control joint", [(0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0)])]
    data = land_xml("Shed & yard", "2026-05-14", POINTS, lines, site())
    root = Xml.fromstring(data)
    assert root.tag == f"{{{NAMESPACE}}}LandXML"
    assert (root.get("version"), root.get("date")) == ("1.2", "2026-05-14")
    assert root.find("x:Units/x:Metric", PLACES).get("linearUnit") == "meter"
    points = root.findall("x:CgPoints/x:CgPoint", PLACES)
    assert [p.get("name") for p in points] == ["J1-1", "CP 1"]
    assert points[0].text == "4100000.567800 500000.123400"
    assert points[1].text == "-0.002000 0.001000 101.250000"
    drawn = root.findall("x:PlanFeatures/x:PlanFeature/x:CoordGeom/x:Line", PLACES)
    ends = [(line.find("x:Start", PLACES).text, line.find("x:End", PLACES).text) for line in drawn]
    assert ends == [
        ("0.000000 0.000000", "0.000000 1.000000"),
        ("0.000000 1.000000", "0.500000 1.000000"),
    ]
    assert data == land_xml("Shed & yard", "2026-05-14", POINTS, lines, site())


def test_land_xml_in_survey_feet_and_without_a_date():
    root = Xml.fromstring(land_xml("Yard", "week 12", POINTS, [], site(SiteUnit.SURVEY_FT)))
    assert root.get("date") == "2000-01-01"
    assert root.find("x:Units/x:Imperial", PLACES).get("linearUnit") == "USSurveyFoot"


def test_a_spreadsheet_reads_the_text():
    rows = list(csv.reader(io.StringIO(points_csv(POINTS, site()).decode())))
    assert [len(row) for row in rows] == [5, 5]
