"""``kerfline layout``: place the joints and write the sheets."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, REVIEW, said, slab_options
from kerfline.cli.progress import progress

if TYPE_CHECKING:
    from kerfline.library import Options


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
    from kerfline.library import slabs_of
    from kerfline.library.many import are_many

    asked = said({**options, "review": review})
    if are_many(source):
        if alternatives > 1:
            raise click.UsageError("--alternatives is for one slab")
        do_all("layout", source, asked, out, again=again, workers=workers, limit=limit)
    else:
        clean = [_one(source[0], out, alternatives, each) for each in slabs_of(source[0], asked)]
        click.get_current_context().exit(0 if all(clean) else 1)


def _one(source: Path, out: Path | None, alternatives: int, options: "Options") -> bool:
    """Lays one slab out and says all that there is to say of it; whether it has no errors."""
    from kerfline.library import lay_out
    from kerfline.library.opening import pictured

    tell = progress()
    with pictured(out):
        result = lay_out(source, options=options, alternatives=alternatives, progress=tell)
    tell("drawing the sheets")
    written = result.write(out)
    for words in result.reading:
        click.echo(f"read      {words}")
    for note in result.notes:
        click.echo(f"note      {note}")
    click.echo(result.summary(written))
    if table := result.comparison():
        click.echo(f"\n{table}\n")
    if result.findings:
        click.echo(result.findings_text())
    return result.clean
