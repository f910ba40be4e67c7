"""What a picture to trace from is, and how it is shown; the file itself is only opened in a process of its own."""

import json
from dataclasses import asdict, dataclass
from typing import Any

from kerfline.errors import InputRefused, Mistake
from kerfline.files.apart import Overrun, run_apart
from kerfline.files.kinds import HEAD, picture_kind, words_for
from kerfline.geometry.homography import Homography
from kerfline.geometry.ring import Point

MODULE = "kerfline.files.tracing.opened"
LONGEST = 40.0
"""Seconds that a picture may take."""

ENDINGS = {"PNG": "png", "JPEG": "jpg", "WebP": "webp", "PDF": "pdf"}
"""What can be traced from, and how its file is called."""

READ = "a PNG, JPEG or WebP picture, or a PDF"
PNG_MARK = b"\x89PNG"


@dataclass(frozen=True, kw_only=True)
class Ground:
    """What a file holds to be traced from.

    Attributes:
        kind: ``PNG``, ``JPEG``, ``WebP`` or ``PDF``.
        pages: How many pages it has; 0 for a picture.
        size: Width and height as it is seen, in pixels, of a page in 1/72 in.
    """

    kind: str
    pages: int
    size: Point


@dataclass(frozen=True, kw_only=True)
class Straight:
    """How a picture is drawn anew with its perspective taken away.

    Attributes:
        back: The map of the plan onto the picture.
        box: Left, bottom, right and top of what is drawn, mm.
        within: The corners of what is shown, mm; around it nothing is.
        fineness: Pixels for each mm.
    """

    back: Homography
    box: tuple[float, float, float, float]
    within: tuple[Point, ...]
    fineness: float


def kind_of_ground(data: bytes, name: str) -> str:
    """What a file is that shall be traced from, told by its content.

    Raises:
        InputRefused: It is nothing that can be.
    """
    head = data[:HEAD]
    kind = picture_kind(head) or ("PDF" if words_for(head) == "a PDF" else "")
    if kind in ENDINGS:
        return kind
    remedy = (
        "save it as JPEG; telephones do when the picture is sent or exported"
        if kind == "HEIC"
        else "save it as one of these"
    )
    found = f"a {kind} picture" if kind else words_for(head)
    raise InputRefused(
        Mistake(
            what="this cannot be traced from", where=name, found=found, allowed=READ, remedy=remedy
        )
    )


def look_at_ground(data: bytes, name: str, page: int = 0) -> Ground:
    """What a file holds.

    Args:
        data: The file.
        name: What it is called, for messages.
        page: The page of a PDF, from 1; 0 for its first.

    Raises:
        InputRefused: It cannot be traced from: no picture, locked, cut off, or too large.
    """
    kind = kind_of_ground(data, name)
    told = json.loads(_told_apart(data, {"do": "look", "kind": kind, "name": name, "page": page}))
    return Ground(kind=kind, pages=told["pages"], size=(told["size"][0], told["size"][1]))


def picture_of_ground(data: bytes, name: str, page: int, straight: Straight | None = None) -> bytes:
    """A picture ready to be shown: JPEG or PNG, upright, without whatever else its file held.

    Args:
        data: The file.
        name: What it is called, for messages.
        page: The page of a PDF, from 1; 0 of a picture.
        straight: How it is drawn without its perspective; None as it is.

    Raises:
        InputRefused: As for ``look_at_ground``.
    """
    kind = kind_of_ground(data, name)
    asked: dict[str, Any] = {"do": "show", "kind": kind, "name": name, "page": page}
    if straight:
        asked["straight"] = asdict(straight)
    return _told_apart(data, asked)


def media_type(shown: bytes) -> str:
    """What kind of picture is shown."""
    return "image/png" if shown.startswith(PNG_MARK) else "image/jpeg"


def _told_apart(data: bytes, asked: dict[str, Any]) -> bytes:
    """What the process that opens the file says.

    Raises:
        InputRefused: It refuses the file, or took too long or too much memory.
    """
    try:
        told = run_apart(MODULE, [json.dumps(asked)], LONGEST, given=data)
    except Overrun:
        raise InputRefused(
            Mistake(
                what="this picture takes more time or memory than is allowed",
                where=asked["name"],
                remedy="save it smaller",
            )
        ) from None
    if told.startswith(b'{"refused"'):
        raise InputRefused(*(Mistake(**mistake) for mistake in json.loads(told)["refused"]))
    return told
