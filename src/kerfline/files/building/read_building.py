"""The slab that a building model gives, and what was taken for what."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import shapely
from shapely import Polygon

from kerfline.errors import InputRefused, Mistake
from kerfline.files.building.bodies import Bodies, Body
from kerfline.files.building.floors import (
    Floor,
    FloorChoice,
    floor_of,
    floor_storeys,
    storey_of,
)
from kerfline.files.building.ground import site_of, true_north
from kerfline.files.building.model_file import open_model, unit_of
from kerfline.files.building.standing import STANDS, columns_on, walls_on, with_footings
from kerfline.files.drawing.wording import fine, fine_point, place
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.chords import with_arcs
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Ring
from kerfline.model.site import Site
from kerfline.model.slab import Penetration
from kerfline.units import Display, Unit, counted, format_depth, format_length

PIPE = 304.8
"""A round hole of up to this (mm, 12 in) across is a pipe's, not an opening's."""

ROUND = 0.97
"""A hole that fills this share of the circle around it is round."""

THICKER = 10.0
"""A body that goes this far (mm) below the slab's underside is thicker there."""

GAP = 600.0
"""Gaps between outer walls up to this (mm) are closed where the walls stand for the slab."""

HOLLOW = 1.5
"""Walls that enclose no more than this many times their own area enclose no floor."""


@dataclass(frozen=True, kw_only=True)
class Building:
    """What a building model gives.

    Attributes:
        parts: The slab's parts; the outline is always there.
        thickness: Thickness of the slab, mm; None where the model has no slab.
        unit: The unit that the model is drawn in.
        north: Direction of north, degrees anticlockwise from the plan's up.
        site: Its place on the map; None where the model does not say it.
        reading: Sentences on what was taken for what.
        storeys: Its storeys that have floors, from the lowest up.
    """

    parts: SlabParts
    thickness: float | None
    unit: Unit
    north: float
    site: Site | None
    reading: tuple[str, ...]
    storeys: tuple[str, ...]


def read_building(path: Path, choice: FloorChoice | None = None) -> Building:
    """Reads the slab on ground out of a building model.

    Args:
        path: The model.
        choice: What the user says of the floor.

    Raises:
        FloorQuestion: Only the user can say which floor is meant.
        InputRefused: The model cannot be read, or has neither floor nor walls.
    """
    model = open_model(path)
    unit = unit_of(model)
    display = unit.display
    bodies = Bodies(model, path)
    found = floor_of(bodies, path, choice or FloorChoice(), unit)
    floor = found or _within_walls(bodies, path)
    openings, pipes, notes = _holes(floor.outline, display)
    walls, more = walls_on(bodies, floor, display)
    walls, strips = with_footings(bodies, floor, walls)
    columns, said = columns_on(bodies, floor, display)
    site, mapped = site_of(model, floor.outline, floor.top)
    thickness, about = _thickness(floor, display) if found else (None, [])
    return Building(
        parts=SlabParts(
            outline=_ring(floor.outline.exterior),
            openings=openings,
            walls=walls,
            columns=columns,
            penetrations=pipes,
            notes=(*about, *notes, *more, *strips, *said, *mapped, *bodies.notes()),
        ),
        thickness=thickness,
        unit=unit,
        north=true_north(model),
        site=site,
        reading=_reading(floor, unit),
        storeys=floor_storeys(bodies),
    )


def _reading(floor: Floor, unit: Unit) -> tuple[str, ...]:
    x0, y0, x1, y1 = floor.outline.bounds
    size = " x ".join(format_length(side, unit.display) for side in (x1 - x0, y1 - y0))
    level = format_length(floor.top, unit.display)
    storeys = sorted({storey_of(b) for b in floor.bodies} - {""})
    where = f", in storey {' and '.join(storeys)}" if storeys else ""
    return (floor.why, f"Slab: {size}{where}, its top at {level}.")


def _thickness(floor: Floor, display: Display) -> tuple[float, list[str]]:
    """Thickness of the greater part of the slab, and notes where it is not the whole truth."""
    thickness = floor.top - floor.bottom
    notes = []
    if any(not b.level_faces(1) or not b.level_faces(-1) for b in floor.bodies):
        area = sum(b.footprint.area for b in floor.bodies)
        thickness = sum(map(_volume, floor.bodies)) / area
        notes.append(
            f"The slab has no level face; its mean thickness, {format_depth(thickness, display)}, is taken."
        )
    deepest = min(b.bottom for b in floor.bodies)
    if deepest < floor.bottom - THICKER:
        deep = format_depth(floor.top - deepest, display)
        notes.append(
            f"The slab is thicker in places, up to {deep}: say under [[zone]] or [[edge]] where."
        )
    layers = _layers(floor.bodies)
    if len(layers) > 1:
        notes.append(
            f"The slab's thickness of {format_depth(thickness, display)} is that of all its layers "
            f"({', '.join(layers)}): give the concrete's own with --thickness."
        )
    return fine(thickness), notes


def _volume(body: Body) -> float:
    """Volume of a closed body, mm3, from the tetrahedra between its triangles and its first corner."""
    a, b, c = (body.corners[body.faces[:, i]] - body.corners[0] for i in range(3))
    return abs(float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum())) / 6


def _layers(bodies: Sequence[Body]) -> list[str]:
    """The materials that a slab is layered of, from the top down; none where the model does not say."""
    from ifcopenshell.util.element import get_material

    found = get_material(bodies[0].element, should_skip_usage=True)
    if found is None or not found.is_a("IfcMaterialLayerSet"):
        return []
    return [
        str(layer.Material.Name) if layer.Material else "void" for layer in found.MaterialLayers
    ]


def _holes(
    outline: Polygon, display: Display
) -> tuple[tuple[Ring, ...], tuple[Penetration, ...], list[str]]:
    """The openings, and the small round holes as pipes."""
    openings, pipes = [], []
    for ring in outline.interiors:
        hole = Polygon(ring)
        across = 2 * float(shapely.minimum_bounding_radius(hole))
        if across <= PIPE and hole.area >= ROUND * math.pi * across**2 / 4:
            pipes.append((fine_point((hole.centroid.x, hole.centroid.y)), fine(across)))
        else:
            openings.append(_ring(ring))
    pipes.sort(key=lambda pipe: (pipe[0][1], pipe[0][0]))
    openings.sort(key=lambda r: (r.polygon.bounds[1], r.polygon.bounds[0]))
    made = tuple(
        Penetration(id=f"N{n}", at=at, diameter=across) for n, (at, across) in enumerate(pipes, 1)
    )
    notes = []
    if made:
        widest = format_depth(max(p.diameter for p in made), display)
        first = place(made[0].at, display)
        notes.append(
            f"{counted(len(made), 'round hole')} of up to {widest} taken for pipes, the first at {first}."
        )
    return tuple(openings), made, notes


def _ring(ring: shapely.LinearRing) -> Ring:
    return with_arcs([fine_point((float(x), float(y))) for x, y in ring.coords[:-1]])


def _within_walls(bodies: Bodies, path: Path) -> Floor:
    """The floor within the outer faces of the lowest walls, for a model without floors.

    Raises:
        InputRefused: There are no walls, or they enclose nothing.
    """
    walls = bodies.of("IfcWall", whole=True)
    lowest = min((b.bottom for b in walls), default=0.0)
    area = shapely.union_all([b.footprint for b in walls if b.bottom <= lowest + STANDS])
    closed = area.buffer(GAP / 2, join_style="mitre").buffer(-GAP / 2, join_style="mitre")
    whole = max(
        (Polygon(p.exterior) for p in polygons_of(closed)), key=lambda p: p.area, default=None
    )
    if whole is None or whole.area < HOLLOW * area.area:
        raise InputRefused(
            Mistake(
                what="the model has no slab, and no walls that enclose a floor",
                where=path.name,
                remedy="export the lowest floor with the model, or write the slab's sizes instead",
            )
        )
    why = "Slab: the model has none; the outer faces of the lowest walls are taken for its edge: please confirm it."
    outline = Polygon(whole.exterior.simplify(1.0).coords)
    return Floor(outline=outline, bodies=(), top=lowest, bottom=lowest, why=why)
