"""``kerfline demo``: lay out a building of our own invention."""

from pathlib import Path

import click

from kerfline.cli.progress import progress


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder to write to; out/community-workshop by default.",
)
def demo(out: Path | None) -> None:
    """Lay out an invented community workshop and write all its sheets."""
    from kerfline.app.deliver import deliver, file_stem
    from kerfline.app.demo import demo_job
    from kerfline.app.lay_out import lay_out_job
    from kerfline.app.summary import findings_text, summary

    job = demo_job()
    outcome = lay_out_job(job, progress())
    written = deliver(outcome, out or Path("out") / file_stem(job.name))
    click.echo(summary(outcome, written))
    if outcome.findings:
        click.echo(findings_text(outcome.findings))
