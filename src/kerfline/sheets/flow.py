"""Flows blocks down columns, region by region and sheet by sheet."""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.sheets.blocks import Block
from kerfline.sheets.marks import Board

COLUMN_GAP = 8.0
"""Room between columns, mm."""

BLOCK_GAP = 5.0
"""Room between blocks, mm."""


@dataclass(frozen=True)
class Region:
    """Part of a sheet that blocks may fill, mm of paper."""

    left: float
    bottom: float
    right: float
    top: float


def fill(board: Board, region: Region, blocks: Sequence[Block]) -> list[Block]:
    """Draws as many blocks as find room, in order, in as many columns as the region holds.

    Returns:
        The blocks, or the rests of them, that found no room.
    """
    waiting = list(blocks)
    x, y, wide = region.left, region.top, 0.0
    while waiting:
        block = waiting.pop(0)
        width = max(block.width, wide)
        if x + block.width > region.right + 1e-6:
            return [block, *waiting]
        room = y - region.bottom
        if wide and room < block.height(width) <= region.top - region.bottom and block.whole:
            room = 0.0  # it stays in one piece in the next column
        fitted, rest = block.split(width, room)
        if fitted is not None:
            fitted.draw(board, (x, y), width)
            y -= fitted.height(width) + BLOCK_GAP
            wide = max(wide, fitted.width)
        if rest is None:
            continue
        if fitted is None and y >= region.top:
            return [rest, *waiting]
        waiting.insert(0, rest)
        x, y, wide = x + wide + COLUMN_GAP, region.top, 0.0
    return []
