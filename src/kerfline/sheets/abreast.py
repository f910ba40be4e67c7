"""Figures set side by side, so that a wide column does not stand half empty."""

from collections.abc import Iterator, Sequence

from kerfline.geometry.ring import Point
from kerfline.sheets.blocks import Figure
from kerfline.sheets.flow import COLUMN_GAP
from kerfline.sheets.marks import Board


def abreast(figures: Sequence[Figure], width: float) -> list[Figure]:
    """Rows of figures, each with as many as ``width`` mm holds; a figure wider than that has its own."""
    return [_row(row) for row in _rows(figures, width)]


def _rows(figures: Sequence[Figure], width: float) -> Iterator[list[Figure]]:
    row: list[Figure] = []
    for figure in figures:
        if row and _width([*row, figure]) > width:
            yield row
            row = []
        row.append(figure)
    if row:
        yield row


def _width(row: Sequence[Figure]) -> float:
    return sum(f.width for f in row) + COLUMN_GAP * (len(row) - 1)


def _row(row: Sequence[Figure]) -> Figure:
    """One figure that draws its parts from left to right, heads level."""

    def paint(board: Board, at: Point, width: float) -> None:
        del width
        x, y = at
        for figure in row:
            figure.painter(board, (x, y), figure.width)
            x += figure.width + COLUMN_GAP

    return Figure(width=_width(row), tall=max(f.tall for f in row), painter=paint)
