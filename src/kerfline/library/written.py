"""The files that a result was written to."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import Self

    from kerfline.files.set_record import Written as WrittenSet


class Written(tuple[Path, ...]):
    """The files that were written, in the order in which a user opens them.

    Attributes:
        set: The same with what became of the files of an earlier run; its shape is not promised.
    """

    set: "WrittenSet"

    def __new__(cls, written: "WrittenSet") -> "Self":
        """The files of a set."""
        paths = super().__new__(cls, written.files)
        paths.set = written
        return paths

    @property
    def text(self) -> str:
        """Where they are, by kind, and what became of those before, for a terminal."""
        from kerfline.app.summary import set_text

        return set_text(self.set)
