"""Plans of wings: each drawn again from a corner of its own, turned so that its direction is the paper's."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.choose import choose
from kerfline.sheets.key_plan import Piece, area_key
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.parts import Choice
from kerfline.sheets.plan_view import PlanView
from kerfline.sheets.prose import Prose
from kerfline.sheets.running import place_words
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.stations import OPENING, stations
from kerfline.sheets.wings import Wing


@dataclass(frozen=True, kw_only=True)
class WingPlan:
    """The plan of a wing.

    Attributes:
        wing: The wing.
        sheet: Number of its first sheet.
        choice: Its scale and parts.
        plans: Its parts as they are drawn.
        blocks: What stands beside each: a key plan, and where its corner lies.
    """

    wing: Wing
    sheet: int
    choice: Choice
    plans: tuple[PlanView, ...]
    blocks: tuple[Block, ...]


def wing_plans(
    job: Job, layout: Layout, title: str, wings: Sequence[Wing], size: PaperSize, before: int
) -> Iterator[WingPlan]:
    """The plans of wings, one after the other.

    Args:
        job: The slab.
        layout: Its joints and panels.
        title: What stands under the plan of the whole slab.
        wings: The wings.
        size: The paper.
        before: How many sheets go before them.
    """
    whole = baselines(job.slab)
    pieces = [Piece(id=wing.id, region=wing.region) for wing in wings]
    on_paper = replace(job, sheet=replace(job.sheet, size=size.name))
    for wing in wings:
        base, own = baselines(job.slab, wing.region), wing.layout(layout)
        found = stations(job.slab, own, base, wing.region)
        along, across = ([s for s in some if s.rank <= OPENING] for some in found)
        choice = choose(on_paper, own, base, along, across, region=wing.region)
        choice = replace(choice, seats=tuple(before + seat for seat in choice.seats))
        plans = tuple(
            PlanView(
                job=job, layout=own, findings=(), base=base, view=view, paper=size, along=along,
                across=across, part=index, choice=choice, title=f"{title}, {wing.name}",
                region=wing.region, corner=wing.corner,
            )
            for index, view in enumerate(choice.views)
        )  # fmt: skip
        width = column_width(size)
        blocks = (
            area_key(job.slab, whole, wing.region, pieces, size.small, width),
            Prose("Wing", _words(job, wing, whole, base), size.small, width, first=0),
        )
        yield WingPlan(wing=wing, sheet=before + 1, choice=choice, plans=plans, blocks=blocks)
        before += len(choice.sheets)


def _words(job: Job, wing: Wing, whole: Baselines, own: Baselines) -> tuple[str, ...]:
    """How its sheet is read, and where its corner lies."""
    kind = "Corner" if own.corner else "Point"
    how = (
        "This part is turned on the sheet so that its joints lie along the paper; north turns with it. "
        f"Its offsets are measured from {kind.lower()} {wing.corner}. Grey concrete is on another sheet."
    )
    return (
        how,
        f"{kind} {wing.corner} lies {place_words(whole, own, job.display)} of the slab.",
    )
