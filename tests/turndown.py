"""Closed forms of a turned-down edge, a strip and a pad: the take-off by hand, mm and mm3.

The take-off (``kerfline.quantities.concrete``) integrates footprints; these formulas, which share nothing
with it, are what it is held against.
"""

NET_CORNERS = 4
"""Convex corners less re-entrant ones of any simple rectilinear outline."""


def section_area(width: float, height: float, slope: float = 0.0) -> float:
    """Area (mm2) of the part of an edge below the slab.

    Args:
        width: Width at the bottom.
        height: Depth of the edge less the thickness of the slab.
        slope: Run over rise of the inner face; 0 where it is straight.
    """
    top = width + slope * height
    return (width + top) * height / 2


def section_centroid(width: float, height: float, slope: float = 0.0) -> float:
    """Distance (mm) of that area's centroid from the outer face; half the width where straight."""
    top = width + slope * height
    area = section_area(width, height, slope)
    if not area:
        return 0.0
    return height * (width**2 + width * top + top**2) / (6 * area)


def edge_volume(perimeter: float, width: float, height: float, slope: float = 0.0) -> float:
    """Volume (mm3) of a turned-down edge all round a rectilinear outline: a (P - 8 x).

    By the theorem of Pappus: a convex corner takes two centroid distances off the perimeter, a
    re-entrant one adds them, and there are always four more convex ones. Exact as long as the edge's top
    is narrower than half the narrowest leg of the slab.
    """
    area = section_area(width, height, slope)
    path = perimeter - 2 * NET_CORNERS * section_centroid(width, height, slope)
    return area * path


def strip_volume(length: float, width: float, height: float, slope: float = 0.0) -> float:
    """Volume (mm3) below the slab of a thickened strip with two sloping sides, clear length given."""
    return (width + slope * height) * height * length


def pad_volume(area: float, height: float) -> float:
    """Volume (mm3) below the slab of a thickened pad with upright sides."""
    return area * height
