"""The files that a surveyor sets a layout out from, where the job ties its plan to the ground."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from kerfline.app.file_names import file_stem
from kerfline.app.sheet_files import sheet_files
from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.site import Site
from kerfline.placement.survey_points import SurveyPoint, survey_points

if TYPE_CHECKING:
    from kerfline.files.points_file import SitePoint


def site_files(job: Job, layout: Layout) -> dict[str, bytes]:
    """Points as text and LandXML, and the points sheet; nothing where the job has no site.

    Args:
        job: The job, its sheets' run mark set.
        layout: The layout that is set out.
    """
    from kerfline.files.land_xml import land_xml
    from kerfline.files.points_file import SitePoint, points_csv
    from kerfline.sheets.points_sheet import points_sheet

    site = job.site
    if site is None:
        return {}
    points = survey_points(job.slab, layout)
    control = [
        SitePoint(
            name=c.name, easting=c.easting, northing=c.northing, height=c.height, what="control"
        )
        for c in site.control
    ]
    placed = [*control, *(_on_site(p, site) for p in points)]
    stem = file_stem(job.name)
    day = job.sheet.fields.get("date", "")
    lines = [
        (name, what, [site.similarity.to_site(at) for at in path])
        for name, what, path in _lines(job, layout)
    ]
    return {
        **sheet_files(f"{stem}-points-sheet", points_sheet(job, layout, site, points)),
        f"{stem}-points.csv": points_csv(placed, site),
        f"{stem}-points.xml": land_xml(job.name, day, placed, lines, site),
    }


def _on_site(point: SurveyPoint, site: Site) -> "SitePoint":
    from kerfline.files.points_file import SitePoint

    easting, northing = site.similarity.to_site(point.at)
    return SitePoint(
        name=point.name, easting=easting, northing=northing, height=site.level, what=point.what
    )


def _lines(job: Job, layout: Layout) -> Iterator[tuple[str, str, Sequence[Point]]]:
    """The slab's edge, its openings and its joints."""
    rings = [("SLAB", "slab edge", job.slab.outline)]
    rings += [(f"OPEN{n}", f"opening {n}", ring) for n, ring in enumerate(job.slab.openings, 1)]
    for name, what, ring in rings:
        yield name, what, (*ring.coordinates, ring.coordinates[0])
    for joint in layout.joints:
        yield joint.id, f"{joint.kind.value} joint", joint.path
