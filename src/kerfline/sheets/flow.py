"""Flows blocks down columns, region by region and sheet by sheet."""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.sheets.blocks import Block
from kerfline.sheets.marks import Board

COLUMN_GAP = 8.0
"""Room between columns, mm."""

LONG = 4.0
"""A table longer than so many columns is split wherever it begins."""

BLOCK_GAP = 5.0
"""Room between blocks, mm."""


@dataclass(frozen=True)
class Region:
    """Part of a sheet that blocks may fill, mm of paper."""

    left: float
    bottom: float
    right: float
    top: float


@dataclass
class _Cursor:
    """Where the next block of a region goes."""

    region: Region

    def __post_init__(self) -> None:
        """Starts at the upper left."""
        self.x, self.y, self.wide = self.region.left, self.region.top, 0.0

    def takes(self, board: Board, block: Block) -> bool:
        """Draws a block if it finds room in one piece, in this column or the next."""
        region = self.region
        width = max(block.width, self.wide)
        tall = block.height(width)
        x, y, wide = self.x, self.y, self.wide
        if y - tall < region.bottom and wide:
            x, y, wide, width = x + wide + COLUMN_GAP, region.top, 0.0, block.width
            tall = block.height(width)
        if x + block.width > region.right + 1e-6 or y - tall < region.bottom:
            return False
        block.draw(board, (x, y), width)
        self.x, self.y, self.wide = x, y - tall - BLOCK_GAP, max(wide, block.width)
        return True

    def takes_part(self, board: Board, block: Block) -> Block | None:
        """Draws as much of a block as finds room in this column; the rest of it."""
        width = max(block.width, self.wide)
        if self.x + block.width > self.region.right + 1e-6:
            return block
        part, rest = block.split(width, self.y - self.region.bottom)
        if part is not None:
            part.draw(board, (self.x, self.y), width)
            self.y -= part.height(width) + BLOCK_GAP
        return rest


def _tall(region: Region) -> float:
    return region.top - region.bottom


def fill_around(board: Board, regions: Sequence[Region], blocks: Sequence[Block]) -> list[Block]:
    """Draws blocks beside a plan: each in the first region that holds it whole.

    What may be split begins in the first region where no other holds all of it, and so does a table that
    is split in any case; its rest goes on in another region that holds it. Other tables go to another sheet.

    Returns:
        The blocks, or the rests of them, that found no room.
    """
    cursors = [_Cursor(region) for region in regions]
    left: list[Block] = []
    parted = False
    for block in blocks:
        if any(cursor.takes(board, block) for cursor in cursors):
            continue
        whole = block.whole and block.height(block.width) <= LONG * _tall(regions[0])
        rest = block if whole or parted else cursors[0].takes_part(board, block)
        begun = rest is not block
        parted = parted or begun
        if rest and not (begun and any(cursor.takes(board, rest) for cursor in cursors[1:])):
            left.append(rest)
    return left


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
