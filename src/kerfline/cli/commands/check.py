"""``kerfline check``: hold an existing layout against the rules."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, slab_options, wishes_of
from kerfline.cli.progress import progress

if TYPE_CHECKING:
    from kerfline.app.check_beside import Beside
    from kerfline.app.outcome import Outcome
    from kerfline.model.job import Job


@click.command()
@SOURCES
@slab_options(many_rules=True)
@click.option(
    "--depth",
    metavar="LENGTH",
    help='Depth of cut noted for control joints that have none, such as "1 1/4 in".',
)
@click.option(
    "--repair",
    metavar="LENGTH",
    help="How far a joint in a drawing that stops short or runs over is mended; 2 in by default.",
)
@click.option(
    "--plan",
    type=click.Path(path_type=Path),
    help="The plan that the joints were cut by (NAME-layout.json, .dxf or .toml), for a survey.",
)
@click.option(
    "--survey",
    type=click.Path(path_type=Path),
    help="Points measured on site (as NAME-points.csv), for a job with [site].",
)
@click.option(
    "--beside",
    type=click.Path(path_type=Path),
    help="The slab next door (NAME-layout.json, .dxf or .toml), in the same coordinates.",
)
@click.option(
    "--mend",
    is_flag=True,
    help="Add the fewest joints that clear the errors, and write the amended plan.",
)
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@many_options
def check(
    source: tuple[Path, ...],
    out: Path | None,
    *,
    mend: bool,
    again: bool,
    workers: int | None,
    limit: float,
    **options: Any,
) -> None:
    """Hold the joints of a job file or a drawing against the rules.

    SOURCE is a job file (.toml) that gives its joints, or a drawing (.dxf, with --thickness). Give
    --rules several times to compare rule sets side by side; the first one counts for the exit status.

    Several files, folders or patterns are checked at once, each into a folder of its own, with a summary.
    """
    from kerfline.app.many.sources import are_many

    if not are_many(source):
        _one(source[0], out, mend=mend, **options)
        return
    for name, said in {
        "--mend": mend,
        "--plan": options["plan"],
        "--beside": options["beside"],
        "--survey": options["survey"],
    }.items():
        if said:
            raise click.UsageError(f"{name} is for one slab")
    named = options.pop("rules")
    wishes = wishes_of({**options, "rules": named[0] if named else None}, asks=True)
    do_all(
        "check", source, wishes, out, rules=named, depth=options["depth"], again=again, workers=workers,
        limit=limit,
    )  # fmt: skip


def _one(source: Path, out: Path | None, *, mend: bool, **options: Any) -> None:
    """Checks one slab and says all that there is to say of it."""
    from kerfline.app.check import with_depth
    from kerfline.app.check_report import check_contents, reading_text, report, verdicts_of
    from kerfline.app.open_job import open_job
    from kerfline.app.reading_picture import pictured
    from kerfline.app.summary import set_text, summary
    from kerfline.app.write_files import usual_folder, write_files

    named = options.pop("rules")
    wishes = wishes_of({**options, "rules": named[0] if named else None}, asks=True)
    with pictured(out):
        job = with_depth(open_job(source, wishes), options["depth"])
    outcome, points, said = _held(job, source, out, options)
    sets = verdicts_of(outcome, named)
    files, words = {**check_contents(outcome, sets), **points}, said
    if mend:
        more, told = _mended(outcome)
        files, words = files | more, words + told
    written = write_files(outcome, out or usual_folder(outcome), "check", files)
    parts = (reading_text(job), summary(outcome), report(outcome, sets), words + set_text(written))
    click.echo("\n\n".join(part for part in parts if part))
    click.get_current_context().exit(0 if outcome.clean else 1)


def _held(
    job: "Job", source: Path, out: Path | None, options: dict[str, Any]
) -> "tuple[Outcome, dict[str, bytes], str]":
    """The layout held against the rules, and against a survey by points: its files, and what it says."""
    from kerfline.app.check import check_job
    from kerfline.app.survey import planned, survey_text, with_survey

    if options["survey"] is None:
        return check_job(job, _beside(job, options["plan"], options["beside"])), {}, ""
    if job.slab.pinned:
        outcome = check_job(job, _beside(job, options["plan"], options["beside"]))
    else:
        outcome = planned(job, options["plan"], source, out)
    held, survey, files = with_survey(outcome, options["survey"])
    return held, files, survey_text(survey, job.display)


def _beside(job: "Job", plan: Path | None, neighbour: Path | None) -> "Beside":
    """The plan and the slab next door that the user named."""
    from kerfline.app.check_beside import Beside, other_of

    return Beside(
        plan=other_of(plan, job, "--plan") if plan else None,
        neighbour=other_of(neighbour, job, "--beside") if neighbour else None,
    )


def _mended(outcome: "Outcome") -> tuple[dict[str, bytes], str]:
    """Mends the layout: the files of the amended plan, and what was done."""
    from kerfline.app.deliver_mend import mend_contents, mend_text
    from kerfline.app.mend import mend

    mended = mend(outcome, progress())
    return mend_contents(mended), f"{mend_text(mended)}\n"
