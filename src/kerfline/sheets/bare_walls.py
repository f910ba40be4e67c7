"""Walls without a joint, gathered by the reason why."""

from collections.abc import Mapping

from kerfline.units import enumerated

PART = "along "
"""How the reason begins of a wall that has a joint under the rest of it."""


def bare_walls(left: Mapping[str, str]) -> dict[str, list[str]]:
    """The walls of each reason, both in the order given."""
    gathered: dict[str, list[str]] = {}
    for wall, why in left.items():
        gathered.setdefault(why, []).append(wall)
    return gathered


def bare_wall_words(left: Mapping[str, str]) -> list[str]:
    """A sentence a reason; lengths in it stay as they are stored."""
    return [_sentence(walls, why) for why, walls in bare_walls(left).items()]


def _sentence(walls: list[str], why: str) -> str:
    under = "under part of" if why.startswith(PART) else "under"
    if len(walls) == 1:
        return f"Wall {walls[0]} has no joint {under} it: {why}."
    return f"Walls {enumerated(walls)} have no joint {under} them. Of each: {why}."
