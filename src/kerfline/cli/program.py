"""The ``kerfline`` command and its exit status.

0: done and clean. 1: done, with errors among the findings, and nothing else. 2: input refused, nothing
written; or output that cannot be written. 70: a mistake of the program's own. 130: stopped from the keyboard.
"""

import gc
import os
import sys
import traceback

import click

from kerfline.cli.commands import check, day, demo, guide, layout, new, rules, sheets, view
from kerfline.cli.outlets import patient
from kerfline.cli.stopping import StoppableGroup
from kerfline.errors import KerflineError

REFUSED = 2
OWN_MISTAKE = 70
"""A mistake inside the program (EX_SOFTWARE of BSD's sysexits.h)."""

WHOLE_TRACE = "KERFLINE_TRACEBACK"
"""Variable of the environment that asks for the place of such a mistake in full."""

GARBAGE = 100_000
"""Objects after which Python looks for unused ones. A command makes many that live to its end: looking as
often as usual (after some hundreds) takes a fifth of the time of a large set of sheets."""

MOST_TOLD = 30
"""Mistakes that a screen can hold; the others mostly come of the same slip."""


@click.group(
    cls=StoppableGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(package_name="kerfline")
def kerfline() -> None:
    """Lays out, checks and draws the control joints of a concrete slab on ground.

    Start with a drawing (DXF, DWG, PDF), a building model (IFC), a job file (TOML) or a size
    ("40 ft x 28 ft"). Try "kerfline demo" first.

    A joint plan is a help for the people who answer for the slab: local codes and a licensed
    professional decide.
    """


COMMANDS = (
    new.new,
    layout.layout,
    check.check,
    sheets.sheets,
    day.day,
    view.view,
    view.page,
    rules.rules,
    guide.guide,
    demo.demo,
)

for command in COMMANDS:
    kerfline.add_command(command)


def run() -> None:
    """Runs the command line and turns what the user must know into one plain sentence."""
    gc.set_threshold(GARBAGE)
    sys.stdout = patient(sys.stdout, "standard output")
    sys.stderr = patient(sys.stderr, "standard error")
    try:
        kerfline()
    except KerflineError as error:
        _tell(str(error).splitlines())
        sys.exit(REFUSED)
    except MemoryError:
        _tell(["There is not enough memory for this; no file is left half written."])
        sys.exit(OWN_MISTAKE)
    except Exception as error:
        if os.environ.get(WHOLE_TRACE):
            traceback.print_exc()
        _tell([_own_mistake(error)])
        sys.exit(OWN_MISTAKE)


def _tell(lines: list[str]) -> None:
    click.echo("\n".join(lines[:MOST_TOLD]), err=True)
    if len(lines) > MOST_TOLD:
        click.echo(f"... and {len(lines) - MOST_TOLD:,} more", err=True)


def _own_mistake(error: Exception) -> str:
    """What went wrong inside the program, and where, for whoever mends it."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{os.path.basename(last.filename)}:{last.lineno}"  # noqa: PTH119 - a name, not a path
    what = " ".join(str(error).split())[:200]
    return (
        f"kerfline has made a mistake of its own ({type(error).__name__}: {what}; {where}); no file is left "
        f"half written. Please report it with the file that it was given; {WHOLE_TRACE}=1 shows more."
    )
