"""The parts of a slab that is drawn in inches, as they are read."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.drawing import Layers, read_slab_parts

INCH2 = 25.4**2
L_SHAPE = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 360), (0, 360)]
L_AREA = 480 * 240 + 240 * 120
SLAB = Layers(outline=("SLAB*",))


def read(drawn, layers=SLAB):
    return read_slab_parts(drawn.save(), layers)


def area(ring) -> float:
    """The area within a ring, square inches."""
    return ring.polygon.area / INCH2


def refused(drawn, layers=SLAB) -> str:
    """What is said where it is not read."""
    with pytest.raises(InputRefused) as caught:
        read(drawn, layers)
    return str(caught.value)
