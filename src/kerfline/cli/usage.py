"""What was typed wrong on the command line, in one plain sentence like every other mistake."""

import re

import click

KINDS = {
    "is not a valid float range": "is no number",
    "is not a valid float": "is no number",
    "is not a valid integer range": "is no whole number",
    "is not a valid integer": "is no whole number",
}
"""The library's words and ours."""


def usage_sentence(error: click.UsageError) -> str:
    """The mistake, what is allowed, and where the options are listed."""
    said = error.format_message().strip().rstrip(".").replace("\n", " ")
    said = re.sub(r"^Invalid value for '?([^':]+)'?: ", r"\1: ", said)
    said = re.sub(r"^Invalid value: ", "", said)
    said = re.sub(r"\. \((Did you mean .*\?)\)$", lambda m: f"; {m[1].lower()}", said)
    for theirs, ours in KINDS.items():
        said = said.replace(theirs, ours)
    said = re.sub(
        r"is not in the range (\S+)<=x<=(\S+)", r"is not allowed; allowed is \1 to \2", said
    )
    said = re.sub(r"is not in the range x>=(\S+)", r"is not allowed; allowed is \1 or more", said)
    command = error.ctx.command_path if error.ctx else "kerfline"
    return f"{said.rstrip('?')}; {command} --help lists what can be given."
