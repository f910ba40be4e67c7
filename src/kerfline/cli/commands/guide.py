"""``kerfline guide``: the manual, by topic."""

import textwrap
from importlib.resources import files

import click

TOPICS = ("jobs", "rules", "sheets", "day", "page", "many", "library")
"""The topics in the order in which a newcomer needs them; each is a file of the package."""

WIDTH = 100


def guide_text(topic: str) -> str:
    """The text of a topic, long lines broken for a terminal."""
    text = (files("kerfline.cli") / "guide" / f"{topic}.md").read_text(encoding="utf-8")
    return "\n".join(_broken(line) for line in text.splitlines())


def _broken(line: str) -> str:
    indent = " " * (len(line) - len(line.lstrip()))
    if len(line) <= WIDTH:
        return line
    return textwrap.fill(
        line.strip(), WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )


@click.command()
@click.argument("topic", required=False, type=click.Choice(TOPICS))
def guide(topic: str | None) -> None:
    """Print the manual on a TOPIC: jobs, rules, sheets, day, page, many or library.

    Without a topic, list them.
    """
    if topic:
        click.echo(guide_text(topic))
        return
    for each in TOPICS:
        click.echo(guide_text(each).splitlines()[0].removeprefix("# "))
    click.echo(
        "\nkerfline guide TOPIC prints one; kerfline COMMAND --help lists a command's options."
    )
