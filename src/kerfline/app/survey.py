"""Holds points that were measured on site against the layout that was set out."""

from dataclasses import dataclass, replace
from pathlib import Path

from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.redraw import redraw_job, saved_layout
from kerfline.checks.check import in_order
from kerfline.checks.surveyed import Measured, off_plan, surveyed
from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job
from kerfline.model.site import Site
from kerfline.placement.survey_points import survey_points
from kerfline.units import Display, counted, format_depth, listed

MOST_NAMED = 8


@dataclass(frozen=True, kw_only=True)
class Survey:
    """A survey by points.

    Attributes:
        points: Those of the layout's points that were measured, with how far off each lies (mm).
        control: The control points that were measured again.
        missing: Names of the layout's points that were not measured.
        strange: Names of points that are none of the layout's.
    """

    points: tuple[tuple[Measured, float], ...]
    control: tuple[Measured, ...]
    missing: tuple[str, ...]
    strange: tuple[str, ...]


def planned(job: Job, plan: Path | None, source: Path, out: Path | None) -> Outcome:
    """The layout of a job that gives no joints itself: that of ``--plan``, else where layout left it.

    Raises:
        InputRefused: There is none, or it was made for another slab.
    """
    file = plan or saved_layout(job, source, out)
    return redraw_job(job, file, size="", scale=0.0, units=None)


def with_survey(outcome: Outcome, path: Path) -> tuple[Outcome, Survey, dict[str, bytes]]:
    """Holds a file of measured points against a layout.

    Args:
        outcome: The layout that was set out, and its findings.
        path: The points, as ``NAME-points.csv`` has them.

    Returns:
        The outcome with what the survey found, the survey, and its table as a file.

    Raises:
        InputRefused: The job has no site, the file cannot be read, or none of its points is the layout's.
    """
    from kerfline.files.points_file import survey_csv

    job, layout = outcome.job, outcome.layout
    site = _site_of(job)
    survey = _matched(outcome, site, path)
    found = surveyed(job.slab, layout, [p for p, _ in survey.points], job.display)
    held = replace(
        outcome,
        findings=in_order((*outcome.findings, *found)),
        beside=(*outcome.beside, *found),
    )
    rows = _rows(survey, site)
    return held, survey, {f"{file_stem(job.name)}-survey.csv": survey_csv(rows)}


def survey_text(survey: Survey, display: Display) -> str:
    """What the survey found, in a few lines."""
    offs = [off for _, off in survey.points]
    lines = [
        (
            f"survey    {counted(len(offs), 'point')} of the layout measured; the farthest lies "
            f"{format_depth(max(offs), display)} off its place"
        )
    ]
    if survey.control:
        off = format_depth(max(c.apart for c in survey.control), display)
        lines.append(f"          control measured again: {off} off at most")
    if survey.missing:
        lines.append(f"          not measured: {listed(survey.missing, MOST_NAMED)}")
    if survey.strange:
        lines.append(f"          none of the layout's points: {listed(survey.strange, MOST_NAMED)}")
    return "\n".join(lines) + "\n"


def _site_of(job: Job) -> Site:
    if job.site is None:
        raise InputRefused(
            Mistake(
                what="the job does not tie its plan to the ground, so points on site say nothing of it",
                where="--survey",
                remedy="give the control points under [site] in the job file",
            )
        )
    return job.site


def _matched(outcome: Outcome, site: Site, path: Path) -> Survey:
    from kerfline.files.points_file import read_points

    read = read_points(path, site)
    own = survey_points(outcome.job.slab, outcome.layout)
    lines = {joint.id: joint.line for joint in outcome.layout.joints}
    points = [
        Measured(
            name=p.name,
            what=p.what,
            planned=p.at,
            found=site.similarity.to_plan(read[p.name].at),
            joint=p.joint,
        )
        for p in own
        if p.name in read
    ]
    if not points:
        raise InputRefused(
            Mistake(
                what="none of these points is one of the layout's",
                where=path.name,
                remedy="measure points under the names of the points sheet",
            )
        )
    control = [
        Measured(name=c.name, what="control", planned=c.site, found=read[c.name].at)
        for c in site.control
        if c.name in read
    ]
    known = {p.name for p in own} | {c.name for c in site.control}
    return Survey(
        points=tuple((p, off_plan(p, lines)) for p in points),
        control=tuple(control),
        missing=tuple(p.name for p in own if p.name not in read),
        strange=tuple(name for name in read if name not in known),
    )


def _rows(survey: Survey, site: Site) -> list[dict[str, str]]:
    from kerfline.files.points_file import written

    rows = []
    for point, off in survey.points:
        planned_at, found_at = (site.similarity.to_site(at) for at in (point.planned, point.found))
        rows.append(
            {
                "point": point.name,
                "what": point.what,
                "planned_northing": written(planned_at[1], site),
                "planned_easting": written(planned_at[0], site),
                "northing": written(found_at[1], site),
                "easting": written(found_at[0], site),
                "apart_mm": f"{point.apart:.1f}",
                "off_line_mm": f"{off:.1f}",
            }
        )
    return rows
