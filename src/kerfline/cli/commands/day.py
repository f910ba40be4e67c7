"""``kerfline day``: plan the placement day of a job."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, said, slab_options
from kerfline.cli.progress import progress

if TYPE_CHECKING:
    from kerfline.library import Options


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
    from kerfline.library.many import are_many

    if are_many(source):
        do_all("day", source, said(options), out, again=again, workers=workers, limit=limit)
    else:
        _one(source[0], said(options), out)


def _one(source: Path, options: "Options", out: Path | None) -> None:
    """Plans the day of one slab and says all that there is to say of it."""
    from kerfline.library import plan_day

    result = plan_day(source, options=options, progress=progress())
    written = result.write(out)
    for words in result.reading:
        click.echo(f"read      {words}")
    click.echo(result.text())
    click.echo(written.text)
    click.get_current_context().exit(0 if result.clean else 1)
