"""Reads a slab out of a drawing (DXF): what it holds, the best reading of it, and the parts themselves.

::

    open_file -> entities -> opened       the file, its curves in mm, its unit
    names, layers -> proposal -> report   which layers hold what
    outline, walls, standing, joints -> parts
"""

from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.opened import Drawing, read_drawing
from kerfline.files.drawing.parts import read_slab_parts, slab_parts
from kerfline.files.drawing.proposal import Proposal, propose
from kerfline.files.drawing.report import report
from kerfline.files.slab_parts import SlabParts

__all__ = [
    "Drawing",
    "Layers",
    "Proposal",
    "SlabParts",
    "propose",
    "read_drawing",
    "read_slab_parts",
    "report",
    "slab_parts",
]
