"""``kerfline check``: hold an existing layout against the rules."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import SOURCE, slab_options, wishes_of


@click.command()
@SOURCE
@slab_options
@click.pass_context
def check(context: click.Context, /, source: Path, **options: Any) -> None:  # noqa: ANN401
    """Hold the joints of a job file or a drawing against the rules.

    SOURCE is a job file (.toml) that gives its joints, or a drawing (.dxf, with --thickness).
    """
    from kerfline.app.check import check_job
    from kerfline.app.open_job import open_job
    from kerfline.app.summary import findings_text, summary

    outcome = check_job(open_job(source, wishes_of(options)))
    click.echo(summary(outcome))
    if outcome.findings:
        click.echo(findings_text(outcome.findings, most=1000))
    context.exit(0 if outcome.clean else 1)
