"""Reads a slab out of a drawing (DXF): what it holds, the best reading of it, and the parts themselves."""

from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.opened import Drawing, read_drawing
from kerfline.files.drawing.parts import SlabParts, read_slab_parts, slab_parts

__all__ = ["Drawing", "Layers", "SlabParts", "read_drawing", "read_slab_parts", "slab_parts"]
