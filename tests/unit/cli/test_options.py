"""Options that several commands share."""

import click
import pytest
from click.testing import CliRunner

from kerfline.app.brought import ROLES
from kerfline.cli.options import DRAWN_IN, FOLDER, LAYERS, UNITS, said, slab_options
from kerfline.library.options import DRAWN_IN as OF_THE_LIBRARY
from kerfline.library.options import Options
from kerfline.units import Unit


def names(**more):
    @slab_options(**more)
    def command(**_):
        """Nothing."""

    return {p.name for p in click.command()(command).params}


def test_what_is_said_of_a_drawing_is_not_asked_of_a_job_file():
    whole = names()
    assert {
        "thickness",
        "units",
        "rules",
        "to_maximum",
        "slab",
        "slab_at",
        "page",
        "scale",
        "storey",
    } <= whole
    assert set(LAYERS) <= whole
    assert names(drawing=False) == {"thickness", "rules", "to_maximum"}


def test_the_options_of_a_slab_are_all_options_of_the_library():
    assert names() - set(LAYERS) <= set(Options.__dataclass_fields__)


def test_the_lists_that_the_command_line_keeps_are_those_of_the_parts_below():
    """It keeps its own so that ``--help`` loads no library."""
    assert DRAWN_IN == OF_THE_LIBRARY
    assert set(LAYERS) == set(ROLES)

    @click.command()
    @UNITS
    def command(units):
        """Nothing."""

    (option,) = command.params
    assert set(option.type.choices) == {*(u.value for u in Unit), *DRAWN_IN}


def test_several_rule_sets_where_they_are_compared():
    @click.command()
    @slab_options(many_rules=True)
    def command(rules, **_):
        click.echo(" ".join(rules))

    result = CliRunner().invoke(command, ["--rules", "floor", "--rules", "parking"])
    assert result.output == "floor parking\n"


def test_only_what_was_said_is_passed_on():
    asked = said({
        "thickness": "4 in", "units": None, "walls": ("A-WALL*", "B"), "joints": (), "to_maximum": False,
        "depth": "1 in", "page": 2,
    })  # fmt: skip
    assert asked == Options(thickness="4 in", page=2, layers={"walls": ("A-WALL*", "B")})
    assert said({}) == Options(layers={})


@pytest.mark.parametrize("name", ["", "  "])
def test_a_folder_has_a_name(name):
    @click.command()
    @click.option("--out", type=FOLDER)
    def command(out):
        click.echo(f"{type(out).__name__} {out.parts}")

    refused = CliRunner().invoke(command, ["--out", name])
    assert refused.exit_code == 2
    assert "a folder's name is needed here" in refused.output
    assert "Path ('a', 'b')" in CliRunner().invoke(command, ["--out", "a/b"]).output
