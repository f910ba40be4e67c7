"""Reads the content of a page in a process of its own: a page can be made to keep its reader busy for ever."""

import json
import sys
from collections import Counter
from dataclasses import asdict, dataclass
from pathlib import Path as FilePath
from typing import Any

from kerfline.errors import InputRefused, Mistake
from kerfline.files.apart import Overrun, bound, run_apart
from kerfline.files.plan_pdf.page_objects import Content, Drawn, TooMuch, Written, content_of
from kerfline.files.plan_pdf.pdf_file import opened_page
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point

MODULE = "kerfline.files.plan_pdf.page_content"
LONGEST = 60.0
"""Seconds that the reading of a page may take."""


@dataclass(frozen=True, kw_only=True)
class PageContent:
    """A page and what it holds.

    Attributes:
        number: Its number, from 1.
        size: Width and height of its visible part, mm of paper.
        content: What it holds.
    """

    number: int
    size: Point
    content: Content


def page_content(path: FilePath, number: int) -> PageContent:
    """Reads a page.

    Args:
        path: The PDF.
        number: The page, from 1; 0 where the user does not say.

    Raises:
        InputRefused: It cannot be read, or draws more than can be read.
    """
    try:
        told = json.loads(run_apart(MODULE, [str(path), str(number)], LONGEST))
    except Overrun:
        raise InputRefused(_too_much(path, number)) from None
    if "refused" in told:
        raise InputRefused(*(Mistake(**mistake) for mistake in told["refused"]))
    return PageContent(
        number=told["number"],
        size=(told["size"][0], told["size"][1]),
        content=_from_plain(told["content"]),
    )


def _too_much(path: FilePath, number: int) -> Mistake:
    return Mistake(
        what="this page draws more than can be read",
        where=f"{path.name}, page {number or 1}",
        remedy="print the floor plan alone, without hatches and furniture",
    )


def _told(path: FilePath, number: int) -> dict[str, object]:
    """A page as plain data, or why it is refused."""
    try:
        with opened_page(path, number) as page:
            content = content_of(page)
            return {"number": page.number, "size": page.size, "content": _plain(content)}
    except InputRefused as refused:
        return {"refused": [asdict(mistake) for mistake in refused.mistakes]}
    except TooMuch:
        return {"refused": [asdict(_too_much(path, number))]}


def _plain(content: Content) -> dict[str, object]:
    return {
        "paths": [
            (d.layer, d.filled, d.width, d.path.closed, d.path.points, d.path.bulges)
            for d in content.paths
        ],
        "texts": [(t.text, t.at, t.turn, t.height) for t in content.texts],
        "pictures": content.pictures,
        "hatched": content.hatched,
        "outside": content.outside,
        "passed": content.passed,
    }


def _from_plain(told: dict[str, Any]) -> Content:
    return Content(
        paths=[
            Drawn(
                layer=layer,
                filled=filled,
                width=width,
                path=Path(tuple((x, y) for x, y in points), tuple(bulges), closed=closed),
            )
            for layer, filled, width, closed, points, bulges in told["paths"]
        ],
        texts=[
            Written(text=text, at=(at[0], at[1]), turn=turn, height=height)
            for text, at, turn, height in told["texts"]
        ],
        pictures=told["pictures"],
        hatched=told["hatched"],
        outside=told["outside"],
        passed=Counter(told["passed"]),
    )


def main() -> None:
    """Reads the page that the command line names and writes it as JSON."""
    bound()
    told = _told(FilePath(sys.argv[1]), int(sys.argv[2]))
    sys.stdout.write(json.dumps(told))


if __name__ == "__main__":
    main()
