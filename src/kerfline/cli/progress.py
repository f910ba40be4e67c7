"""Words on the terminal while something takes longer than a person likes to wait."""

import time
from collections.abc import Callable

import click

PATIENCE = 2.0
"""Seconds before the first word."""


def progress() -> Callable[[str], None]:
    """A function that tells the user what is going on, from the third second on."""
    start = time.monotonic()

    def tell(words: str) -> None:
        if time.monotonic() - start > PATIENCE:
            click.echo(f"  {words} ...", err=True)

    return tell
