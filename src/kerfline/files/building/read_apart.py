"""Reads a building model in a process of its own: a model can be made to keep its reader busy for ever."""

import pickle
import sys
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.apart import Overrun, bound, run_apart
from kerfline.files.building.floors import FloorChoice
from kerfline.files.building.read_building import Building, read_building

MODULE = "kerfline.files.building.read_apart"
LONGEST = 180.0
"""Seconds that the reading of a model may take; whole houses take a few."""


def read_building_apart(path: Path, choice: FloorChoice) -> Building:
    """Reads a building model, as ``read_building`` does, within bounds of time and memory.

    Raises:
        FloorQuestion: Only the user can say which floor is meant.
        InputRefused: It is refused, or takes more than that.
    """
    try:
        told = run_apart(MODULE, [str(path), choice.storey, choice.slab], LONGEST)
    except Overrun:
        raise InputRefused(
            Mistake(
                what="this model takes more time or memory to read than a floor should",
                where=path.name,
                remedy="export the lowest floor alone",
            )
        ) from None
    read: Building | InputRefused = pickle.loads(told)  # written by our own process, below
    if isinstance(read, Building):
        return read
    raise read


def main() -> None:
    """Reads the model that the command line names and writes what it gives."""
    bound()
    read: Building | InputRefused
    try:
        read = read_building(Path(sys.argv[1]), FloorChoice(storey=sys.argv[2], slab=sys.argv[3]))
    except InputRefused as refused:
        read = refused
    sys.stdout.buffer.write(pickle.dumps(read))


if __name__ == "__main__":
    main()
