"""Plans of parts that are drawn again: turned so that their direction is the paper's, or larger."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import box, union_all

from kerfline.geometry.faces import Area, area_of, polygons_of
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
from kerfline.sheets.redrawn import Redrawn
from kerfline.sheets.running import place_words
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.stations import OPENING, stations


@dataclass(frozen=True, kw_only=True)
class RedrawnPlan:
    """The plan of a part that is drawn again.

    Attributes:
        part: The part.
        sheet: Number of its first sheet.
        choice: Its scale and parts.
        plans: Its parts as they are drawn.
        blocks: What stands beside each sheet of them: a key plan of what it shows, and where its corner lies.
    """

    part: Redrawn
    sheet: int
    choice: Choice
    plans: tuple[PlanView, ...]
    blocks: tuple[tuple[Block, ...], ...]

    def comes_out_as(self, other: "RedrawnPlan") -> bool:
        """Whether it is the same drawing as another one; a part on one sheet names no other by its number."""
        alone = len(self.choice.parts) == 1
        seats = self.choice.seats if alone else other.choice.seats
        same = replace(other.choice, seats=seats) == self.choice
        return same and self.part.id == other.part.id and self.part.region == other.part.region


def redrawn_plans(
    job: Job,
    layout: Layout,
    base: Baselines,
    title: str,
    parts: Sequence[Redrawn],
    size: PaperSize,
    before: int,
) -> Iterator[RedrawnPlan]:
    """The plans of parts that are drawn again, one after the other.

    Args:
        job: The slab.
        layout: Its joints and panels.
        base: What the plan of the whole is measured from.
        title: What stands under it.
        parts: The parts.
        size: The paper.
        before: How many sheets go before them.
    """
    pieces = [Piece(id=part.id, region=part.region) for part in parts]
    for part in parts:
        scale = job.sheet.scale if part.turned else 0.0
        sheet = replace(job.sheet, size=size.name, scale=scale)
        own = baselines(job.slab, part.region) if part.turned else base
        inside = part.layout(layout)
        found = stations(job.slab, inside, own, part.region)
        along, across = ([s for s in some if s.rank <= OPENING] for some in found)
        choice = choose(
            replace(job, sheet=sheet),
            inside,
            own,
            along,
            across,
            region=part.region,
            finer=part.finer,
        )
        choice = replace(choice, seats=tuple(before + seat for seat in choice.seats))
        plans = tuple(
            PlanView(
                job=job, layout=inside, findings=(), base=own, view=view, paper=size, along=along,
                across=across, part=index, choice=choice, title=f"{title}, {part.name}",
                region=part.region, corner=part.corner,
            )
            for index, view in enumerate(choice.views)
        )  # fmt: skip
        width = column_width(size)
        told = _turned_words(job, part, base, own) if part.turned else LARGER
        words = Prose("This part", told, size.small, width, first=0)
        blocks = tuple(
            (area_key(job.slab, base, here, pieces, size.small, width), words)
            for here in _shown(part, own, choice)
        )
        yield RedrawnPlan(part=part, sheet=before + 1, choice=choice, plans=plans, blocks=blocks)
        before += len(choice.sheets)


def _shown(part: Redrawn, own: Baselines, choice: Choice) -> Iterator[Area]:
    """What each sheet shows of a part between its match lines."""
    if len(choice.parts) == 1:
        yield part.region
        return
    for cells in choice.sheets:
        boxes = [own.back(box(*choice.cells[cell])) for cell in cells]
        yield area_of(polygons_of(part.region.intersection(union_all(boxes))))


LARGER = (
    "This part is drawn larger, for its numbers find no room on the plan.",
    "Offsets are the same as there. Grey concrete is on another sheet.",
)


def _turned_words(job: Job, part: Redrawn, whole: Baselines, own: Baselines) -> tuple[str, ...]:
    """How the sheet of a turned part is read, and where its corner lies."""
    kind = "Corner" if own.corner else "Point"
    how = (
        "This part is turned on the sheet so that its joints lie along the paper; north turns with it. "
        f"Its offsets are measured from {kind.lower()} {part.corner}. Grey concrete is on another sheet."
    )
    return (
        how,
        f"{kind} {part.corner} lies {place_words(whole, own, job.display)} of the slab.",
    )
