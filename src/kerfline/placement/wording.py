"""Placements in a sentence."""

from collections.abc import Sequence

from kerfline.units import enumerated


def placements(ids: Sequence[str]) -> str:
    """``Placement 1``, or ``Placements 1, 2 and 3``."""
    return f"Placement{'s' if len(ids) > 1 else ''} {enumerated(ids)}"


def are(ids: Sequence[str]) -> str:
    """The verb that goes with them."""
    return "are" if len(ids) > 1 else "is"
