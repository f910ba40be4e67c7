"""What every set of sheets with a plan has in common: paper and scale, parts, blocks that flow on."""

from collections.abc import Sequence
from dataclasses import replace

from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import baselines
from kerfline.sheets.choose import choose, next_scale
from kerfline.sheets.marks import Sheet
from kerfline.sheets.parts import Choice
from kerfline.sheets.plan_drawing import Drawer, Drawing, Drawn, Kind, Writer
from kerfline.sheets.redrawn import drawn_larger
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

    A part whose numbers have found room stays as it is, the others are tried larger.
    """
    plain, places = drawn.drawing, drawn.places
    free = replace(plain.job, sheet=replace(plain.job.sheet, scale=0.0))
    scale = next_scale(free, plain.choice.scale) if places else None
    if scale is None:
        return drawn
    larger = drawn_larger(plain.job.slab, plain.layout, plain.base, places, scale)
    again = drawn.again
    for n in range(LARGER):
        again = plain.drawn_again(drawn.choice, (*plain.kind.again, *larger), draw, again)
        short = {one.plan.part.id for one in again if one.places}
        scale = next_scale(free, scale)
        if n + 1 == LARGER or scale is None or not any(part.id in short for part in larger):
            break
        larger = tuple(replace(p, finer=scale) if p.id in short else p for p in larger)
    marked = plain.main(drawn.choice, drawn.aside, [one.plan for one in again], draw, drawn.main)
    return replace(drawn, main=marked, again=again)
