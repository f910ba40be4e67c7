"""What a drawing gives of a slab; apart from the reader, so that a job without a drawing needs none."""

from dataclasses import dataclass, replace

from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, Edge, GivenJoint, KeepOut, Penetration, Slab, Wall, Zone

MOST_LINES = 10
"""Lines that a command says of a reading at most."""


@dataclass(frozen=True, kw_only=True)
class SlabParts:
    """What the layers of a drawing give of a slab.

    Attributes:
        outline: The slab's edge; None where no layer was named for it.
        openings: Holes, those drawn inside the outline on its own layers first.
        walls: Interior walls.
        columns: Columns with their boxouts.
        penetrations: Pipes, drains and the like.
        joints: Joints that are drawn.
        keep_outs: Areas where no saw may go.
        thickness: Thickness of the slab, mm, where the drawing itself says it; only our own do.
        zones: Areas with a thickness of their own; only our own drawings tell them.
        edges: What the edges stand against; likewise.
        notes: Sentences on what was used, repaired, assumed and left out, and why.
        reading: Sentences on what was taken for what, ``MOST_LINES`` at most.
    """

    outline: Ring | None = None
    openings: tuple[Ring, ...] = ()
    walls: tuple[Wall, ...] = ()
    columns: tuple[Column, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    joints: tuple[GivenJoint, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    thickness: float | None = None
    zones: tuple[Zone, ...] = ()
    edges: tuple[Edge, ...] = ()
    notes: tuple[str, ...] = ()
    reading: tuple[str, ...] = ()


def slab_of(parts: SlabParts, outline: Ring, thickness: float) -> Slab:
    """The slab that a drawing alone gives.

    Args:
        parts: What it holds.
        outline: Its outline.
        thickness: Thickness of the slab, mm.
    """
    return with_shares_taken(
        Slab(
            outline=outline,
            thickness=thickness,
            openings=parts.openings,
            walls=parts.walls,
            columns=parts.columns,
            penetrations=parts.penetrations,
            keep_outs=parts.keep_outs,
            joints=parts.joints,
            zones=parts.zones,
            edges=parts.edges,
        )
    )


def with_shares_taken(slab: Slab) -> Slab:
    """The slab whose joints have the depths that a drawing notes as shares of the thickness beside them."""
    if all(joint.depth_share is None for joint in slab.joints):
        return slab
    return replace(slab, joints=tuple(_deep(joint, slab) for joint in slab.joints))


def _deep(joint: GivenJoint, slab: Slab) -> GivenJoint:
    if joint.depth_share is None:
        return joint
    middle = LineString(joint.path).interpolate(0.5, normalized=True)
    depth = joint.depth_share * slab.thickness_at(middle.x, middle.y)
    return replace(joint, depth=depth, depth_share=None)
