"""Commands that take many slabs at once: their options, one line of progress, and the summary."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from kerfline.library import Options

Command = TypeVar("Command", bound=Callable[..., Any])

SOURCES = click.argument("source", type=click.Path(path_type=Path), nargs=-1, required=True)
"""One slab, or many: files, folders, patterns."""

LIMIT = 300.0


def many_options(command: Command) -> Command:
    """Adds what is only said of many slabs."""
    options = (
        click.option(
            "--again", is_flag=True, help="Of many slabs, do those too that have not changed since."
        ),
        click.option(
            "--workers",
            type=click.IntRange(min=1),
            help="For many slabs: how many are done at the same time; one a processor by default.",
        ),
        click.option(
            "--limit",
            type=click.FloatRange(min=1.0),
            default=LIMIT,
            metavar="SECONDS",
            help=f"For many slabs: how long one may take before it is given up; {LIMIT:g} by default.",
        ),
    )
    for option in reversed(options):
        command = option(command)
    return command


def do_all(
    command: str, named: Sequence[Path], options: "Options", out: Path | None, **asked: Any
) -> None:
    """Does many slabs, says what became of them, and ends the command with the worst exit status.

    Args:
        command: ``layout``, ``check`` or ``day``.
        named: Files, folders and patterns.
        options: What was said beside them.
        out: Folder in which each has its own; ``out`` by default.
        asked: What else ``write_many`` is told.

    Raises:
        InputRefused: A folder or pattern holds no slab.
    """
    from kerfline.library import write_many

    done = write_many(named, out, command=command, options=options, tell=_progress(), **asked)
    click.echo(done.text)
    click.get_current_context().exit(done.status)


def _progress() -> Callable[[int, int, str], None]:
    """One line that is written over and over on a terminal; nothing elsewhere."""
    shown = sys.stderr.isatty()

    def tell(done: int, count: int, name: str) -> None:
        if shown:
            words = f"  {done} of {count}: {name}"[:78]
            click.echo(f"\r{words:<78}" + ("\n" if done == count else ""), err=True, nl=False)

    return tell
