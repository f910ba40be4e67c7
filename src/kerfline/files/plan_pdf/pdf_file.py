"""Opens a page of a PDF, or says why it cannot be read."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kerfline.errors import InputRefused, Mistake
from kerfline.files.largest import LARGEST_PLAN, refuse_too_large
from kerfline.geometry.ring import Point
from kerfline.units import MM_PER_INCH

MOST_PAGES = 5000
POINTS_PER_INCH = 72
"""Units of a page in an inch (ISO 32000-1, 8.3.2.3)."""

POINT = MM_PER_INCH / POINTS_PER_INCH
OWN_UNIT = b"/UserUnit"
"""A page may state a unit of its own (ISO 32000-1, table 30), which the library does not tell."""

QUARTER = 90
MOST_LISTED = 12

Raw = Any
"""A page as the library holds it."""


@dataclass(frozen=True)
class Page:
    """A page as it is seen: its visible part, turned upright, in mm of paper.

    Attributes:
        raw: The page as the library holds it.
        number: Its number, from 1.
        crop: Left, bottom, right and top of its visible part, in its own units.
        turn: How it is turned for reading, in quarters clockwise.
    """

    raw: Raw
    number: int
    crop: tuple[float, float, float, float]
    turn: int

    @property
    def size(self) -> Point:
        """Width and height on paper, mm."""
        width, height = self.crop[2] - self.crop[0], self.crop[3] - self.crop[1]
        wide, high = (height, width) if self.turn % 2 else (width, height)
        return (wide * POINT, high * POINT)

    def seen(self, x: float, y: float) -> Point:
        """A point of the page where it is seen, mm from the lower left corner."""
        left, bottom, right, top = self.crop
        upright = {
            0: (x - left, y - bottom),
            1: (y - bottom, right - x),
            2: (right - x, top - y),
            3: (top - y, x - left),
        }[self.turn]
        return (upright[0] * POINT, upright[1] * POINT)


@contextmanager
def opened_page(path: Path, number: int) -> Iterator[Page]:
    """Opens a page for as long as it is read.

    Args:
        path: The PDF.
        number: The page, from 1; 0 where the user does not say.

    Raises:
        InputRefused: The PDF cannot be read, or it does not have that page, or several and none was named.
    """
    document = _document(path)
    try:
        raw = _page(path, document, number)
        turn = int(raw.get_rotation()) // QUARTER % 4
        crop = tuple(float(v) for v in raw.get_cropbox())
        left, bottom, right, top = crop
        if not (right > left and top > bottom):
            raise _refused(path.name, "this page has no size", remedy="print it to a PDF again")
        yield Page(raw, number or 1, (left, bottom, right, top), turn)
    finally:
        document.close()


def _document(path: Path) -> Raw:
    refuse_too_large(path, "PDF", LARGEST_PLAN, "print the floor plan alone to a PDF of its own")
    content = path.read_bytes()
    if OWN_UNIT in content:
        raise _refused(
            path.name,
            "the pages of this PDF have a unit of their own, so that no scale of theirs can be trusted",
            remedy="print the page to a PDF of its own",
        )
    return document_of(path.name, content)


def document_of(name: str, content: bytes) -> Raw:
    """A PDF as the library holds it.

    Args:
        name: What it is called, for messages.
        content: Its bytes.

    Raises:
        InputRefused: It is locked, damaged or cut off, or has no page or too many.
    """
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(content)
        count = len(document)
    except pypdfium2.PdfiumError as error:
        if "password" in str(error).lower():
            raise _refused(
                name,
                "this PDF is locked with a password",
                remedy="save a copy without one, if its owner allows it",
            ) from None
        raise _refused(
            name, "this PDF is damaged or cut off", remedy="copy or print it again"
        ) from None
    if not 1 <= count <= MOST_PAGES:
        raise _refused(
            name,
            "this PDF has no page, or more than can be read",
            found=f"{count:,} pages",
            remedy="print the floor plan alone to a PDF of its own",
        )
    return document


def _page(path: Path, document: Raw, number: int) -> Raw:
    import pypdfium2

    try:
        return document[index_of(path.name, len(document), number)]
    except pypdfium2.PdfiumError:
        raise _refused(
            path.name, "this page is damaged or cut off", remedy="copy or print it again"
        ) from None


def index_of(name: str, count: int, number: int) -> int:
    """Where a page stands among so many; 0 stands for the only one.

    Raises:
        InputRefused: There is no such page, or there are several and none was named.
    """
    if number == 0 and count > 1:
        raise _refused(
            name,
            f"this PDF has {count} pages",
            remedy="say which holds the plan, as --page 2 (page = 2 under [drawing])",
        )
    if not 0 <= number <= count:
        raise _refused(
            name,
            "there is no such page",
            found=f"--page {number}",
            allowed=f"1 to {count}",
            remedy="say which page holds the plan",
        )
    return max(number, 1) - 1


def _refused(
    name: str, what: str, *, found: str = "", allowed: str = "", remedy: str = ""
) -> InputRefused:
    return InputRefused(Mistake(what=what, where=name, found=found, allowed=allowed, remedy=remedy))
