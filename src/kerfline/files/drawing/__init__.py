"""Reads a slab out of a drawing: what it holds, the best reading of it, and the parts themselves.

::

    open_file -> entities -> opened          a DXF, as plain curves and texts; other doors hand over the same
    unit_evidence -> unit_choice             its unit, or a question
    names, candidates -> proposal -> reading which outline is the slab's, which layers hold what, or a question
    outline, walls, standing, joints -> parts
"""

from kerfline.files.drawing.candidates import Candidate, SlabOpen
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.opened import Drawing, drawing_of, gather
from kerfline.files.drawing.parts import read_slab_parts, slab_parts
from kerfline.files.drawing.proposal import Proposal, propose
from kerfline.files.drawing.read import read_drawing
from kerfline.files.drawing.reading import Look, Reading, ReadingWishes, look_at, reading, taken
from kerfline.files.drawing.report import report
from kerfline.files.slab_parts import SlabParts

__all__ = [
    "Candidate",
    "Drawing",
    "Layers",
    "Look",
    "Proposal",
    "Reading",
    "ReadingWishes",
    "SlabOpen",
    "SlabParts",
    "drawing_of",
    "gather",
    "look_at",
    "propose",
    "read_drawing",
    "read_slab_parts",
    "reading",
    "report",
    "slab_parts",
    "taken",
]
