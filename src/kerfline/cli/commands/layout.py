"""``kerfline layout``: place the joints and write the sheets."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import SOURCE, slab_options, wishes_of
from kerfline.cli.progress import progress


@click.command()
@SOURCE
@slab_options()
@click.option(
    "--out", type=click.Path(path_type=Path), help="Folder to write to; out/NAME by default."
)
@click.option("--effort", type=click.FloatRange(min=0.1), help="Seconds that the search may take.")
@click.pass_context
def layout(context: click.Context, /, source: Path, out: Path | None, **options: Any) -> None:
    """Place the joints of a slab and write its sheets.

    SOURCE is a job file (.toml) or a drawing (.dxf, with --thickness).
    """
    from kerfline.app.deliver import deliver, file_stem
    from kerfline.app.lay_out import lay_out_job
    from kerfline.app.open_job import open_job
    from kerfline.app.summary import findings_text, summary

    tell = progress()
    job = open_job(source, wishes_of(options))
    outcome = lay_out_job(job, tell)
    tell("drawing the sheets")
    written = deliver(outcome, out or Path("out") / file_stem(job.name))
    for note in (*job.notes, *outcome.layout.notes):
        click.echo(f"note      {note}")
    click.echo(summary(outcome, written))
    if outcome.findings:
        click.echo(findings_text(outcome.findings))
    context.exit(0 if outcome.clean else 1)
