"""Opens a DWG in a process of its own: a file can be made to keep its reader busy for ever, or to fill the memory."""

import io
import json
import sys
from dataclasses import asdict
from pathlib import Path

from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.apart import Overrun, bound, run_apart
from kerfline.files.drawing.dwg_file import EXPORT, open_dwg

MODULE = "kerfline.files.drawing.dwg_apart"
LONGEST = 90.0
"""Seconds that the reading of a DWG may take; the largest that is read takes a third of it."""


def open_dwg_apart(path: Path) -> tuple[Document, tuple[str, ...]]:
    """Opens a DWG, as ``open_dwg`` does, within bounds of time and memory.

    Raises:
        InputRefused: It is refused, or takes more than that.
    """
    import ezdxf

    try:
        told = run_apart(MODULE, [str(path)], LONGEST)
    except Overrun:
        raise InputRefused(
            Mistake(
                what="this DWG takes more time or memory to read than a plan of a floor should",
                where=str(path),
                remedy=f"purge it and save the floor plan alone, or {EXPORT}",
            )
        ) from None
    head, _, drawn = told.partition(b"\n")
    words = json.loads(head)
    if words["refused"]:
        raise InputRefused(*(Mistake(**mistake) for mistake in words["refused"]))
    return ezdxf.read(io.StringIO(drawn.decode())), tuple(words["notes"])


def main() -> None:
    """Reads the DWG that the command line names; writes what is to be said in a line, then the drawing as DXF."""
    bound()
    out = sys.stdout
    try:
        document, notes = open_dwg(Path(sys.argv[1]))
    except InputRefused as refused:
        out.write(json.dumps({"refused": [asdict(m) for m in refused.mistakes], "notes": []}))
        return
    out.write(json.dumps({"refused": [], "notes": notes}) + "\n")
    document.write(out)


if __name__ == "__main__":
    main()
