"""``kerfline view`` and ``kerfline page``: the local page, and the same page as one file."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import FOLDER, SOURCE, said, slab_options
from kerfline.cli.progress import progress


@click.command()
@click.argument("source", type=click.Path(path_type=Path), required=False)
@click.option("--thickness", default="", metavar="LENGTH", help="Slab thickness, for a drawing.")
@click.option(
    "--port", default=0, show_default="a free one", help="Port on this computer's own address."
)
@click.option("--no-open", is_flag=True, help="Do not open the browser.")
def view(source: Path | None, thickness: str, port: int, *, no_open: bool) -> None:
    """See the layout in the browser, move joints, and know at once what holds.

    SOURCE is a job file (.toml) or a drawing (.dxf); without it the page begins with an empty slab to
    draw. Only this computer can reach the page.
    """
    from kerfline.web import serve

    serve(source, port, open_browser=not no_open, thickness=thickness, tell=click.echo)


@click.command()
@SOURCE
@slab_options()
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
def page(source: Path, out: Path | None, **options: Any) -> None:
    """Write the cuts as one page for the crew's tablet, readable without a network.

    SOURCE is a job file (.toml) or a drawing (.dxf, with --thickness).
    """
    from kerfline.library import lay_out
    from kerfline.web.crew_page import CrewPage

    result = CrewPage(lay_out(source, options=said(options), progress=progress()))
    click.echo(f"wrote {result.write(out)[0]}")
