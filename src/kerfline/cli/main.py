"""The ``kerfline`` command and its exit status.

0: done and clean. 1: done, with errors among the findings. 2: input refused, nothing written.
130: stopped from the keyboard, nothing written.
"""

import gc
import sys

import click

from kerfline.cli.commands import check, day, demo, layout, new, rules, sheets, view
from kerfline.cli.stopping import StoppableGroup
from kerfline.errors import KerflineError

REFUSED = 2
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

    Start with a drawing (DXF, DWG, PDF), a building model (IFC), a job file (TOML) or a size ("40 ft x 28 ft"). Try "kerfline demo" first.

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
    demo.demo,
)

for command in COMMANDS:
    kerfline.add_command(command)


def main() -> None:
    """Runs the command line and turns what the user must know into one plain sentence."""
    gc.set_threshold(GARBAGE)
    try:
        kerfline()
    except KerflineError as error:
        lines = str(error).splitlines()
        click.echo("\n".join(lines[:MOST_TOLD]), err=True)
        if len(lines) > MOST_TOLD:
            click.echo(f"... and {len(lines) - MOST_TOLD:,} more", err=True)
        sys.exit(REFUSED)
