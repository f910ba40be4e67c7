"""``kerfline day``: plan the placement day of a job."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import FOLDER, SOURCE, slab_options, wishes_of
from kerfline.cli.progress import progress


@click.command()
@SOURCE
@slab_options(drawing=False)
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@click.pass_context
def day(context: click.Context, /, source: Path, out: Path | None, **options: Any) -> None:
    """Plan the placement day: concrete, pours, weather, saw windows, cutting order, take-off.

    SOURCE is a job file (.toml); its [day] tables say what is known of the day. What is not known is
    asked for or shown as an assumption.
    """
    from kerfline.app.day_job import day_contents, day_job
    from kerfline.app.summary import set_text
    from kerfline.app.write_files import usual_folder, write_files
    from kerfline.sheets.day.text import day_text

    planned = day_job(source, wishes_of(options), progress())
    outcome = planned.outcome
    written = write_files(outcome, out or usual_folder(outcome), "day", day_contents(planned))
    click.echo(day_text(planned.plan, outcome.job.display))
    click.echo(set_text(written))
    context.exit(0 if outcome.clean else 1)
