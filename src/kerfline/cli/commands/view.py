"""``kerfline view`` and ``kerfline page``: the local page, and the same page as one file."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.options import FOLDER, PAGE, SCALE, SOURCE, UNITS, said, slab_options
from kerfline.cli.progress import progress


@click.command()
@click.argument("source", type=click.Path(path_type=Path), required=False)
@click.option("--thickness", metavar="LENGTH", help="Slab thickness, for a drawing or a size.")
@UNITS
@PAGE
@SCALE
@click.option(
    "--port", default=0, show_default="a free one", help="Port on this computer's own address."
)
@click.option("--no-open", is_flag=True, help="Do not open the browser.")
def view(source: Path | None, port: int, *, no_open: bool, **options: Any) -> None:
    """See the layout in the browser, move joints, and know at once what holds.

    SOURCE is a job file (.toml), a drawing (.dxf, .dwg, .pdf), a building model (.ifc) or a size such as
    "40 ft x 28 ft" (with --thickness); without it the page begins with an empty slab to draw. Only this
    computer can reach the page.
    """
    from kerfline.web import serve

    serve(source, port, open_browser=not no_open, options=said(options), tell=click.echo)


@click.command()
@SOURCE
@slab_options()
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
def page(source: Path, out: Path | None, **options: Any) -> None:
    """Write the cuts as one page for the crew's tablet, readable without a network.

    SOURCE is a job file (.toml), or with --thickness a drawing (.dxf, .dwg, .pdf), a building model (.ifc)
    or a size such as "40 ft x 28 ft".
    """
    from kerfline.library import lay_out
    from kerfline.web.crew_page import CrewPage

    result = CrewPage(lay_out(source, options=said(options), progress=progress()))
    click.echo(f"wrote {result.write(out)[0]}")
