"""Reads a slab on ground out of a building model (IFC, ISO 16739).

::

    model_file -> bodies            the model, what each element covers in plan and from which level to which
    floors                          which floor is the slab on ground
    standing                        walls, columns and footings of that slab
    read_building                   the slab, and what was taken for what
    read_apart                      the same in a process of its own, bounded in time and memory
"""

from kerfline.files.building.floors import FloorChoice, FloorOffer, FloorQuestion
from kerfline.files.building.read_building import Building, read_building

__all__ = ["Building", "FloorChoice", "FloorOffer", "FloorQuestion", "read_building"]
