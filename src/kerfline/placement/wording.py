"""Placements in a sentence."""

from collections.abc import Sequence


def joined(names: Sequence[str]) -> str:
    """Names in a sentence: ``1``, ``1 and 2``, or ``1, 2 and 3``."""
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def placements(ids: Sequence[str]) -> str:
    """``Placement 1``, or ``Placements 1, 2 and 3``."""
    return f"Placement{'s' if len(ids) > 1 else ''} {joined(ids)}"


def are(ids: Sequence[str]) -> str:
    """The verb that goes with them."""
    return "are" if len(ids) > 1 else "is"
