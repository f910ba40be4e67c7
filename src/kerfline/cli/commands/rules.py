"""``kerfline rules``: list the rule sets, or print one with its sources."""

import click


@click.command()
@click.argument("name", required=False)
@click.option("--metric", is_flag=True, help="Show millimetres instead of feet and inches.")
def rules(name: str | None, *, metric: bool) -> None:
    """List the rule sets, or print the one called NAME with its sources."""
    from kerfline.library import rules_text

    click.echo(rules_text(name or "", metric=metric))
