"""Words of the page that stand for something here: units, rule sets, what each layer of a drawing is."""

from typing import Any

from kerfline.app.brought import ROLES
from kerfline.errors import InputRefused, Mistake
from kerfline.rules.rule_set import load, names
from kerfline.units import Unit

Data = dict[str, Any]


def rule_sets() -> list[Data]:
    """The rule sets by name, title and where their figures come from."""
    return [{"name": n, "title": load(n).title} for n in names()]


def unit_of(word: object) -> Unit:
    """The unit of that name.

    Raises:
        InputRefused: There is none.
    """
    if word not in tuple(Unit):
        raise InputRefused(
            Mistake(what="there is no such unit", found=str(word), allowed=", ".join(Unit))
        )
    return Unit(str(word))


def roles_of(said: Data) -> dict[str, str]:
    """What the user says each layer is.

    Raises:
        InputRefused: It is not said as layer by layer.
    """
    roles = said.get("roles")
    if not isinstance(roles, dict) or not all(r in ("", *ROLES) for r in roles.values()):
        raise InputRefused(Mistake(what="say of each layer what it is", allowed=", ".join(ROLES)))
    return {str(layer): role for layer, role in roles.items() if role}
