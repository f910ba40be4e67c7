"""Points and lines of a site as LandXML 1.2, which field controllers and survey programs read.

Coordinates stand as ``northing easting`` or ``northing easting elevation`` (LandXML 1.2, PointType).
"""

from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from xml.etree import ElementTree as Xml

from kerfline.files.points_file import SitePoint
from kerfline.geometry.ring import Point
from kerfline.model.site import Site
from kerfline.units import SiteUnit

NAMESPACE = "http://www.landxml.org/schema/LandXML-1.2"
UNDATED = "2000-01-01"
"""The standard demands a date; where the job has none, a fixed one keeps the same input the same bytes."""

MIDNIGHT = "00:00:00"
DECIMALS = 6

_METRIC = {
    "areaUnit": "squareMeter",
    "linearUnit": "meter",
    "volumeUnit": "cubicMeter",
    "temperatureUnit": "celsius",
    "pressureUnit": "milliBars",
}
_IMPERIAL = {
    "areaUnit": "squareFoot",
    "volumeUnit": "cubicYard",
    "temperatureUnit": "fahrenheit",
    "pressureUnit": "inchHG",
}
_FEET = {SiteUnit.FT: "foot", SiteUnit.SURVEY_FT: "USSurveyFoot"}

Line = tuple[str, str, Sequence[Point]]
"""Name, description and places on site (easting and northing, mm) of a line."""


def land_xml(
    name: str, day: str, points: Sequence[SitePoint], lines: Sequence[Line], site: Site
) -> bytes:
    """The points and lines of a site.

    Args:
        name: Name of the job.
        day: Its date; anything but a date of the calendar (``2026-05-14``) stands for none.
        points: The points.
        lines: The lines.
        site: Its unit.
    """
    root = Xml.Element(
        "LandXML",
        {
            "xmlns": NAMESPACE,
            "version": "1.2",
            "date": _date(day),
            "time": MIDNIGHT,
            "readOnly": "false",
        },
    )
    units = Xml.SubElement(root, "Units")
    if site.unit is SiteUnit.M:
        Xml.SubElement(units, "Metric", _METRIC)
    else:
        Xml.SubElement(units, "Imperial", {"linearUnit": _FEET[site.unit], **_IMPERIAL})
    Xml.SubElement(root, "Project", {"name": name})
    Xml.SubElement(root, "Application", {"name": "kerfline"})
    group = Xml.SubElement(root, "CgPoints")
    for point in points:
        made = Xml.SubElement(group, "CgPoint", {"name": point.name, "desc": point.what})
        height = () if point.height is None else (point.height,)
        made.text = _written((point.northing, point.easting, *height), site)
    features = Xml.SubElement(root, "PlanFeatures", {"name": "slab and joints"})
    for title, what, path in lines:
        feature = Xml.SubElement(features, "PlanFeature", {"name": title, "desc": what})
        geometry = Xml.SubElement(feature, "CoordGeom")
        for start, end in pairwise(path):
            line = Xml.SubElement(geometry, "Line")
            for tag, (easting, northing) in (("Start", start), ("End", end)):
                Xml.SubElement(line, tag).text = _written((northing, easting), site)
    Xml.indent(root)
    return bytes(Xml.tostring(root, encoding="UTF-8", xml_declaration=True)) + b"\n"


def _written(coordinates: Sequence[float], site: Site) -> str:
    return " ".join(
        f"{round(mm / site.unit.mm, DECIMALS) + 0.0:.{DECIMALS}f}" for mm in coordinates
    )


def _date(said: str) -> str:
    try:
        return date.fromisoformat(said).isoformat()
    except ValueError:
        return UNDATED
