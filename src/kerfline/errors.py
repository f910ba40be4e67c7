"""The exceptions that kerfline raises on purpose.

::

    KerflineError
    +-- InputRefused      the input cannot be used: one or more mistakes, all of them listed
    +-- OutputRefused     a file cannot be written where the user asked for it

A broken spacing rule is never an exception: it is a finding (``kerfline.model.finding``).
"""

from dataclasses import dataclass

LONGEST_FOUND = 120
"""Letters of a found value that a sentence shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One thing wrong with the input.

    Attributes:
        what: What is wrong, as a clause without a full stop.
        where: File, key or place in the drawing; empty where the sentence says it already.
        found: The value that was found; empty where there is none to show.
        allowed: What would be allowed.
        remedy: What the user can do about it.
    """

    what: str
    where: str = ""
    found: str = ""
    allowed: str = ""
    remedy: str = ""

    def __str__(self) -> str:
        """The mistake as one plain sentence."""
        head = f"{self.where}: {self.what}" if self.where else self.what
        parts = [head]
        if self.found:
            parts.append(f"found {_short(self.found)}")
        if self.allowed:
            parts.append(f"allowed is {self.allowed}")
        if self.remedy:
            parts.append(self.remedy)
        sentence = "; ".join(parts)
        return sentence if sentence.endswith(("?", ".")) else f"{sentence}."


def _short(found: str) -> str:
    """What was found, cut where it is longer than a sentence should be."""
    return found if len(found) <= LONGEST_FOUND else f"{found[:LONGEST_FOUND]}..."


class KerflineError(Exception):
    """Base of every exception that is meant for the user's eyes."""


class InputRefused(KerflineError):
    """The input cannot be used; carries every mistake that was found."""

    def __init__(self, *mistakes: Mistake) -> None:
        super().__init__("\n".join(str(m) for m in mistakes))
        self.mistakes = mistakes


class OutputRefused(KerflineError):
    """A result cannot be written; carries the one mistake."""

    def __init__(self, mistake: Mistake) -> None:
        super().__init__(str(mistake))
        self.mistake = mistake
