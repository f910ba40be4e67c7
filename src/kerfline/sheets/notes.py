"""What the sheets say in words: how to read them, how to cut, and the usual cautions."""

from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.bare_walls import bare_wall_words
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.fall_marks import slope_text
from kerfline.sheets.plan_labels import keep_out_words
from kerfline.sheets.running import level_text
from kerfline.sheets.span_words import span_words
from kerfline.sheets.stations import departure
from kerfline.sheets.tie_marks import READING
from kerfline.sheets.ties import Ties
from kerfline.units import Display, format_depth, format_length, in_words

FIELD_MOVE = {Display.FEET_INCHES: "6 in", Display.METRIC: "150 mm"}
"""How far a joint may be moved in the field without asking (our choice; the designer may say less)."""

PLACE_TOLERANCE = {Display.FEET_INCHES: "3/4 in", Display.METRIC: "20 mm"}
"""Sideways tolerance of sawcuts and joints in slabs (ACI 117 table as reproduced in UFGS 03700)."""

SURVEYED = 1.5
"""An edge that lies off its dimensions by more than this (mm) was surveyed or drawn so."""

CAUTIONS = (
    (
        "Cutting makes silica dust and throws debris: water at the blade or a vacuum, respirator as "
        "local rules ask, eye and hearing protection, guards on."
    ),
    "Wet concrete and slurry burn skin: gloves, boots, wash at once.",
    (
        "Find tubing, conduit, tendons and other buried services before cutting; where they are not "
        "found for certain, do not cut."
    ),
    (
        "This plan places joints only. Structure, reinforcement, subgrade and loads are for a licensed "
        "professional; local codes come first."
    ),
)
"""The usual cautions; they never take the place of local rules."""


def plan_notes(
    job: Job, layout: Layout, rules: SlabRules, base: Baselines, tied: Ties
) -> tuple[str, ...]:
    """The notes on the joint plan, most needed first."""
    return (
        *measuring(job, layout, base, tied),
        *_departure(job, layout, base),
        *(_cutting(job, rules) if layout.joints else ()),
        *_levels(job),
        *_limits(job, layout, rules),
        *(in_words(note, job.display) for note in layout.notes),
    )


def measuring(job: Job, layout: Layout, base: Baselines, tied: Ties) -> list[str]:
    """From where and in what to measure."""
    start = "corner A" if base.corner else "point A, where both baselines meet"
    feet = job.display is Display.FEET_INCHES
    units = "feet and inches" if feet else "millimetres"
    where = (
        f"Measure every offset from {start}. Baselines: outside face of slab edge, left and "
        f"bottom. Dimensions are in {units}, rounded once, so that running values and chains "
        "agree. Do not scale from the sheet."
    )
    move = (
        f"Joints may be moved up to {FIELD_MOVE[job.display]} in the field to meet what is really "
        "there; keep them straight and continuous, note the move on this sheet and tell the "
        "designer."
    )
    return [where, *([READING] if tied.points else []), *([move] if layout.joints else [])]


def _departure(job: Job, layout: Layout, base: Baselines) -> list[str]:
    """How far the edge as given lies off the lines that are dimensioned for it, where a survey shows it."""
    off = departure(job.slab, layout, base)
    if off <= SURVEYED:
        return []
    said = format_length(off, job.display)
    return [
        f"The edge is drawn as given: its corners lie up to {said} off the lines that are dimensioned."
    ]


def _cutting(job: Job, rules: SlabRules) -> list[str]:
    limit = rules.cut_limit(job.slab.thickness)
    depth = format_depth(rules.cut_depth(job.slab.thickness), job.display)
    thickness = format_depth(job.slab.thickness, job.display)
    cut = (
        f"Cut control joints {depth} deep ({rules.cut.method.replace('-', ' ')} saw, {thickness} "
        f"slab; source: {limit.source}) as soon as the concrete stands the cut. Make a trial cut "
        "first; stop if the edges ravel or a crack runs ahead of the blade."
    )
    place = (
        f"Joints within {PLACE_TOLERANCE[job.display]} of the place shown. Isolation joints go "
        "through the full depth and are formed, not sawn."
    )
    return [cut, place]


def _levels(job: Job) -> list[str]:
    """Top of slab and falls, where the job tells them."""
    display, told = job.display, []
    if job.level is not None:
        told.append(f"Top of slab {level_text(job.level, display)} unless noted.")
    told += [
        f"{zone.id}: top {level_text(zone.level, display)}."
        for zone in job.slab.zones
        if zone.level is not None
    ]
    slopes = [f"{fall.id} {slope_text(fall.slope)}" for fall in job.slab.falls if fall.slope]
    if slopes:
        told.append(f"Falls to the drains: {', '.join(slopes)}.")
    return told


def _limits(job: Job, layout: Layout, rules: SlabRules) -> list[str]:
    limits = rules.limits(job.slab.thickness)
    thickness = format_depth(job.slab.thickness, job.display)
    worked = layout.limits.span if layout.limits else limits.span.advised
    spans = span_words(rules, job.slab.thickness, job.display, worked)
    made = "Laid out" if layout.added is None else "Mended"
    spacing = (
        f"Slab {thickness} thick. {made} for panels of {spans} (source: {limits.span.source}), and of length "
        f"over width {limits.aspect.bound:g} at most (source: {limits.aspect.source})."
    )
    walls = [in_words(words, job.display) for words in bare_wall_words(layout.walls_left)]
    return [
        spacing,
        *_zones(job, rules),
        *_thickened(job),
        *keep_out_words(job.slab, job.display),
        *walls,
    ]


def _thickened(job: Job) -> list[str]:
    """How wide and deep the thickened strips under walls and the turned-down edges are."""

    def say(mm: float) -> str:
        return format_depth(mm, job.display)

    strips = [
        f"{wall.id} stands on a thickened strip {say(wall.strip_width)} wide, "
        f"{say(wall.strip_depth)} deep in all."
        for wall in job.slab.walls
        if wall.strip_width and wall.strip_depth
    ]
    turned = {
        (edge.width, edge.depth)
        for edge in job.slab.edges
        if edge.kind is EdgeKind.TURNDOWN and edge.width and edge.depth
    }
    edges = [
        f"Turned-down edge {say(width)} wide, {say(depth)} deep in all."
        for width, depth in sorted(turned)
    ]
    return [*strips, *edges]


def _zones(job: Job, rules: SlabRules) -> list[str]:
    """What holds in each zone of another thickness."""
    display = job.display
    return [
        f"{zone.id} is {format_depth(zone.thickness, display)} thick: panels of "
        f"{span_words(rules, zone.thickness, display)}, cuts "
        f"{format_depth(rules.cut_depth(zone.thickness), display)} deep."
        for zone in job.slab.zones
    ]
