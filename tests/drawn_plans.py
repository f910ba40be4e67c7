"""Small plans drawn as DXF, for tests of what reads them."""

import ezdxf


def box(x, y, wide, deep):
    return [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]


def plan_dxf(path, *, unit=2, joints=False, layer="SLAB", text="", slabs=((0, 0, 30, 20),)):
    """A DXF of slabs, 30 x 20 with one wall where nothing else is said, in the unit of that $INSUNITS code."""
    document = ezdxf.new("R2010", units=unit)
    space = document.modelspace()
    for slab in slabs:
        space.add_lwpolyline(box(*slab), close=True, dxfattribs={"layer": layer})
    if len(slabs) == 1:
        space.add_line((10, 0), (10, 20), dxfattribs={"layer": "A-WALL"})
    if joints:
        space.add_line((20, 0), (20, 20), dxfattribs={"layer": "S-JOINT"})
    if text:
        space.add_text(text)
    document.saveas(path)
    return path


def two_slabs(path):
    """Two slabs side by side, 40 x 24 ft and 30 x 20 ft, drawn in inches."""
    slabs = ((0, 0, 480, 288), (700, 0, 360, 240))
    return plan_dxf(path, unit=1, layer="S-SLAB", slabs=slabs)
