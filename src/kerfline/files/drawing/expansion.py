"""Counts what block references stand for before any is taken apart: arrays and nested blocks can ask for any number."""

from pathlib import Path

from ezdxf.document import Drawing as Document
from ezdxf.entities import DXFEntity, Insert

from kerfline.errors import InputRefused, Mistake

MOST = 200_000
"""Entities that are read at most, those of each block reference counted; a plan has some thousands."""


def refuse_endless(path: Path, document: Document) -> None:
    """Refuses a drawing whose block references stand for more entities than can be read.

    Raises:
        InputRefused: It draws more than ``MOST``; the refusal names the block that asks for most.
    """
    counts = _Counts(document)
    own = [(counts.of(entity), entity) for entity in document.modelspace()]
    total = sum(count for count, _ in own)
    if total <= MOST:
        return
    most, entity = max(own, key=lambda pair: pair[0])
    found = f"{total:,} entities in the model space"
    if isinstance(entity, Insert):
        copies = f" in {entity.mcount:,} copies" if entity.mcount > 1 else ""
        found += (
            f", {most:,} of them from a reference of block {entity.dxf.get('name', '?')!r}{copies}"
        )
    raise InputRefused(
        Mistake(
            what="the drawing is too large to read",
            where=str(path),
            found=found,
            allowed=f"up to {MOST:,}",
            remedy="save the floor plan alone as a drawing of its own, without the arrays and blocks that draw "
            "its surroundings",
        )
    )


class _Counts:
    """How many entities each block stands for, each block counted once."""

    def __init__(self, document: Document) -> None:
        self.blocks = document.blocks
        self.known: dict[str, int] = {}

    def of(self, entity: DXFEntity) -> int:
        """What an entity stands for: itself, and of a block reference its contents in every copy."""
        if not isinstance(entity, Insert):
            return 1
        name = str(entity.dxf.get("name", "")).lower()
        return max(1, int(entity.mcount)) * (1 + self._in_block(name))

    def _in_block(self, name: str) -> int:
        if name not in self.known:
            # A block that contains itself is counted once around; the reader says that it does.
            self.known[name] = 0
            if name in self.blocks:
                self.known[name] = sum(self.of(e) for e in self.blocks.get(name))
        return self.known[name]
