"""What a round blade leaves uncut: plain geometry of the circle, mm.

At the end of a cut the blade's arc rises to the surface. With a guard or wheels in front of the blade the
saw stops short of a wall by so much more.
"""

import math
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class CutEnd:
    """The end of a saw cut at something that stands.

    Attributes:
        run_out: From the foot of the blade's centre to where the cut meets the surface; also how far a
            cut must pass a point to be at full depth there.
        surface: Uncut length at the surface.
        full_depth: Length short of full depth.
    """

    run_out: float
    surface: float
    full_depth: float


def cut_end(blade: float, depth: float, guard: float = 0.0) -> CutEnd:
    """How a cut ends at a wall.

    Args:
        blade: Diameter of the blade.
        depth: Depth of the cut, less than the radius.
        guard: From the blade's front to the foremost part of the saw.
    """
    radius = blade / 2
    run_out = math.sqrt(max(0.0, 2 * radius * depth - depth**2))
    return CutEnd(run_out=run_out, surface=radius - run_out + guard, full_depth=radius + guard)
