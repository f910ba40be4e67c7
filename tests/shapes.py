"""Slabs and layouts drawn by hand, shared by the tests."""

from collections.abc import Sequence

from shapely import LineString

from kerfline.geometry.faces import faces, lines_of
from kerfline.geometry.ring import Point, Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Joint, Layout, Panel, Reason, Solution, Status
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    JointKind,
    KeepOut,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
)
from kerfline.units import MM_PER_FOOT, Unit


def feet(*points: Sequence[float]) -> tuple[Point, ...]:
    """Points given in feet, in mm."""
    return tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in points)


def workshop_slab() -> Slab:
    """An L-shaped community workshop, 60 x 40 ft with a 24 x 16 ft notch at the upper right."""
    return Slab(
        outline=Ring(feet((0, 0), (60, 0), (60, 24), (36, 24), (36, 40), (0, 40))),
        thickness=101.6,
        openings=(Ring(feet((40, 4), (44, 4), (44, 8), (40, 8))),),
        walls=(
            Wall(id="W1", path=feet((0, 24), (36, 24))),
            Wall(id="W2", path=feet((24, 24), (24, 40))),
            Wall(id="W3", path=feet((12, 24), (12, 40))),
        ),
        columns=(
            Column(id="C1", at=feet((12, 12))[0], size=457.2),
            Column(id="C2", at=feet((24, 12))[0], size=457.2),
            Column(id="C3", at=feet((48, 12))[0], boxout=Boxout.CIRCLE, size=457.2),
        ),
        penetrations=(
            Penetration(id="N1", at=feet((6, 30))[0], diameter=101.6, kind=PenetrationKind.DRAIN),
        ),
        keep_outs=(
            KeepOut(
                id="K1", outline=Ring(feet((50, 14), (58, 14), (58, 20), (50, 20))), what="tubing"
            ),
        ),
    )


_WORKSHOP_JOINTS: tuple[tuple[JointKind, Reason, tuple[Point, ...]], ...] = (
    (JointKind.CONTROL, Reason.SPAN, ((0, 12), (11.6, 12))),
    (JointKind.CONTROL, Reason.SPAN, ((12.4, 12), (23.6, 12))),
    (JointKind.CONTROL, Reason.SPAN, ((24.4, 12), (36, 12))),
    (JointKind.CONTROL, Reason.SPAN, ((36, 12), (47.7, 12))),
    (JointKind.CONTROL, Reason.SPAN, ((48.3, 12), (60, 12))),
    (JointKind.CONTROL, Reason.WALL, ((0, 24), (36, 24))),
    (JointKind.CONTROL, Reason.SPAN, ((0, 32), (36, 32))),
    (JointKind.CONTROL, Reason.COLUMN, ((12, 0), (12, 11.6))),
    (JointKind.CONTROL, Reason.WALL, ((12, 12.4), (12, 40))),
    (JointKind.CONTROL, Reason.COLUMN, ((24, 0), (24, 11.6))),
    (JointKind.CONTROL, Reason.WALL, ((24, 12.4), (24, 40))),
    (JointKind.CONSTRUCTION, Reason.CORNER, ((36, 0), (36, 24))),
    (JointKind.CONTROL, Reason.COLUMN, ((48, 0), (48, 11.7))),
    (JointKind.CONTROL, Reason.COLUMN, ((48, 12.3), (48, 24))),
)
"""Kind, reason and path in feet; they run a little into the boxouts and are clipped there."""


def workshop_layout() -> Layout:
    """A layout of the workshop made by hand: joints by feet, panels as the faces between them."""
    slab = workshop_slab()
    return layout_of(slab, [(kind, why, feet(*path)) for kind, why, path in _WORKSHOP_JOINTS])


def layout_of(slab: Slab, lines: Sequence[tuple[JointKind, Reason, Sequence[Point]]]) -> Layout:
    """A layout from joints given by kind, reason and path; panels are the faces between them."""
    cut = [
        (kind, why, part.coords)
        for kind, why, path in lines
        for part in lines_of(LineString(path).intersection(slab.concrete))
    ]
    joints = tuple(
        Joint(
            id=f"J{i}",
            kind=kind,
            path=tuple((float(x), float(y)) for x, y in path),
            depth=slab.thickness / 4 if kind is JointKind.CONTROL else 0.0,
            reason=why,
            note=f"drawn by hand ({why.value})",
        )
        for i, (kind, why, path) in enumerate(cut, 1)
    )
    panels = tuple(
        Panel(id=f"P{i}", polygon=face)
        for i, face in enumerate(faces(slab.concrete, [j.line for j in joints]), 1)
    )
    return Layout(joints=joints, panels=panels, solution=Solution(status=Status.GIVEN))


def workshop_job(units: Unit = Unit.FT, sheet: SheetChoice | None = None) -> Job:
    """The workshop as a job."""
    fields = {"project": "Community workshop", "number": "S-101"}
    return Job(
        name="Workshop",
        units=units,
        slab=workshop_slab(),
        sheet=sheet or SheetChoice(fields=fields, north=20.0),
    )


__all__ = ["GivenJoint", "feet", "layout_of", "workshop_job", "workshop_layout", "workshop_slab"]


def closets():
    """A house whose closets are too small for the numbers of their panels."""
    paths = [
        ((0, 18), (36, 18)), ((14, 18), (14, 32)), ((17, 18), (17, 32)), ((14, 25), (17, 25)),
        ((26, 0), (26, 18)), ((26, 8), (36, 8)), ((36, 0), (36, 20)), ((30, 8), (30, 11)),
    ]  # fmt: skip
    walls = tuple(Wall(id=f"W{n}", path=feet(*path)) for n, path in enumerate(paths, 1))
    outline = Ring(feet((0, 0), (48, 0), (48, 20), (36, 20), (36, 32), (0, 32)))
    return Slab(outline=outline, thickness=100.0, walls=walls)
