"""What was read from a drawing, for the terminal: ten lines at most; and what only the user can answer."""

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from kerfline.errors import InputRefused, Mistake
from kerfline.files.slab_parts import MOST_LINES

if TYPE_CHECKING:
    from kerfline.files.drawing import Proposal

FIGURES = re.compile(r"[\d\"'./-]*\d[\d\"'/-]*( \d+/\d+\"?)?|^[GWNCK]\d+")
"""What differs between two notes of one wording: lengths, places, names of joints."""

JOINTS = "joints"


def gathered(notes: Sequence[str]) -> list[str]:
    """Notes with those of one wording said once, and how many there are of them."""
    alike: dict[str, list[str]] = {}
    for note in notes:
        alike.setdefault(FIGURES.sub("#", note), []).append(note)
    return [
        own[0] if len(own) == 1 else f"{own[0]} (And {len(own) - 1:,} more of this kind.)"
        for own in alike.values()
    ]


def unsaid(reading: Sequence[str], notes: Sequence[str]) -> list[str]:
    """The notes that the reading does not hold already."""
    return [n for n in notes if not any(n in words for words in reading)]


def told_in_lines(
    reading: Sequence[str], notes: Sequence[str], rest: str = "kerfline new lists them all"
) -> list[str]:
    """The reading and the notes on it, ``MOST_LINES`` at most, the reading first.

    Args:
        reading: Sentences on how a drawing was read.
        notes: Sentences on what was repaired and left out.
        rest: Where those are that find no room.
    """
    every = [*reading, *unsaid(reading, gathered(notes))]
    if len(every) <= MOST_LINES:
        return every
    left = len(every) - MOST_LINES + 1
    return [*every[: MOST_LINES - 1], f"{left:,} more notes; {rest}."]


def ask(proposal: "Proposal", told: Mapping[str, tuple[str, ...]]) -> None:
    """Puts what only the user can answer, where he has not answered it yet.

    Raises:
        InputRefused: A layer says CJ, nothing says what that means, and the user did not name the joints.
    """
    if JOINTS in told:
        return
    asked = [q for q in proposal.questions if "CJ" in q]
    if asked:
        known = [f'--joints "{name}"' for name in proposal.layers.joints]
        also = f"; the other joint layers found are {', '.join(known)}" if known else ""
        raise InputRefused(
            *(Mistake(what=question.rstrip("."), remedy=_answer(also)) for question in asked)
        )


def _answer(also: str) -> str:
    return (
        f'on the command line, --joints "LAYER = control" or --joints "LAYER = construction"{also}'
    )
