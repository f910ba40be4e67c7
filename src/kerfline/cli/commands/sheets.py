"""``kerfline sheets``: draw the sheets of a layout anew."""

from pathlib import Path

import click

from kerfline.cli.options import FOLDER, REVIEW, SOURCE
from kerfline.units import Unit


@click.command()
@SOURCE
@click.option(
    "--layout",
    "saved",
    type=click.Path(path_type=Path),
    help="The NAME-layout.json to draw; by default that in --out, else where kerfline layout leaves it.",
)
@click.option(
    "--size",
    default="",
    metavar="NAME",
    help="Sheet size: letter, tabloid, ansi-c to ansi-e, arch-a to arch-e1, a4 to a0.",
)
@click.option("--scale", default="", metavar="SCALE", help='Scale, such as 1/8"=1\'-0" or 1:100.')
@click.option(
    "--units", type=click.Choice([u.value for u in Unit]), help="Unit to write lengths in."
)
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@REVIEW
def sheets(
    source: Path,
    saved: Path | None,
    size: str,
    scale: str,
    units: str | None,
    out: Path | None,
    *,
    review: bool,
) -> None:
    """Draw the sheets of a layout at another size, scale or unit, without laying out anew.

    SOURCE is the job file (.toml).
    """
    from kerfline.library import redraw

    result = redraw(
        source, layout=saved, folder=out, size=size, scale=scale, units=units, review=review
    )
    click.echo(result.write(out).text)
