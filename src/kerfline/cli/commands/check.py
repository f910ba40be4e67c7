"""``kerfline check``: hold an existing layout against the rules."""

from pathlib import Path
from typing import Any

import click

from kerfline.cli.many import SOURCES, do_all, many_options
from kerfline.cli.options import FOLDER, said, slab_options
from kerfline.cli.progress import progress


@click.command()
@SOURCES
@slab_options(many_rules=True)
@click.option(
    "--depth",
    metavar="LENGTH",
    help='Depth of cut noted for control joints that have none, such as "1 1/4 in".',
)
@click.option(
    "--repair",
    metavar="LENGTH",
    help="How far a joint in a drawing that stops short or runs over is mended; 2 in by default.",
)
@click.option(
    "--plan",
    type=click.Path(path_type=Path),
    help="The plan that the joints were cut by (NAME-layout.json, .dxf or .toml), for a survey.",
)
@click.option(
    "--survey",
    type=click.Path(path_type=Path),
    help="Points measured on site (as NAME-points.csv), for a job with [site].",
)
@click.option(
    "--beside",
    type=click.Path(path_type=Path),
    help="The slab next door (NAME-layout.json, .dxf or .toml), in the same coordinates.",
)
@click.option(
    "--mend",
    is_flag=True,
    help="Add the fewest joints that clear the errors, and write the amended plan.",
)
@click.option("--out", type=FOLDER, help="Folder to write to; out/NAME by default.")
@many_options
def check(
    source: tuple[Path, ...],
    out: Path | None,
    *,
    mend: bool,
    again: bool,
    workers: int | None,
    limit: float,
    **options: Any,
) -> None:
    """Hold the joints of a job file or a drawing against the rules.

    SOURCE is a job file (.toml) that gives its joints, or with --thickness a drawing (.dxf, .dwg, .pdf). Give
    --rules several times to compare rule sets side by side; the first one counts for the exit status.

    Several files, folders or patterns are checked at once, each into a folder of its own, with a summary.
    """
    from kerfline.library.many import are_many

    if not are_many(source):
        _one(source[0], out, mend=mend, **options)
        return
    for name, given in {
        "--mend": mend,
        "--plan": options["plan"],
        "--beside": options["beside"],
        "--survey": options["survey"],
    }.items():
        if given:
            raise click.UsageError(f"{name} is for one slab")
    named = options.pop("rules")
    do_all(
        "check", source, said({**options, "rules": named[0] if named else None}), out, rules=named,
        depth=options["depth"], again=again, workers=workers, limit=limit,
    )  # fmt: skip


def _one(source: Path, out: Path | None, *, mend: bool, **options: Any) -> None:
    """Checks one slab and says all that there is to say of it."""
    from kerfline.library import check as held
    from kerfline.library.opening import pictured

    rules = options.pop("rules")
    beside = {name: options.pop(name) for name in ("depth", "plan", "beside", "survey")}
    with pictured(out):
        result = held(
            source, options=said(options), rules=rules, folder=out, mend=mend, progress=progress(), **beside
        )  # fmt: skip
    written = result.write(out)
    told = "\n".join(part for part in (result.survey, result.amendment(), written.text) if part)
    parts = (result.reading_text(), result.summary(), result.report(), told)
    click.echo("\n\n".join(part for part in parts if part))
    click.get_current_context().exit(0 if result.clean else 1)
