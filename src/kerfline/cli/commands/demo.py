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
    from kerfline.app.file_names import file_stem
    from kerfline.app.summary import findings_text, summary
    from kerfline.files.atomic import write_all

    day = demo(progress())
    outcome = day.outcome
    folder = out or Path("out") / file_stem(outcome.job.name)
    written = write_all(folder, demo_contents(day))
    click.echo(summary(outcome, written))
    if outcome.findings:
        click.echo(findings_text(outcome.findings))
