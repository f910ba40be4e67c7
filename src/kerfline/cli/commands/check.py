"""``kerfline check``: hold an existing layout against the rules."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import SOURCE, slab_options, wishes_of
from kerfline.cli.progress import progress


@click.command()
@SOURCE
@slab_options(many_rules=True)
@click.option(
    "--mend",
    is_flag=True,
    help="Add the fewest joints that clear the errors, and write the amended plan.",
)
@click.option(
    "--out", type=click.Path(path_type=Path), help="Folder to write to; out/NAME by default."
)
@click.pass_context
def check(
    context: click.Context, /, source: Path, out: Path | None, *, mend: bool, **options: Any
) -> None:
    """Hold the joints of a job file or a drawing against the rules.

    SOURCE is a job file (.toml) that gives its joints, or a drawing (.dxf, with --thickness). Give
    --rules several times to compare rule sets side by side.
    """
    from kerfline.app.check import check_job
    from kerfline.app.check_report import check_contents, report, verdicts_of
    from kerfline.app.deliver import file_stem
    from kerfline.app.open_job import open_job
    from kerfline.app.summary import summary
    from kerfline.files.atomic import write_all

    named = options.pop("rules")
    job = open_job(source, wishes_of({**options, "rules": named[0] if named else None}))
    outcome = check_job(job)
    sets = verdicts_of(outcome, named)
    folder = out or Path("out") / file_stem(job.name)
    files = check_contents(outcome, sets)
    if mend:
        words = _mended(outcome.job, folder, files)
    else:
        written = write_all(folder, files)
        words = f"files     {folder} ({', '.join(p.name for p in written)})"
    for note in job.notes:
        click.echo(f"note      {note}")
    click.echo(summary(outcome))
    click.echo("\n" + report(outcome, sets) + "\n")
    click.echo(words)
    context.exit(0 if outcome.clean else 1)


def _mended(job: Any, folder: Path, files: dict[str, bytes]) -> str:
    """Mends the job's layout, writes check and amended plan together, and says what was done."""
    from kerfline.app.deliver_mend import mend_contents, mend_text
    from kerfline.app.mend import mend_job
    from kerfline.files.atomic import write_all

    mended = mend_job(job, progress())
    written = write_all(folder, {**files, **mend_contents(mended)})
    return mend_text(mended, written)
