"""Commands that take many slabs at once: their options, one line of progress, and the summary."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from kerfline.app.many.line import Line
    from kerfline.app.wishes import Wishes

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
    command: str, named: Sequence[Path], wishes: "Wishes", out: Path | None, **asked: Any
) -> None:
    """Does many slabs, says what became of them, and ends the command with the worst exit status.

    Args:
        command: ``layout``, ``check`` or ``day``.
        named: Files, folders and patterns.
        wishes: What was said beside them.
        out: Folder in which each has its own; ``out`` by default.
        asked: Further fields of a task, and ``workers``.

    Raises:
        InputRefused: A folder or pattern holds no slab.
    """
    from kerfline.app.many.pool import workers_of_this_machine
    from kerfline.app.many.run import Many, do_many
    from kerfline.app.many.sources import sources
    from kerfline.app.many.summary import NAME, summary_files, summary_text, worst
    from kerfline.app.many.work import Task
    from kerfline.files.set_record import write_set

    root = out or Path("out")
    found = sources(named)
    workers = asked.pop("workers", None) or workers_of_this_machine()
    like = Task(
        command=command, source=Path(), stem="", out=root, wishes=wishes, plans=Path(), **asked
    )
    lines = do_many(Many(like=like, workers=workers), found, _progress(len(found)))
    written = write_set(root, NAME, command, "", summary_files(lines))
    click.echo(summary_text(lines, written.files))
    click.get_current_context().exit(worst(lines))


def _progress(count: int) -> Callable[[int, "Line"], None]:
    """One line that is written over and over on a terminal; nothing elsewhere."""
    shown = sys.stderr.isatty()

    def tell(done: int, line: "Line") -> None:
        if shown:
            words = f"  {done} of {count}: {line.name}"[:78]
            click.echo(f"\r{words:<78}" + ("\n" if done == count else ""), err=True, nl=False)

    return tell
