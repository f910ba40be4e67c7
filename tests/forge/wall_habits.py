"""How offices draw the floor and its walls."""

from dataclasses import replace
from itertools import pairwise
from random import Random

from shapely import LineString

from forge import whole_sheets as sheets
from forge.drafter import ENGLISH, Drafter, contents, rings_of
from forge.drawn import Drawn, any_unit, drawn, slab_alone, walls_as_lines
from forge.plans import Plan


def named_layers(random: Random, plan: Plan) -> Drawn:
    """Slab and walls on layers of the trade's names."""
    d = Drafter(random, any_unit(random))
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def walls_with_caps(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls as double lines, closed at doors."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def walls_without_caps(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls as double lines, open at doors."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan, caps=False)
    contents(d, plan)
    return drawn(d, plan)


def wall_bodies(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls as closed bodies."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    bodies = plan.bodies
    for body in getattr(bodies, "geoms", [bodies]):
        d.poly("wall", body)
    contents(d, plan)
    return drawn(d, plan)


def wall_hatches(random: Random, plan: Plan) -> Drawn:
    """Walls as solid fills and nothing else, on a slab."""
    d = Drafter(random, any_unit(random))
    d.poly("slab", plan.slab)
    bodies = plan.bodies
    for body in getattr(bodies, "geoms", [bodies]):
        d.hatch("wall", body)
    contents(d, plan)
    return drawn(d, plan)


def wide_polylines(random: Random, plan: Plan) -> Drawn:
    """Walls as wide polylines along their centre lines, on a slab or alone."""
    alone = random.random() < 0.5
    plan = slab_alone(plan) if alone else plan
    d = Drafter(random, any_unit(random))
    if not alone:
        d.poly("slab", plan.slab)
    middle = plan.facade.buffer(-plan.outer / 2, join_style="mitre")
    d.poly("wall", middle, const_width=plan.outer / d.factor)
    for line, thick in plan.inner:
        points = [d.place(*p) for p in line.coords]
        attribs = {**d.attribs("wall"), "const_width": thick / d.factor}
        d.target.add_lwpolyline(points, dxfattribs=attribs)
    contents(d, plan)
    return drawn(d, plan)


def wall_blocks(random: Random, plan: Plan) -> Drawn:
    """Each body of wall in a block of its own, on a slab."""
    d = Drafter(random, any_unit(random))
    d.poly("slab", plan.slab)
    bodies = plan.bodies
    for number, body in enumerate(getattr(bodies, "geoms", [bodies])):
        d.into_block(f"W{number}")
        d.poly("wall", body)
        d.target = d.space
        d.space.add_blockref(f"W{number}", (0, 0), dxfattribs=d.attribs("wall"))
    contents(d, plan)
    return drawn(d, plan)


def loose_lines(random: Random, plan: Plan) -> Drawn:
    """The slab's edge as loose lines, in pieces, with gaps and overlaps, in no order."""
    d = Drafter(random, any_unit(random))
    pieces = []
    for a, b in (pair for ring in rings_of(plan.slab) for pair in pairwise(ring.coords)):
        edge = LineString([a, b])
        cut = random.uniform(0.3, 0.7) * edge.length
        slip = random.choice([-8.0, 0.0, 0.0, 6.0])
        first = edge.interpolate(max(1.0, cut - slip))
        second = edge.interpolate(cut)
        pieces += [(a, (first.x, first.y)), ((second.x, second.y), b)]
    random.shuffle(pieces)
    for a, b in pieces:
        d.line("slab", *((a, b) if random.random() < 0.5 else (b, a)))
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def layer_0(random: Random, plan: Plan) -> Drawn:
    """Everything on layer 0, the slab as a closed polyline."""
    d = Drafter(random, any_unit(random), layers=dict.fromkeys(ENGLISH, "0"))
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def uncleaned_walls(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls whose faces run through one another."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    sheets.uncleaned(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def butted_corners(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: each wall by itself, from the centre line of one that it meets to that of the next."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    corners = sheets.butted(d, plan, caps=random.random() < 0.5)
    contents(d, plan)
    return replace(drawn(d, plan), corners=corners)


def room_areas(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls, and a closed outline in each room on a layer that says nothing."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random), layers=sheets.layers())
    walls_as_lines(d, plan)
    sheets.room_areas(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def rooms_as_boxes(random: Random, plan: Plan) -> Drawn:
    """The house and its rooms as closed outlines on layer 0, no wall drawn by itself."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random), layers=dict.fromkeys(sheets.layers(), "0"))
    d.poly("slab", plan.facade)
    sheets.room_areas(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def open_hall(random: Random, _: Plan) -> Drawn:
    """A hall with columns and an office in its corner, on layers that say little."""
    plan = sheets.hall(random)
    d = Drafter(random, any_unit(random), layers={**ENGLISH, "slab": "1", "column": "2"})
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def garage_doors(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls with a garage door of 16 ft in them."""
    plan = sheets.with_garage(slab_alone(plan))
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan, caps=random.random() < 0.5)
    contents(d, plan)
    return drawn(d, plan)


def slab_as_hatch(random: Random, plan: Plan) -> Drawn:
    """The slab as a hatch on a layer of concrete, no line around it."""
    d = Drafter(random, any_unit(random), layers={**ENGLISH, "slab": "S-CONC"})
    d.hatch("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def regions(random: Random, plan: Plan) -> Drawn:
    """Slab and walls as regions, the slab or only the walls."""
    alone = random.random() < 0.5
    plan = slab_alone(plan) if alone else plan
    d = Drafter(random, any_unit(random))
    if not alone:
        d.region("slab", plan.slab)
    bodies = plan.bodies
    for body in getattr(bodies, "geoms", [bodies]):
        d.region("wall", body)
    contents(d, plan)
    return drawn(d, plan)
