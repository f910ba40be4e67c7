"""``kerfline demo``: lay out a building of our own invention."""

from pathlib import Path

import click

from kerfline.cli.options import FOLDER
from kerfline.cli.progress import progress


@click.command()
@click.option(
    "--out",
    type=FOLDER,
    help="Folder to write to; out/community-workshop by default.",
)
def demo(out: Path | None) -> None:
    """Lay out an invented community workshop, plan its day and write all its sheets."""
    from kerfline.library import demo as workshop

    result = workshop(progress())
    click.echo(result.summary(result.write(out)))
    if result.findings:
        click.echo(result.findings_text())
