"""The ``[site]`` of a job: control points that tie the plan to the ground, and whether they can."""

from collections import Counter

from kerfline.errors import Mistake
from kerfline.files.job_locate import Places
from kerfline.files.job_schema import SiteTable
from kerfline.geometry.similarity import Fit
from kerfline.model.job import Job
from kerfline.model.site import ControlPoint, Site
from kerfline.units import Display, SiteUnit, Unit, format_depth, format_length

SAME_LEVEL = 1.0
"""Levels that differ by no more than this (mm) are one level."""

OUTLANDISH = 1e-2
"""A scale that the points give and that is farther from 1 than this is a slip in a unit, not a grid's."""


def build_site(table: SiteTable, units: Unit) -> Site:
    """The site that a table describes; its unit is metres or feet as the job's, where it does not say."""
    metric = units.display is Display.METRIC
    unit = table.units or (SiteUnit.M if metric else SiteUnit.FT)
    return Site(
        control=tuple(
            ControlPoint(
                name=point.name,
                plan=point.plan,
                easting=point.easting * unit.mm,
                northing=point.northing * unit.mm,
                height=None if point.height is None else point.height * unit.mm,
            )
            for point in table.point
        ),
        unit=unit,
        scale=None if table.scale == "fit" else table.scale,
        limit=table.limit,
        level=None if table.level is None else table.level * unit.mm,
        easting_first=table.first == "easting",
    )


def site_mistakes(job: Job, places: Places) -> list[Mistake]:
    """Control that has two points of one name, says no turn, or does not agree with the plan.

    Args:
        job: The job.
        places: Where each table of the job file stands.
    """
    site = job.site
    if site is None:
        return []
    counts = Counter(point.name.casefold() for point in site.control)
    found = [
        *_two_levels(job, site, places),
        *(
            Mistake(
                what=f"two control points are called {point.name}",
                where=places.of(("site", "point", i)),
                remedy="give each a name of its own",
            )
            for i, point in enumerate(site.control)
            if counts[point.name.casefold()] > 1
        ),
    ]
    if site.fit is None:
        what = "the control points are in one place, so that they tell no direction"
        remedy = "give two that are far apart, on the plan and on site"
        return [*found, Mistake(what=what, where=places.of(("site",)), remedy=remedy)]
    return [*found, *_disagreement(site, site.fit, job.display, places)]


def _two_levels(job: Job, site: Site, places: Places) -> list[Mistake]:
    """The top of slab told twice, not alike."""
    given = job.slab.level
    if given is None or site.level is None or abs(given - site.level) <= SAME_LEVEL:
        return []
    return [
        Mistake(
            what="the top of slab has two levels",
            where=places.of(("site",)),
            found=f"{format_length(given, job.display)} under [slab], "
            f"{format_length(site.level, job.display)} under [site]",
            remedy="leave one of them out, or correct it",
        )
    ]


def _disagreement(site: Site, fit: Fit, display: Display, places: Places) -> list[Mistake]:
    scale = fit.similarity.scale
    if site.scale is None and abs(scale - 1) > OUTLANDISH:
        return [
            Mistake(
                what="the control points give a scale that no grid has",
                where=places.of(("site",)),
                found=f"{scale:.6f}",
                allowed="0.99 to 1.01",
                remedy="check the units of the plan and of the site",
            )
        ]
    if fit.largest <= site.limit:
        return []
    told = ", ".join(
        f"{point.name} by {format_depth((e * e + n * n) ** 0.5, display)}"
        for point, (e, n) in zip(site.control, fit.residuals, strict=True)
    )
    return [
        Mistake(
            what=f"the control points do not agree with the plan: they miss it at {told}",
            where=places.of(("site",)),
            allowed=f"up to {format_depth(site.limit, display)} (limit under [site])",
            remedy="measure again, correct the point that is wrong, or say the scale of the grid",
        )
    ]
