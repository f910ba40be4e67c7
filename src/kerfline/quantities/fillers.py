"""Filler, sealant and curing compound: volumes in mm3."""


def filler_volume(length: float, width: float, depth: float) -> float:
    """Filler in a saw cut of a length, width and depth (mm)."""
    return length * width * depth


def curing_compound(area: float, cover: float) -> float:
    """Curing compound (mm3) for an area (mm2) at a cover in mm2 per mm3."""
    return area / cover
