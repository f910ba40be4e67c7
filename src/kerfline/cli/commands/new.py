"""``kerfline new``: say what a drawing or a size holds and write a job file from it."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import SOURCE, said, slab_options


@click.command()
@SOURCE
@slab_options()
@click.option(
    "--job",
    "target",
    type=click.Path(path_type=Path),
    help="Job file to write; beside the drawing by default.",
)
@click.option("--force", is_flag=True, help="Write over a job file that is there already.")
def new(source: Path, target: Path | None, *, force: bool, **options: Any) -> None:
    """Report what a drawing or a size holds and write a job file from it, ready to edit.

    SOURCE is a drawing (.dxf, .dwg, .pdf), a building model (.ifc) or the slab's size: "40 ft x 28 ft", or the way round it: "right 40 ft, up
    28 ft, left 12 ft, down 8 ft, left 28 ft" (closes by itself).
    """
    from kerfline.library import new_job
    from kerfline.library.opening import pictured

    with pictured(target.parent if target else source.parent):
        path = new_job(source, options=said(options), target=target, force=force, tell=click.echo)
    click.echo(f"wrote {path}: read it, correct it, then run: kerfline layout {path}")
