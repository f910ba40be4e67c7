"""Opens a DXF and settles its unit."""

from pathlib import Path

from kerfline.files.drawing.opened import Drawing, gather
from kerfline.files.drawing.size import drawn_unit
from kerfline.files.drawing.unit_choice import settled
from kerfline.units import Unit


def read_drawing(path: str | Path, unit: Unit | str | None = None) -> Drawing:
    """Reads a DXF into curves in mm.

    Args:
        path: The file.
        unit: Unit of the drawing where the user states it, one of ``DRAWN``; it wins over what the drawing says.

    Raises:
        InputRefused: The file is no readable DXF, draws nothing, or its unit is unknown or at odds with
            what is drawn.
    """
    return settled(gather(path), drawn_unit(str(unit)) if unit else None)
