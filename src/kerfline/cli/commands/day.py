"""``kerfline day``: plan the placement day of a job."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, slab_options, wishes_of
from kerfline.cli.progress import progress

if TYPE_CHECKING:
    from kerfline.app.wishes import Wishes


@click.command()
@SOURCES
@slab_options(drawing=False)
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@many_options
def day(
    source: tuple[Path, ...],
    out: Path | None,
    *,
    again: bool,
    workers: int | None,
    limit: float,
    **options: Any,
) -> None:
    """Plan the placement day: concrete, pours, weather, saw windows, cutting order, take-off.

    SOURCE is a job file (.toml); its [day] tables say what is known of the day. What is not known is
    asked for or shown as an assumption.

    Several files, folders or patterns are planned at once, each into a folder of its own, with a summary.
    """
    from kerfline.app.many.sources import are_many

    wishes = wishes_of(options)
    if are_many(source):
        do_all("day", source, wishes, out, again=again, workers=workers, limit=limit)
    else:
        _one(source[0], wishes, out)


def _one(source: Path, wishes: "Wishes", out: Path | None) -> None:
    """Plans the day of one slab and says all that there is to say of it."""
    from kerfline.app.day_job import day_contents, day_job
    from kerfline.app.summary import set_text
    from kerfline.app.write_files import usual_folder, write_files
    from kerfline.sheets.day.text import day_text

    planned = day_job(source, wishes, progress())
    outcome = planned.outcome
    written = write_files(outcome, out or usual_folder(outcome), "day", day_contents(planned))
    click.echo(day_text(planned.plan, outcome.job.display))
    click.echo(set_text(written))
    click.get_current_context().exit(0 if outcome.clean else 1)
