"""Opens a DWG (releases R13 to 2018) as the document that a DXF of the same drawing would give.

The library's own snapshot of the drawing is used, not its writer of DXF: that one leaves the unit out, draws
dimensions as loose lines and weeds out what looks odd to it, and a plan must lose nothing in silence.
"""

import logging
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.dwg_entities import draw, is_empty
from kerfline.files.drawing.dwg_reach import REACH, beyond_reach
from kerfline.units import counted

OPEN_UNIT = 0
"""What a header says of the unit where it says nothing."""

EXPORT = "save it as DXF (ASCII or binary) from the program it was drawn with"
MOST_NAMED = 5

Source = Any
"""A drawing as the reader holds it; the library's own types change from release to release."""


def open_dwg(path: Path) -> tuple[Document, tuple[str, ...]]:
    """Opens a DWG.

    Args:
        path: The file, not larger than can be read.

    Returns:
        The document, and sentences on what could not be carried over, by kind and count.

    Raises:
        InputRefused: It is of a release that is not read, damaged or cut off, or lies too far from its origin.
    """
    import ezdwg

    try:
        source = ezdwg.read(str(path)).edit(strict=False)
        _hold_in_reach(path, source)
        document, lost = _document(source)
        return document, tuple(_notes(source, lost))
    except (KeyboardInterrupt, SystemExit, MemoryError, InputRefused):
        raise
    except BaseException as error:
        raise InputRefused(_unreadable(path, error)) from None


def _unreadable(path: Path, error: BaseException) -> Mistake:
    said = " ".join(str(error).split())
    what = "this DWG is damaged, cut off, or of a release that is not read (R13 to 2018 are)"
    return Mistake(what=what, where=str(path), found=said, remedy=EXPORT)


def _hold_in_reach(path: Path, source: Source) -> None:
    """Refuses a drawing whose lines were misread, for the wrong slab would be planned."""
    for space in (source.modelspace(), *source.blocks.values()):
        if found := beyond_reach(space.query()):
            raise InputRefused(
                Mistake(
                    what="this DWG lies too far from its origin for its lines to be read right",
                    where=str(path),
                    found=found,
                    allowed=f"at most {REACH:,.0f} of the drawing's units from the origin",
                    remedy=f"move the plan near the origin, or {EXPORT}",
                )
            )


def _document(source: Source) -> tuple[Document, Counter[str]]:
    """A document with the layers, blocks and model space of a DWG, and what was lost by its kind."""
    import ezdxf

    document = ezdxf.new("R2010", setup=False)
    document.header["$INSUNITS"] = int(source.header.get("insunits") or OPEN_UNIT)
    lost: Counter[str] = Counter()
    for name, properties in source.layers.items():
        if name not in document.layers:
            document.layers.add(name)
        layer = document.layers.get(name)
        if properties.get("off"):
            layer.off()
        if properties.get("frozen"):
            layer.freeze()
    for name, block in source.blocks.items():
        if name in document.blocks:
            continue
        space = document.blocks.new(name, base_point=block.base_point)
        lost += draw(block.query(), space)
    lost += draw(source.modelspace().query(), document.modelspace())
    return document, lost


def _notes(source: Source, lost: Counter[str]) -> Iterator[str]:
    """What the user should know of the reading."""
    if lost:
        kinds = ", ".join(f"{count:,} {kind}" for kind, count in sorted(lost.items()))
        yield (
            f"Not read of the DWG: {kinds}. Where they are part of the slab, explode them to lines and arcs, or save the "
            "drawing as DXF."
        )
    used = Counter(str(e.dxf.get("name", "")) for e in source.modelspace().query("INSERT MINSERT"))
    hollow = [name for name in used if name in source.blocks and is_empty(source.blocks[name])]
    if hollow:
        count = sum(used[name] for name in hollow)
        named = ", ".join(sorted(hollow)[:MOST_NAMED])
        yield (
            f"{counted(count, 'reference')} to blocks of the DWG that came out empty ({named}): explode "
            "them, or save the drawing as DXF, if they hold a part of the slab."
        )
    vague = {
        d.message.split("'")[1]
        for d in source.diagnostics
        if d.dxftype == "BLOCK" and "'" in d.message
    }
    doubtful = sorted(name for name in used if name in vague and name not in hollow)
    if doubtful:
        yield (
            f"The base point of blocks could not be read and is taken as 0, 0: "
            f"{', '.join(doubtful[:MOST_NAMED])}. Check where they stand."
        )


logging.getLogger("ezdwg").addHandler(logging.NullHandler())
