"""Sentences that belong on the sheet: what can hurt someone or spoil the slab."""

import math
from collections.abc import Sequence

from kerfline.model.day import SawMethod
from kerfline.model.slab import Slab
from kerfline.placement.cut_ends import EndAt, SawnEnd
from kerfline.placement.cutting import STAND_BY, Cut, CuttingPlan
from kerfline.placement.pour_order import Pour
from kerfline.placement.safety import (
    FEDERAL,
    LONG_TASK,
    SawKind,
    niosh_hours,
    noise_hours,
    respirator,
)
from kerfline.placement.window import TRIAL
from kerfline.placement.wording import placements
from kerfline.rules.cover import Clearance, clearance
from kerfline.units import MINUTES_PER_HOUR, Display, counted, enumerated, format_depth, format_run

SAW_LEVEL = 100.0
"""Sound level of a joint saw, dBA: 99 to 102 measured (29 CFR 1926.52, training material)."""

CAUSTIC = (
    "Fresh concrete is caustic and burns skin and eyes: waterproof boots and gloves, eye protection, wash "
    "at once."
)
BURIED = (
    "Locate tendons, conduit, tubing and services before cutting or drilling. Never cut a post-tensioned "
    "slab unlocated."
)
DEFER = "Local codes and a licensed engineer's drawings come before this sheet."


FUMES = (
    "Engines indoors or under sheeting give off carbon monoxide: electric saws and trowels, or exhaust led outside, the "
    "building open and the air measured."
)
LOCAL_DUST = (
    "Silica dust: feed water to the blade without a break, or a vacuum made for the saw; respirators and limits as the "
    "regulations in force on the site ask. Collect the slurry."
)
LOCAL_NOISE = (
    f"A saw on concrete makes about {SAW_LEVEL:.0f} dBA: hearing protection, with the limits of the regulations in force "
    "on the site. Keep guards on and feet out of the blade's line."
)


def dust(method: SawMethod) -> str:
    """What Table 1 of 29 CFR 1926.1153 says to the saw in use."""
    if method is SawMethod.EARLY_ENTRY:
        return (
            "Silica dust: a dry early-entry saw is not in 29 CFR 1926.1153, Table 1; the employer must "
            "assess the exposure and protect the crew."
        )
    outdoors, indoors = (
        respirator(SawKind.WALK_BEHIND, outdoors=outdoors, hours=LONG_TASK)
        for outdoors in (True, False)
    )
    return (
        f"Silica dust: feed water to the blade. A walk-behind saw run wet needs {_factor(outdoors)} "
        f"outdoors and {_factor(indoors)} indoors or enclosed (29 CFR 1926.1153, Table 1). Collect the "
        "slurry."
    )


def _factor(factor: int | None) -> str:
    return f"a respirator of APF {factor}" if factor else "no respirator"


def noise() -> str:
    """How long a saw may be heard without protection."""
    return (
        f"A saw on concrete makes about {SAW_LEVEL:.0f} dBA: {noise_hours(SAW_LEVEL):g} h a day by 29 CFR "
        f"1926.52, {niosh_hours(SAW_LEVEL) * MINUTES_PER_HOUR:.0f} min by NIOSH. Wear hearing protection, "
        "keep guards on and feet out of the blade's line."
    )


def crew_cautions(method: SawMethod, country: str) -> tuple[str, ...]:
    """What every saw crew is told; federal tables of the United States only where they hold."""
    own = country == FEDERAL
    said = (dust(method), noise()) if own else (LOCAL_DUST, LOCAL_NOISE)
    return (TRIAL, said[0], CAUSTIC, said[1], FUMES, BURIED, DEFER)


def pour_cautions(pours: Sequence[Pour]) -> list[str]:
    """Placements that wrap a re-entrant corner."""
    wrapped = [p.id for p in pours if p.corners]
    if not wrapped:
        return []
    return [
        (
            f"{placements(wrapped)} {'wrap' if len(wrapped) > 1 else 'wraps'} a re-entrant corner: cut the joint from it as soon as its "
            "window opens, and set bars where the joint plan shows them."
        )
    ]


def cutting_cautions(plan: CuttingPlan, method: SawMethod, display: Display) -> list[str]:
    """What the cutting plan asks for beyond one saw."""
    return [*_emergency(plan), *_saws(plan, method, display), *_windows(plan)]


def _emergency(plan: CuttingPlan) -> list[str]:
    if not plan.emergency:
        return []
    return [
        (
            f"EMERGENCY ORDER: sawing starts late, so relief cuts ({enumerated(plan.relief)}) come first within each "
            "placement, out of placing order. The rest follow as soon as they can."
        )
    ]


def _saws(plan: CuttingPlan, method: SawMethod, display: Display) -> list[str]:
    out = []
    if plan.need.likely is None:
        early = "" if method is SawMethod.EARLY_ENTRY else ", or use early-entry saws"
        out.append(
            f"No number of saws gets every line within its window: divide the placement, place faster{early}."
        )
    elif plan.need.likely > (plan.given or 1):
        out.append(
            f"{counted(plan.need.likely, 'saw')} needed ({plan.need.shown} from the warmest to the coolest) and "
            f"{STAND_BY} more in reserve, with spare blades."
        )
    if plan.late:
        out.append(_lost(plan, method, display))
    return out


def _lost(plan: CuttingPlan, method: SawMethod, display: Display) -> str:
    """Which lines are lost with the saws at hand, and what is done then."""
    worst = max(cut.run.late_by for cut in plan.late)
    first = enumerated(plan.relief)
    several = len({pour for cut in plan.late for pour in cut.window.pours}) > 1
    within = " within each placement" if several else ""
    then = [
        f"bring {counted(max(1, (plan.need.likely or 0) - plan.planned), 'more saw')}",
        "early-entry saws are ready sooner" if method is SawMethod.CONVENTIONAL else "",
        f"if neither comes, cut {first} first{within} as relief" if first else "",
    ]
    return (
        f"Cut too late with {counted(plan.planned, 'saw')}: {_joints(plan.late)}, "
        f"{format_run(plan.late_length, display)} in all, by up to {worst:.1f} h. "
        f"{_sentence('; '.join(t for t in then if t))} A late cut is made all the same, but not beside a crack."
    )


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _windows(plan: CuttingPlan) -> list[str]:
    out = []
    following = [cut for cut in plan.cuts if cut.follows and cut.saw and not cut.window.workable]
    if following:
        out.append(
            f"On {_joints(following)} the first concrete is at risk before the last is ready: start at the "
            "end that was placed first and follow the placing."
        )
    never = [cut for cut in plan.cuts if math.isinf(cut.end)]
    if never:
        out.append(
            f"On {_joints(never)} the concrete is too cold to be cut within ten days: warm it and keep it "
            "warm, or place on another day."
        )
    return out


def _joints(cuts: Sequence[Cut]) -> str:
    return enumerated(list(dict.fromkeys(cut.window.sawn.joint for cut in cuts)))


def end_cautions(ends: Sequence[SawnEnd], display: Display) -> list[str]:
    """How much the saw leaves at walls, and what to do at boxouts and openings."""
    out = []
    walls = [e for e in ends if e.meets is EndAt.WALL]
    if walls:
        worst = max(walls, key=lambda e: e.cut.surface)
        out.append(
            f"{_ends(len(walls))} at a wall: {format_depth(worst.cut.surface, display)} stays uncut at "
            f"the surface and {format_depth(worst.cut.full_depth, display)} short of full depth. Finish by hand "
            "groover while fresh, embedded strip or small grinder."
        )
    inside = [e for e in ends if e.meets in (EndAt.BOXOUT, EndAt.OPENING)]
    if inside:
        run_out = max(e.cut.run_out for e in inside)
        out.append(
            f"{_ends(len(inside))} at a boxout or opening: say beforehand whether to stop short or to cut "
            f"{format_depth(run_out, display)} past, which is what full depth at the point takes."
        )
    return out


def _ends(count: int) -> str:
    return "One line ends" if count == 1 else f"{count} lines end"


def buried_cautions(slab: Slab, depth: float, display: Display) -> list[str]:
    """Keep-outs whose cover does not clear the cut."""
    out = []
    for area in slab.keep_outs:
        if area.cover is None:
            out.append(f"{area.id} ({area.what}): cover not known, so no cut may go there.")
        elif clearance(area.cover, depth) is not Clearance.CLEAR:
            state = clearance(area.cover, depth)
            out.append(
                f"{area.id} ({area.what}) under {format_depth(area.cover, display)} of concrete: a cut of "
                f"{format_depth(depth, display)} {_verdict(state)}."
            )
    return out


def _verdict(state: Clearance) -> str:
    if state is Clearance.STRIKES:
        return "can strike it; lower it or move the joint"
    return "leaves less than 1/2 in (13 mm); hold the depth strictly"


def under_wall_lines(plan: CuttingPlan) -> tuple[str, ...]:
    """Joints that cannot be reached once the walls stand."""
    return tuple(
        dict.fromkeys(cut.window.sawn.joint for cut in plan.cuts if cut.window.sawn.hidden)
    )
