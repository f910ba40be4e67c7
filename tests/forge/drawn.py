"""A drawing and its truth, and what every habit of drawing begins with."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from ezdxf.document import Drawing as Document
from shapely import Polygon

from forge.drafter import Drafter, faces, moved
from forge.plans import Plan


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A drawing and its truth.

    Attributes:
        document: The drawing.
        slabs: The slabs that it holds, mm; any of them is right where ``all_meant`` is not set.
        openings: Area of the openings in the slab, mm2.
        walls: Length of the inner walls, mm.
        unit: Millimetres in its unit.
        asks: Whether asking is the right answer, with every slab among the candidates.
        corners: How many corners the slab has, where that tells; else None.
    """

    document: Document
    slabs: tuple[Polygon, ...]
    openings: float
    walls: float
    unit: float
    asks: bool = False
    corners: int | None = None


Habit = Callable[[Random, Plan], Drawn]


def drawn(d: Drafter, plan: Plan, *, slabs: tuple[Polygon, ...] = (), asks: bool = False) -> Drawn:
    """A drawing of a plan, with its truth."""
    return Drawn(
        document=d.doc,
        slabs=slabs or (moved(plan.slab, d),),
        openings=sum(p.area for p in plan.pits),
        walls=sum(line.length for line, _ in plan.inner),
        unit=d.factor,
        asks=asks,
    )


def any_unit(random: Random) -> str:
    """A unit for a drawing, drawn by lot."""
    return random.choice(["mm", "mm", "m", "in", "ft", "cm"])


def walls_as_lines(d: Drafter, plan: Plan, *, caps: bool = True) -> None:
    """The faces of the walls, line by line."""
    for face in faces(plan.bodies, caps=caps, doors=plan.doors):
        d.line("wall", *face.coords)


def slab_alone(plan: Plan) -> Plan:
    """The plan whose slab is what its walls' outer faces go around."""
    return replace(plan, slab=plan.facade)
