"""Which floor of a building model is the slab on ground."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import shapely
from shapely import Polygon

from kerfline.errors import InputRefused, Mistake
from kerfline.files.building.bodies import Bodies, Body, largest, without_hairs
from kerfline.files.drawing.names_abroad import plain
from kerfline.files.drawing.wording import place
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME
from kerfline.units import Display, Unit, counted, format_area, format_length

NO_FLOORS = ("ROOF", "LANDING", "TRACK_SLAB", "APPROACH_SLAB", "SIDEWALK", "WEARING")
"""Kinds of slab that are no floor of a building."""

BASE = "BASESLAB"
"""Kind of a slab on ground (ISO 16739, IfcSlabTypeEnum)."""

ON_GROUND = re.compile(
    r"(SLAB|FLOOR)S? ON (GRADE|GROUND)|GROUND.?BEARING|(^|[^A-Z])SOG([^A-Z]|$)|BODENPLATTE|SOHLPLATTE"
    r"|DALLAGE|SOLERA|VLOER OP ZAND|PLATTA PA MARK"
)
"""Names that say as much as that kind; common practice."""

FINISH = 50.0
"""A floor thinner than this (mm) is a finish of tiles or boards, a screed's skin: no slab is cast so thin."""

SMALL_SHARE = 0.5
"""Of all that lies on ground the lowest floor is less than this share: a pit's floor, perhaps."""

ONE_LEVEL = 50.0
"""Slabs whose tops are this close (mm) lie in one plane."""

UNDER = 300.0
"""What ends this far (mm) below a floor, or nearer, carries it."""

ROOM = 1000.0
"""What stands under a floor and is taller than this (mm) makes it a floor over a room, not on ground."""

BESIDE = 25.0
"""Slabs of one plane that are this close (mm) are one slab where the user says so."""

MOST_LISTED = 12
ALL = "all"


@dataclass(frozen=True, kw_only=True)
class FloorOffer:
    """A floor that may be the slab on ground.

    Attributes:
        number: What the user calls it, from 1.
        words: Its size, where it lies and in which storey, and the level of its top.
        ring: Its edge, mm.
    """

    number: int
    words: str
    ring: tuple[Point, ...]


class FloorQuestion(InputRefused):
    """Only the user can say which floor is the slab on ground.

    Attributes:
        asks: The question, as a clause.
        offers: The floors that can be meant, from the lowest up.
        storeys: The storeys that have floors, from the lowest up.
        unit: The unit that the model is drawn in.
        together: Whether all of them can be one slab.
    """

    asks: str = ""
    offers: tuple[FloorOffer, ...] = ()
    storeys: tuple[str, ...] = ()
    unit: Unit = Unit.MM
    together: bool = False


UPSTAIRS = (
    "Slab: the floor that you say; walls or columns stand under it in the model, so it may be no slab on ground: "
    "please confirm it."
)
"""Said of a floor that the user chose where none lies on ground."""


CHOSEN = "Slab: the floor that you say."


@dataclass(frozen=True, kw_only=True)
class FloorChoice:
    """What the user says of the floor.

    Attributes:
        storey: Name of its storey; empty where he does not say.
        slab: Its number in the list that was shown, or ``all``; empty where he does not say.
    """

    storey: str = ""
    slab: str = ""


@dataclass(frozen=True, kw_only=True)
class Floor:
    """The slab on ground.

    Attributes:
        outline: What it covers in plan, its holes in it, mm.
        bodies: The elements that it is made of.
        top: Height of its upper face.
        bottom: Height of the greater part of its lower face.
        why: Why it was taken, as a sentence.
    """

    outline: Polygon
    bodies: tuple[Body, ...]
    top: float
    bottom: float
    why: str


@dataclass(frozen=True, kw_only=True)
class _Likely:
    """The floors that can be the slab on ground.

    Attributes:
        floors: They themselves; none where no floor is in the storey that the user says.
        why: Said of the one that is taken.
        doubt: Why none of them is taken unasked; empty where they lie on ground as far as the model shows, so that
            the only one needs no question.
    """

    floors: list[Body]
    why: str
    doubt: str = ""


def floor_of(bodies: Bodies, path: Path, choice: FloorChoice, unit: Unit) -> Floor | None:
    """The slab on ground; None where the model has no floors at all.

    Raises:
        FloorQuestion: Only the user can say which it is, or the number that he says is none of them.
        InputRefused: There is no floor in the storey that he says.
    """
    floors, display = _floors(bodies), unit.display
    if not floors:
        if choice != FloorChoice():
            raise InputRefused(
                Mistake(what="the model has no floors to choose from", where=path.name)
            )
        return None
    likely = _likely(bodies, floors, choice.storey)
    if not likely.floors:
        raise InputRefused(_no_such_storey(path, floors, choice.storey, display))
    chosen = _chosen(likely, choice.slab)
    if not chosen:
        question = _question(path, likely, choice.slab, display)
        question.storeys, question.unit = floor_storeys(bodies), unit
        raise question
    return Floor(
        outline=_one(path, chosen),
        bodies=tuple(chosen),
        top=max(main_level(b, 1) for b in chosen),
        bottom=min(main_level(b, -1) for b in chosen),
        why=likely.why,
    )


def floor_storeys(bodies: Bodies) -> tuple[str, ...]:
    """Names of the storeys that have floors, from the lowest up."""
    names = (storey_of(b) for b in _numbered(_floors(bodies)))
    return tuple(dict.fromkeys(name for name in names if name))


def storey_of(body: Body) -> str:
    """Name of the storey that holds an element; empty where none does or it has no name."""
    from ifcopenshell.util.element import get_container

    storey = get_container(body.element, ifc_class="IfcBuildingStorey")
    return str(storey.Name or "") if storey else ""


def main_level(body: Body, way: int) -> float:
    """Height of the greatest level face that faces up (1) or down (-1); its end where none is level."""
    faces = body.level_faces(way)
    if not faces:
        return body.top if way > 0 else body.bottom
    return max(faces, key=lambda height: (faces[height], way * height))


def _floors(bodies: Bodies) -> list[Body]:
    """The slabs that are floors; finishes only where nothing else is."""
    slabs = [b for b in bodies.of("IfcSlab") if b.kind not in NO_FLOORS]
    return [b for b in slabs if main_level(b, 1) - main_level(b, -1) >= FINISH] or slabs


def _says_on_ground(body: Body) -> bool:
    """Whether the model calls it a slab on ground, by its kind or in its name."""
    from ifcopenshell.util.element import get_type

    if body.kind == BASE:
        return True
    typed = get_type(body.element)
    names = (body.element.Name, body.element.ObjectType, typed.Name if typed else "")
    return any(ON_GROUND.search(plain(str(name or ""))) for name in names)


def _likely(bodies: Bodies, floors: list[Body], storey: str) -> _Likely:
    """The floors that can be it, and why."""
    if storey:
        named = [b for b in floors if storey_of(b).casefold() == storey.strip().casefold()]
        return _Likely(floors=named, why=f"Slab: the floor of storey {storey}, as you say.")
    if base := [b for b in floors if _says_on_ground(b)]:
        return _Likely(floors=base, why="Slab: the model calls it a slab on ground.")
    grounded = _without_rooms_below(bodies, floors)
    if not grounded:
        doubt = "no floor lies on ground: walls or columns stand under each of them"
        return _Likely(floors=floors, why=UPSTAIRS, doubt=doubt)
    lowest = _lowest(grounded)
    if _area(lowest) < SMALL_SHARE * _area(_lowest([b for b in grounded if b not in lowest])):
        doubt = "the lowest floor is small beside the one above it, which lies on ground too"
        return _Likely(floors=grounded, why=CHOSEN, doubt=doubt)
    why = "Slab: the lowest floor; the model calls none a slab on ground, so please confirm it."
    return _Likely(floors=lowest, why=why)


def _lowest(floors: Sequence[Body]) -> list[Body]:
    """Those of the lowest plane; none of none."""
    level = min((main_level(b, 1) for b in floors), default=0.0)
    return [b for b in floors if main_level(b, 1) - level <= ONE_LEVEL]


def _area(floors: Sequence[Body]) -> float:
    return sum(b.footprint.area for b in floors)


def _without_rooms_below(bodies: Bodies, floors: Sequence[Body]) -> list[Body]:
    """The floors that nothing taller than a footing carries."""
    supports = [
        b
        for kind in ("IfcColumn", "IfcWall")
        for b in bodies.of(kind, whole=True)
        if b.top - b.bottom > ROOM
    ]
    return [floor for floor in floors if not any(_carries(s, floor) for s in supports)]


def _carries(support: Body, floor: Body) -> bool:
    under = (
        floor.bottom - UNDER <= support.top <= floor.top and support.bottom < floor.bottom - ROOM
    )
    return under and bool(support.footprint.buffer(BESIDE).intersects(floor.footprint))


def _chosen(likely: _Likely, slab: str) -> list[Body]:
    """Those that the user's number means, or the only one where there is no question; else none."""
    said = slab.strip().lower()
    ordered = _numbered(likely.floors)
    if not likely.doubt and (said == ALL or (len(ordered) == 1 and not said)):
        return ordered
    if said.isdigit() and 1 <= int(said) <= len(ordered):
        return [ordered[int(said) - 1]]
    return []


def _question(path: Path, likely: _Likely, said: str, display: Display) -> FloorQuestion:
    """Which of these is the slab on ground."""
    offers = [
        FloorOffer(number=n, words=_told(b, display), ring=_edge(b))
        for n, b in enumerate(_numbered(likely.floors)[:MOST_LISTED], 1)
    ]
    count = counted(len(likely.floors), "slab")
    if likely.doubt:
        asks = f"{likely.doubt}; the model has {count}"
        last = "or which storey with --storey and its name"
    else:
        asks, last = f"the model has {count} that can be meant", "or --slab all where they are one"
    listed = "; ".join(f"{each.number}: {each.words}" for each in offers)
    mistake = Mistake(
        what=f"{asks}: {listed}",
        where=path.name,
        found=f"--slab {said}" if said.strip() else "",
        remedy=f"say which with --slab and its number, {last}",
    )
    question = FloorQuestion(mistake)
    question.asks, question.offers, question.together = asks, tuple(offers), not likely.doubt
    return question


def _edge(body: Body) -> tuple[Point, ...]:
    outer = largest(body.footprint).exterior.coords
    return tuple((float(x), float(y)) for x, y in outer[:-1])


def _numbered(floors: Sequence[Body]) -> list[Body]:
    """Floors from the lowest up, then from the largest down."""
    return sorted(floors, key=lambda b: (round(main_level(b, 1)), -round(b.footprint.area)))


def _told(body: Body, display: Display) -> str:
    x0, y0, x1, y1 = body.footprint.bounds
    size = " x ".join(format_length(side, display) for side in (x1 - x0, y1 - y0))
    level = format_length(main_level(body, 1), display)
    storey = storey_of(body)
    where = f" in storey {storey}" if storey else ""
    at = place(shapely.box(*body.footprint.bounds), display)
    return f"{size}, {format_area(body.footprint.area, display)} at {at}{where}, top at {level}"


def _one(path: Path, bodies: Sequence[Body]) -> Polygon:
    """The area of one slab; slabs beside each other grow together over narrow gaps."""
    if len(bodies) == 1:
        return largest(bodies[0].footprint)
    area = shapely.union_all([b.footprint for b in bodies])
    grown = area.buffer(BESIDE / 2, join_style="mitre").buffer(-BESIDE / 2, join_style="mitre")
    parts = [
        without_hairs(p) for part in polygons_of(grown) for p in polygons_of(part.simplify(SAME))
    ]
    if len(parts) > 1:
        raise InputRefused(
            Mistake(
                what=f"these slabs do not touch: they are {len(parts)} pieces",
                where=path.name,
                remedy="lay each of them out by itself, by its number (--slab 1)",
            )
        )
    return parts[0]


def _no_such_storey(path: Path, floors: Sequence[Body], storey: str, display: Display) -> Mistake:
    """No floor is in the storey that was named."""
    listed = "; ".join(_told(b, display) for b in _numbered(floors)[:MOST_LISTED])
    return Mistake(
        what=f"no floor is in storey {storey!r}; the model has {listed}",
        where=path.name,
        remedy='say which storey the slab is in, as in --storey "Ground floor"',
    )
