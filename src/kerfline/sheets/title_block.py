"""The title block: fields after ISO 7200, whose values come from the user; what is blank stays blank."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import fitted, text_width
from kerfline.sheets.marks import Board, Layer
from kerfline.sheets.paper import SMALLEST_TEXT

WIDEST = 180.0
"""Greatest width of a title block (ISO 7200, from memory)."""

ROW = 3.6
"""Height of a row, in capital heights of the text."""

SEAL = 3.0
"""Height of the row with room for a seal over that of the others."""

CARRIED_TEXT = 3.0
"""Sheets with texts up to this height (mm) are carried about, not sealed."""

LARGE = 1.25
"""Height of title and number over that of the text, where they are short enough for it."""

LABEL = 0.8
"""Height of a field's label over that of the text, never under ``LEAST_LABEL``."""

TITLE_FIELD = "title "
"""What the value of a field refers to, before the field's name."""

LEAST_LABEL = SMALLEST_TEXT


@dataclass(frozen=True)
class _Field:
    label: str
    key: str
    share: float


_ROWS: tuple[tuple[_Field, ...], ...] = (
    (_Field("project", "project", 1.0),),
    (_Field("owner", "owner", 0.36), _Field("firm", "firm", 0.36), _Field("document type", "type", 0.28)),
    (_Field("title", "title", 1.0),),
    (_Field("seal", "seal", 1.0),),
    (_Field("drawn", "drawn", 1 / 3), _Field("checked", "checked", 1 / 3), _Field("approved", "approved", 1 / 3)),
    (_Field("date", "date", 1 / 3), _Field("scale", "scale", 1 / 3), _Field("size", "size", 1 / 3)),
    (_Field("number", "number", 0.34), _Field("revision", "revision", 0.21), _Field("run mark", "mark", 0.22), _Field("sheet", "sheet", 0.23)),
)  # fmt: skip


def title_height(text: float) -> float:
    """Height in mm of the title block."""
    return sum(_height(row, text) for row in _rows(text))


def _rows(text: float) -> list[tuple[_Field, ...]]:
    """The rows, on sheets that are carried about without one for a seal."""
    return [row for row in _ROWS if text > CARRIED_TEXT or row[0].key != "seal"]


def _height(row: Sequence[_Field], text: float) -> float:
    """Height in mm of a row: that of the seal is taller."""
    return (SEAL if row[0].key == "seal" else 1.0) * ROW * text


def draw_title_block(
    board: Board, at: Point, width: float, text: float, values: Mapping[str, str]
) -> None:
    """Draws the title block with its lower right corner at a point."""
    right, foot = at
    left = right - width
    top = foot + title_height(text)
    board.box(Layer.TITLE, (left, foot, right, top), width=0.5)
    label = max(LABEL * text, LEAST_LABEL)
    y = top
    for i, row in enumerate(_rows(text)):
        height = _height(row, text)
        y -= height
        if i:
            board.line(Layer.TITLE, (left, y + height), (right, y + height), width=0.18)
        x = left
        for field in row:
            if x > left:
                board.line(Layer.TITLE, (x, y), (x, y + height), width=0.18)
            board.text(Layer.TITLE, (x + 1.0, y + height - label - 0.7), field.label, label)
            value, room = values.get(field.key, ""), field.share * width - 2.0
            large = field.key in ("title", "number") and text_width(value, LARGE * text) <= room
            size = LARGE * text if large else text
            value = fitted(value, size, room)
            at = (x + 1.0, y + 0.45 * text)
            board.text(Layer.TITLE, at, value, size, ref=f"{TITLE_FIELD}{field.key}")
            x += field.share * width
