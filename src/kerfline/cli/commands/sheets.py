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
    from kerfline.app.day_job import plan_beside
    from kerfline.app.deliver import contents
    from kerfline.app.file_names import file_stem
    from kerfline.app.open_job import open_job
    from kerfline.app.redraw import layout_file_of, redraw_job
    from kerfline.app.summary import set_text
    from kerfline.app.write_files import write_files
    from kerfline.units import parse_scale

    job = open_job(source)
    job = job.for_review() if review else job
    usual = Path("out") / file_stem(job.name)
    folder = out or usual
    outcome = redraw_job(
        job,
        saved or layout_file_of(job, folder, usual, source.parent / usual),
        size=size,
        scale=parse_scale(scale) if scale else 0.0,
        units=Unit(units) if units else None,
    )
    files = contents(outcome, plan_beside(outcome, source))
    click.echo(set_text(write_files(outcome, folder, "sheets", files)))
