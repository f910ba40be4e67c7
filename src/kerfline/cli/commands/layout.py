"""``kerfline layout``: place the joints and write the sheets."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, REVIEW, slab_options, wishes_of
from kerfline.cli.progress import progress


@click.command()
@SOURCES
@slab_options()
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@click.option(
    "--effort",
    type=click.FloatRange(min=0.1),
    help="Seconds of a plain machine, counted in steps, to prove the layout the best; 5 by default.",
)
@click.option(
    "--alternatives",
    type=click.IntRange(min=1, max=12),
    default=1,
    metavar="N",
    help="Up to N good layouts that differ, compared in a table, each with its own sheet.",
)
@REVIEW
@many_options
def layout(
    source: tuple[Path, ...],
    out: Path | None,
    alternatives: int,
    *,
    review: bool,
    again: bool,
    workers: int | None,
    limit: float,
    **options: Any,
) -> None:
    """Place the joints of a slab and write its sheets.

    SOURCE is a job file (.toml), or with --thickness a drawing (.dxf, .dwg, .pdf), a building model (.ifc) or the slab's size: "40 ft x 28 ft",
    or the way round it: "right 40 ft, up 28 ft, left 12 ft, down 8 ft, left 28 ft" (closes by itself). A
    layout that was kept in the job file from the page is drawn as it was kept.

    Several files, folders or patterns ("plans/*.toml") are done at once, each into a folder of its own, with
    a summary of all of them. Those that have not changed since are left as they are.
    """
    from kerfline.app.drawn_job import slabs_meant
    from kerfline.app.many.sources import are_many

    if are_many(source):
        if alternatives > 1:
            raise click.UsageError("--alternatives is for one slab")
        do_all(
            "layout", source, wishes_of(options), out, review=review, again=again, workers=workers, limit=limit,
        )  # fmt: skip
    else:
        clean = [
            _one(source[0], out, alternatives, review=review, **{**options, "slab": slab})
            for slab in slabs_meant(source[0], wishes_of(options))
        ]
        click.get_current_context().exit(0 if all(clean) else 1)


def _one(
    source: Path, out: Path | None, alternatives: int, *, review: bool, **options: Any
) -> bool:
    """Lays one slab out and says all that there is to say of it; whether it has no errors."""
    from kerfline.app.day_job import day_beside, plan_beside
    from kerfline.app.deliver import contents
    from kerfline.app.drawing_words import told_in_lines
    from kerfline.app.open_job import open_job
    from kerfline.app.reading_picture import pictured, reading_files
    from kerfline.app.summary import findings_text, summary
    from kerfline.app.write_files import usual_folder, write_files
    from kerfline.units import in_words

    tell = progress()
    readings: list[Any] = []
    with pictured(out):
        job = open_job(source, wishes_of(options), readings.append)
    job = job.for_review() if review else job
    day_beside(job, source)  # a day that cannot be used is refused before the search, not after it
    outcome, more, table = _laid_out(job, alternatives, tell)
    plan = plan_beside(outcome, source)
    tell("drawing the sheets")
    files = {**contents(outcome, plan), **more}
    for read in readings:
        files |= reading_files(read, job.name, job.reading)
    written = write_files(outcome, out or usual_folder(outcome), "layout", files)
    said = [in_words(note, job.display) for note in outcome.layout.notes]
    for words in told_in_lines(job.reading, job.notes):
        click.echo(f"read      {words}")
    for note in said:
        click.echo(f"note      {note}")
    click.echo(summary(outcome, written))
    if table:
        click.echo(f"\n{table}\n")
    if outcome.findings:
        click.echo(findings_text(outcome.findings))
    return bool(outcome.clean)


def _laid_out(job: Any, count: int, tell: Any) -> tuple[Any, dict[str, bytes], str]:
    """The best layout, the files of the others, and the table of all."""
    from kerfline.app.live import outcome_of

    if count == 1:
        return outcome_of(job, tell), {}, ""
    from kerfline.app.alternatives import choices
    from kerfline.app.deliver_choices import choices_contents, choices_table

    found = choices(job, count, tell)
    return found[0].outcome, choices_contents(found), choices_table(found, count)
