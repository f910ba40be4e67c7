"""The habits of drafting offices, each a way to draw a plan whose truth is known."""

from random import Random

from shapely import MultiPolygon, affinity, box

from forge import whole_sheets as sheets
from forge.drafter import ENGLISH, LANGUAGES, Drafter, contents, in_language, moved, rings_of
from forge.drawn import Drawn, Habit, any_unit, drawn, slab_alone, walls_as_lines
from forge.plans import Plan, plan
from forge.wall_habits import (
    butted_corners,
    garage_doors,
    layer_0,
    loose_lines,
    named_layers,
    open_hall,
    regions,
    room_areas,
    rooms_as_boxes,
    slab_as_hatch,
    uncleaned_walls,
    wall_blocks,
    wall_bodies,
    wall_hatches,
    walls_with_caps,
    walls_without_caps,
    wide_polylines,
)


def other_languages(random: Random, plan: Plan) -> Drawn:
    """Layer names in another language."""
    layers = in_language(random.choice(LANGUAGES))
    d = Drafter(random, random.choice(["mm", "cm", "m"]), layers=layers)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def other_languages_walls(random: Random, plan: Plan) -> Drawn:
    """Layer names in another language, and no slab drawn."""
    plan = slab_alone(plan)
    layers = in_language(random.choice(LANGUAGES))
    d = Drafter(random, random.choice(["mm", "cm", "m"]), layers=layers)
    walls_as_lines(d, plan, caps=random.random() < 0.5)
    contents(d, plan)
    return drawn(d, plan)


def nested_blocks(random: Random, plan: Plan) -> Drawn:
    """The plan in a block in a block, mirrored and scaled."""
    d = Drafter(random, any_unit(random))
    d.into_block("INNER")
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan, dimensions=False)
    inner, d.target = d.target, d.space
    outer = d.doc.blocks.new("OUTER")
    scale = random.choice([1.0, 0.5, 2.0])
    outer.add_blockref(inner.name, (0, 0), dxfattribs={"xscale": scale, "yscale": scale})
    turn = random.choice([0, 90, 180, 30])
    back = {"xscale": -1 / scale, "yscale": 1 / scale, "rotation": turn}
    d.space.add_blockref("OUTER", (0, 0), dxfattribs=back)
    slab = affinity.rotate(affinity.scale(plan.slab, -1, 1, origin=(0, 0)), turn, origin=(0, 0))
    return drawn(d, plan, slabs=(slab,))


def bound_references(random: Random, plan: Plan) -> Drawn:
    """Layers of a reference that was bound, with its name before each."""
    prefix = random.choice(["PLAN$0$", "xref-21-0456$0$", "ARCH|"])
    d = Drafter(random, any_unit(random), layers={k: prefix + v for k, v in ENGLISH.items()})
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def framed(random: Random, plan: Plan) -> Drawn:
    """A frame and a title block around, layers named by numbers."""
    numbered = {what: f"{n}" for n, what in enumerate(ENGLISH, start=1)}
    d = Drafter(random, any_unit(random), layers=numbered)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    x0, y0, x1, y1 = plan.slab.bounds
    high = 1.7 * max(y1 - y0, (x1 - x0) / 1.414) + 4_000
    wide = high * random.choice([2**0.5, 1.5, 17 / 11])
    left, low = x0 - (wide - (x1 - x0)) / 2, y0 - (high - (y1 - y0)) / 2
    frame = box(left, low, left + wide, low + high)
    d.poly("frame", frame)
    if random.random() < 0.5:
        d.poly("frame", frame.buffer(-0.01 * wide, join_style="mitre"))
    title = box(left + 0.72 * wide, low + 300, left + 0.98 * wide, low + 0.12 * high)
    d.poly("frame", title)
    for n, words in enumerate(["PROJECT: TOOL SHED", "SCALE 1:100", "SHEET S1"]):
        d.text("text", words, (left + 0.74 * wide, low + 500 + n * 600))
    return drawn(d, plan)


def several_plans(random: Random, plan: Plan) -> Drawn:
    """Two plans of one floor on a sheet, one for the electrician."""
    d = Drafter(random, any_unit(random))
    x0, _, x1, _ = plan.slab.bounds
    away = 1.4 * (x1 - x0) + 3_000
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    d.shift = (away, 0.0)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    d.shift = (0.0, 0.0)
    both = (plan.slab, affinity.translate(plan.slab, away, 0))
    return drawn(d, plan, slabs=both, asks=True)


def no_unit(random: Random, plan: Plan) -> Drawn:
    """The header does not say the unit."""
    d = Drafter(random, any_unit(random), header=None)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan, dimensions=random.random() < 0.5)
    return drawn(d, plan)


def wrong_unit(random: Random, plan: Plan) -> Drawn:
    """The header says another unit than the plan is drawn in."""
    true, said = random.choice(
        [
            ("mm", "in"),
            ("in", "mm"),
            ("m", "ft"),
            ("ft", "m"),
            ("m", "mm"),
            ("cm", "in"),
            ("m", "in"),
        ]
    )
    d = Drafter(random, true, header=said)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan, dimensions=random.random() < 0.5)
    return drawn(d, plan, asks=True)


def surveyed(random: Random, plan: Plan) -> Drawn:
    """At a site's coordinates, turned, mirrored at times."""
    shift = (random.uniform(2e8, 6e8), random.uniform(-5e9, 5e9))
    d = Drafter(
        random,
        random.choice(["m", "ft", "mm"]),
        turn=random.choice([0, 90, 17.3, 45, 211.9]),
        shift=shift,
        mirrored=random.random() < 0.5,
    )
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def several_buildings(random: Random, plan_: Plan) -> Drawn:
    """A site with two or three buildings and its boundary."""
    d = Drafter(random, any_unit(random))
    plans = [plan_, *(plan(random) for _ in range(random.choice([1, 2])))]
    slabs, x = [], 0.0
    for one in plans:
        x0, y0, x1, _ = one.slab.bounds
        d.shift = (x - x0, -y0)
        d.poly("slab", one.slab)
        walls_as_lines(d, one)
        contents(d, one)
        slabs.append(moved(one.slab, d))
        x += x1 - x0 + 6_000
    d.shift = (0.0, 0.0)
    around = MultiPolygon(slabs).envelope.buffer(8_000, join_style="mitre")
    d.layers = {**d.layers, "frame": "C-PROP"}
    d.poly("frame", around)
    return drawn(d, plan_, slabs=tuple(slabs), asks=True)


def noisy(random: Random, plan: Plan) -> Drawn:
    """Strays, doubles, points, tiny circles and crossing construction lines."""
    d = Drafter(random, any_unit(random))
    d.poly("slab", plan.slab)
    if random.random() < 0.5:
        d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    x0, y0, x1, y1 = plan.slab.bounds
    d.layers = {**d.layers, "grid": "CONSTRUCTION LINES", "pit": "MISC"}
    for _ in range(random.randint(20, 200)):
        a = (random.uniform(x0 - 5_000, x1 + 5_000), random.uniform(y0 - 5_000, y1 + 5_000))
        kind = random.random()
        if kind < 0.3:
            d.circle("grid", a, random.uniform(5, 60))
        elif kind < 0.6:
            d.line(
                "grid", a, (a[0] + random.uniform(-4_000, 4_000), a[1] + random.uniform(-900, 900))
            )
        elif kind < 0.8:
            d.text("text", "NOTE", a)
        else:
            d.target.add_point(d.place(*a), dxfattribs=d.attribs("grid"))
    return drawn(d, plan)


def unnamed(random: Random, plan: Plan) -> Drawn:
    """Layers named by numbers and nothing else, the slab a closed polyline."""
    numbered = {what: f"LAYER {n}" for n, what in enumerate(ENGLISH, start=1)}
    d = Drafter(random, any_unit(random), layers=numbered)
    d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def roof_and_site(random: Random, plan: Plan) -> Drawn:
    """A roof's overhang and a site's boundary around the walls, on layers of their names; no slab drawn."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan)
    contents(d, plan)
    d.layers = {**d.layers, "frame": "A-ROOF-OTLN", "grid": "C-SITE"}
    d.poly("frame", plan.facade.buffer(random.choice([300, 600, 900]), join_style="mitre"))
    d.poly("grid", plan.facade.envelope.buffer(random.choice([3_000, 9_000]), join_style="mitre"))
    return drawn(d, plan)


def misleading_names(random: Random, plan: Plan) -> Drawn:
    """A small patch on a layer named for the slab, the floor itself only by its walls."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan)
    contents(d, plan)
    x0, y0, _, _ = plan.slab.bounds
    d.poly("slab", box(x0 + 900, y0 - 1_500, x0 + 3_900, y0))
    return drawn(d, plan)


def two_storeys(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: ground floor and upper floor side by side, titled below."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random))
    x0, y0, x1, _ = plan.slab.bounds
    # Nearer to one another than a gate is wide, too.
    away = (x1 - x0) + random.choice([3_200, 6_000])
    walls_as_lines(d, plan)
    contents(d, plan)
    d.text("text", "GROUND FLOOR PLAN", (x0, y0 - 4_000))
    d.shift = (away, 0.0)
    above = sheets.upper_floor(plan, random)
    walls_as_lines(d, above)
    contents(d, above)
    d.text("text", "FIRST FLOOR PLAN", (x0, y0 - 4_000))
    d.shift = (0.0, 0.0)
    return drawn(d, plan, slabs=(plan.slab, affinity.translate(plan.slab, away, 0)), asks=True)


def details_beside(random: Random, plan: Plan) -> Drawn:
    """Sections at five times the size and an elevation beside the plan; the slab drawn or not."""
    alone = random.random() < 0.5
    plan = slab_alone(plan) if alone else plan
    d = Drafter(random, any_unit(random), layers=sheets.layers())
    if not alone:
        d.poly("slab", plan.slab)
    walls_as_lines(d, plan)
    contents(d, plan)
    x0, y0, x1, y1 = plan.slab.bounds
    sheets.detail(d, plan, (x1 + 6_000, y0 + 3_000))
    sheets.detail(d, plan, (x1 + 16_000, y0 + 3_000))
    sheets.elevation(d, plan, (x0, y1 + 5_000))
    return drawn(d, plan)


def grid_and_bubbles(random: Random, plan: Plan) -> Drawn:
    """Grid lines with bubbles on a layer that says nothing, the slab's edge as lines on another."""
    d = Drafter(random, any_unit(random), layers={**ENGLISH, "grid": "S-3", "slab": "S-1"})
    sheets.bubbles(d, plan)
    for ring in rings_of(plan.slab):
        d.line("slab", *ring.coords)
    walls_as_lines(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def paving_around(random: Random, plan: Plan) -> Drawn:
    """No slab is drawn: walls, a terrace, a path and a pool outside."""
    plan = slab_alone(plan)
    d = Drafter(random, any_unit(random), layers=sheets.layers())
    walls_as_lines(d, plan)
    sheets.paving(d, plan)
    contents(d, plan)
    return drawn(d, plan)


def tiled_terrace(random: Random, _: Plan) -> Drawn:
    """A terrace with a pool, drawn by its tiles and free walls; whether the pool is out of the slab nothing tells."""
    d = Drafter(random, any_unit(random), layers=sheets.layers())
    slabs = sheets.tiled_terrace(d, random)
    return Drawn(document=d.doc, slabs=slabs, openings=0.0, walls=0.0, unit=d.factor, asks=True)


def court(random: Random, _: Plan) -> Drawn:
    """No slab is drawn: walls around a court, which may be a room as well."""
    plan = sheets.around_a_court(random)
    d = Drafter(random, any_unit(random))
    walls_as_lines(d, plan, caps=random.random() < 0.5)
    contents(d, plan)
    return drawn(d, plan, asks=True)


HABITS: tuple[Habit, ...] = (
    named_layers,
    walls_with_caps,
    walls_without_caps,
    wall_bodies,
    wall_hatches,
    wide_polylines,
    wall_blocks,
    loose_lines,
    layer_0,
    other_languages,
    other_languages_walls,
    nested_blocks,
    bound_references,
    framed,
    several_plans,
    no_unit,
    wrong_unit,
    surveyed,
    several_buildings,
    noisy,
    unnamed,
    roof_and_site,
    misleading_names,
    uncleaned_walls,
    room_areas,
    two_storeys,
    details_beside,
    grid_and_bubbles,
    slab_as_hatch,
    open_hall,
    garage_doors,
    paving_around,
    court,
    regions,
    butted_corners,
    rooms_as_boxes,
    tiled_terrace,
)
