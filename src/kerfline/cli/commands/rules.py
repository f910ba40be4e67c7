"""``kerfline rules``: list the rule sets, or print one with its sources."""

import click

from kerfline.units import Display


@click.command()
@click.argument("name", required=False)
@click.option("--metric", is_flag=True, help="Show millimetres instead of feet and inches.")
def rules(name: str | None, *, metric: bool) -> None:
    """List the rule sets, or print the one called NAME with its sources."""
    from kerfline.rules.describe import describe, listing
    from kerfline.rules.rule_set import load

    display = Display.METRIC if metric else Display.FEET_INCHES
    click.echo(describe(load(name), display) if name else listing())
