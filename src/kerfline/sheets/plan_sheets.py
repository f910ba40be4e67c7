"""What every set of sheets with a plan has in common: paper and scale, parts, blocks that flow on."""

from collections.abc import Sequence
from dataclasses import replace

from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import baselines
from kerfline.sheets.choose import choose, next_scale
from kerfline.sheets.marks import Sheet
from kerfline.sheets.parts import Choice, room_of
from kerfline.sheets.plan_drawing import Drawer, Drawing, Drawn, Kind, Writer
from kerfline.sheets.redrawn import FEW, Redrawn, drawn_larger
from kerfline.sheets.stations import stations

FINER = 2
"""How many finer scales are tried where ties find no room."""

FEW_TIES = 2
"""So many ties may stand beside the plan rather than on it."""

A_TAG = 30
"""A tag without room weighs as much as so many ties: the plan is drawn larger for a single one."""

MOST_FOR_TAGS = 12
"""Most sheets that a plan is parted into so that nothing is left without its tag."""

A_PART = 3
"""One more sheet is worth it where so many more ties find room."""

MOST_FOR_TIES = 4
"""Most sheets that a plan is parted into so that its ties find room."""

LARGER = 3
"""How many larger scales are tried for the panels whose numbers find no room."""

HANDFUL = 4
"""A sheet that is carried about goes on larger paper rather than in more parts than this."""


def plan_sheets(
    job: Job,
    layout: Layout,
    findings: Sequence[Finding],
    kind: Kind,
    *,
    draw: Drawer,
    write: Writer,
) -> tuple[Sheet, ...]:
    """Draws a set of sheets: the plan, in parts where it must be, then the tables.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        findings: What the checks found.
        kind: What kind of set it is.
        draw: Draws one plan.
        write: Makes the blocks.
    """
    base = baselines(job.slab, kind.region)
    along, across = (
        [s for s in found if s.rank <= kind.rank]
        for found in stations(job.slab, layout, base, kind.region)
    )
    best: tuple[int, Drawn] | None = None
    finer: float | None = None
    tags_left = 0
    tried: Choice | None = None
    for _ in range(1 + FINER):
        handy = kind.handy
        choice = choose(
            job, layout, base, along, across, handy=handy, region=kind.region, finer=finer
        )
        if handy and len(choice.sheets) > HANDFUL:
            choice = choose(job, layout, base, along, across, region=kind.region, finer=finer)
        if best and len(choice.sheets) > (MOST_FOR_TAGS if tags_left else MOST_FOR_TIES):
            break
        if choice == tried:
            break  # nothing finer is to be had
        tried = choice
        drawing = Drawing(job, layout, findings, kind, base, along, across, choice)
        drawn = drawing.drawn(draw, write)
        tags_left = len(drawn.places)
        price = drawn.ties_left + A_TAG * tags_left + A_PART * len(choice.sheets)
        if best is None or price < best[0]:
            best = (price, drawn)
        finer = next_scale(job, choice.scale)
        if (drawn.ties_left <= FEW_TIES and not tags_left) or finer is None:
            break
    assert best is not None
    return _with_larger(best[1], draw).sheets


def _with_larger(drawn: Drawn, draw: Drawer) -> Drawn:
    """The same; where numbers find no room, with the panels around them drawn larger on further sheets.

    A part whose numbers have found room stays as it is. Of a few parts the others are tried larger; of many, that what
    is left of them is drawn larger once more, so that a part stays on one sheet. What has no number in the end is told.
    """
    plain, places = drawn.drawing, drawn.places
    free = replace(plain.job, sheet=replace(plain.job.sheet, scale=0.0))
    scale = next_scale(free, plain.choice.scale) if places else None
    if scale is None:
        return drawn.telling([name for sheet in drawn.main for name in sheet.left_out.tags])
    across, up = room_of(drawn.choice.paper, drawn.choice.rims)

    def about(places: Sequence[Point], scale: float, first: int = 1) -> tuple[Redrawn, ...]:
        slab, layout, room = plain.job.slab, plain.layout, (across * scale, up * scale)
        return drawn_larger(slab, layout, plain.base, places, scale, room=room, first=first)

    larger = newest = about(places, scale)
    again = drawn.again
    for n in range(LARGER):
        again = plain.drawn_again(drawn.choice, (*plain.kind.again, *larger), draw, again)
        tried = {part.id for part in newest}
        short = [one for one in again if one.places and one.plan.part.id in tried]
        scale = next_scale(free, scale)
        if n + 1 == LARGER or scale is None or not short:
            break
        if len(larger) > FEW:
            left = [at for one in short for at in one.places]
            newest = about(left, scale, len(larger) + 1)
            larger = (*larger, *newest)
        else:
            names = {one.plan.part.id for one in short}
            larger = newest = tuple(replace(p, finer=scale) if p.id in names else p for p in larger)
    marked = plain.main(drawn.choice, drawn.aside, [one.plan for one in again], draw, drawn.main)
    told = [name for one in short for sheet in one.sheets for name in sheet.left_out.tags]
    return replace(drawn, main=marked, again=again).telling(told)
