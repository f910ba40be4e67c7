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
    from kerfline.app.demo import demo, demo_contents
    from kerfline.app.summary import findings_text, summary
    from kerfline.app.write_files import usual_folder, write_files

    day = demo(progress())
    outcome = day.outcome
    written = write_files(outcome, out or usual_folder(outcome), "demo", demo_contents(day))
    click.echo(summary(outcome, written))
    if outcome.findings:
        click.echo(findings_text(outcome.findings))
