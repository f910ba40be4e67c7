"""Options that several commands share."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from kerfline.units import Unit

if TYPE_CHECKING:
    from kerfline.library import Options

Command = TypeVar("Command", bound=Callable[..., Any])
LAYERS = ("outline", "openings", "walls", "columns", "penetrations", "keep_outs", "joints")


class NamedPath(click.Path):
    """A path that has a name: an empty one, such as an unset variable gives, is no folder."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path.

        Raises:
            click.BadParameter: It is empty.
        """
        if not str(value).strip():
            self.fail("a folder's name is needed here; found ''", param, ctx)
        return super().convert(value, param, ctx)


FOLDER = NamedPath(path_type=Path)
"""Where files are written."""

SOURCE = click.argument("source", type=click.Path(path_type=Path))


DRAWN_IN = ("cm", "survey-ft")
"""Units that a drawing may be in and a job may not."""

UNITS = click.option(
    "--units",
    type=click.Choice([*(u.value for u in Unit), *DRAWN_IN]),
    help="Unit of the drawing, where it does not say or says wrong.",
)


PAGE = click.option(
    "--page", type=click.IntRange(min=1), metavar="N", help="Page of a PDF that holds the plan."
)
SCALE = click.option(
    "--scale",
    metavar="SCALE",
    default="",
    help="Scale of a PDF's page where it does not say, such as '1/8 in = 1 ft' or 1:100.",
)


def slab_options(*, many_rules: bool = False, drawing: bool = True) -> Callable[[Command], Command]:
    """Adds what may be said about a slab beside its file.

    Args:
        many_rules: Whether ``--rules`` may be given several times.
        drawing: Whether the file may be a drawing, with a unit and layers to name.
    """
    options = [
        click.option("--thickness", metavar="LENGTH", help='Slab thickness, such as "4 in".'),
        *([UNITS] if drawing else []),
        click.option(
            "--rules",
            metavar="NAME",
            multiple=many_rules,
            help='Rule set; "kerfline rules" lists them.',
        ),
        click.option(
            "--to-maximum", is_flag=True, help="Work to the greatest span, not the advised one."
        ),
        *[_layer_option(kind) for kind in LAYERS if drawing],
        *(_which_slab() if drawing else []),
    ]

    def add(command: Command) -> Command:
        for option in reversed(options):
            command = option(command)
        return command

    return add


def _which_slab() -> list[Callable[[Command], Command]]:
    """What says which slab is meant in a file that holds several."""
    return [
        click.option(
            "--slab",
            metavar="N",
            default="",
            help="Which slab is meant, by its number in the question, or all.",
        ),
        click.option(
            "--slab-at",
            metavar="PLACE",
            default="",
            help='A place in the slab that is meant in a drawing, such as "12 m, 4 m".',
        ),
        PAGE,
        SCALE,
        click.option(
            "--storey", metavar="NAME", default="", help="Storey of a building model (.ifc)."
        ),
    ]


def _layer_option(kind: str) -> Callable[[Command], Command]:
    return click.option(
        f"--{kind.replace('_', '-')}",
        kind,
        multiple=True,
        metavar="LAYER",
        help=f"Layer that holds the {kind.replace('_', '-')}; may be repeated, * stands for anything.",
    )


REVIEW = click.option(
    "--review",
    is_flag=True,
    help="Draw the findings on the joint plan, for the designer; an issued plan has none.",
)


def said(options: dict[str, Any]) -> "Options":
    """What the user said beside the file."""
    from kerfline.library import Options

    fields = Options.__dataclass_fields__
    layers = {kind: options[kind] for kind in LAYERS if options.get(kind)}
    return Options(**{n: v for n, v in options.items() if n in fields and v}, layers=layers)
