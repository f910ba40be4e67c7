"""What was typed wrong, in one plain sentence."""

import click
import pytest

from commands import run
from kerfline.cli.usage import usage_sentence


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["layout", "x.toml", "--effort", "x"], "--effort: 'x' is no number;"),
        (
            ["layout", "x.toml", "--effort", "-1"],
            "--effort: -1.0 is not allowed; allowed is 0.1 or more;",
        ),
        (["layout", "x.toml", "--alternatives", "99"], "99 is not allowed; allowed is 1 to 12;"),
        (["layout", "x.toml", "--out", ""], "--out: a folder's name is needed here; found '';"),
        (
            ["layout", "x.toml", "--colour"],
            "No such option",
        ),
        (["layout"], "Missing argument 'SOURCE...';"),
        (["nope"], "No such command 'nope';"),
    ],
)
def test_a_mistyped_command_is_told_in_one_sentence(typed, told, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = run(*typed)
    assert result.exit_code == 2
    (sentence,) = result.stderr.strip().splitlines()
    assert told in sentence
    assert sentence.endswith("--help lists what can be given.")
    assert list(tmp_path.iterdir()) == []


def sentence(message, context=None):
    return usage_sentence(click.UsageError(message, ctx=context))


def test_the_command_is_named_and_a_likely_name_is_proposed():
    context = click.Context(
        click.Command("layout"),
        info_name="layout",
        parent=click.Context(click.Group(), info_name="kerfline"),
    )
    assert sentence("No such option '--colr'. (Did you mean --color?)", context) == (
        "No such option '--colr'; did you mean --color; kerfline layout --help lists what can be given."
    )
    assert sentence("Nothing.").endswith("; kerfline --help lists what can be given.")


def test_lines_become_one():
    assert "\n" not in sentence("one\ntwo")
