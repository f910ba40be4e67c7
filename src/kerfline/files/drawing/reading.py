"""The one way from what a drawing holds to a slab, whatever kind of file it came from.

::

    gather (DXF, or another door) -> Drawing -> reading -> Reading: the slab's parts, or a question
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.candidates import Candidate, Decision, slab_question
from kerfline.files.drawing.candidates.decide import chosen_at
from kerfline.files.drawing.joints import REACH
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.likely_layers import likely_words
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.parts import refuse_unmatched, slab_parts
from kerfline.files.drawing.proposal import Proposal, propose, with_slab
from kerfline.files.drawing.size import DrawnUnit
from kerfline.files.drawing.unit_choice import settled
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.ring import Point


@dataclass(frozen=True, kw_only=True)
class ReadingWishes:
    """What the user says beside a drawing; what he leaves open is decided by the evidence, or asked.

    Attributes:
        unit: Its unit.
        layers: Layer patterns by the part that they hold, the names of ``Layers``.
        slab: Number of the candidate that is the slab.
        at: A point (mm) in the slab.
        reach: How far a joint that stops short or runs over is carried on or cut back, mm.
    """

    unit: DrawnUnit | None = None
    layers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    slab: int | None = None
    at: Point | None = None
    reach: float = REACH


@dataclass(frozen=True, kw_only=True)
class Look:
    """What a drawing offers, before anything is taken from it.

    Attributes:
        drawing: The drawing in its unit.
        proposal: The candidates, the one that is taken, and why each layer was taken for what.
        layers: The layers of each part: those proposed, the user's in their place.
        told: The layers that the user named.
    """

    drawing: Drawing
    proposal: Proposal
    layers: Layers
    told: Layers = field(default_factory=Layers)

    @property
    def named(self) -> bool:
        """Whether the user named the outline's layers himself."""
        return bool(self.told.outline)

    @property
    def slab(self) -> Candidate | None:
        """The candidate that is the slab; None where it is open, or the user named the outline's layers."""
        return None if self.named else self.proposal.slab

    @property
    def question(self) -> InputRefused | None:
        """The question which outline is the slab's; None where it is clear."""
        if self.named or self.slab or self.layers.outline:
            return None
        others = likely_words(self.proposal.likely, self.told)
        return slab_question(self.drawing, self.proposal.decision, others)


@dataclass(frozen=True, kw_only=True)
class Reading:
    """A drawing as it was read.

    Attributes:
        look: What it offered.
        parts: The slab's parts.
    """

    look: Look
    parts: SlabParts

    @property
    def drawing(self) -> Drawing:
        """The drawing in its unit."""
        return self.look.drawing


def look_at(drawing: Drawing, wishes: ReadingWishes = ReadingWishes()) -> Look:
    """Settles a drawing's unit and proposes what is what.

    Args:
        drawing: What was gathered.
        wishes: What the user says beside it.

    Raises:
        InputRefused: The unit is open, or there is no such candidate as the user chose.
    """
    drawing = settled(drawing, wishes.unit)
    proposal = _chosen(drawing, propose(drawing), wishes)
    layers = replace(proposal.layers, **wishes.layers)
    told = Layers(**wishes.layers)
    return Look(drawing=drawing, proposal=proposal, layers=layers, told=told)


def taken(look: Look, reach: float = REACH) -> Reading:
    """The slab's parts, taken from what a drawing offers.

    Args:
        look: What it offers.
        reach: How far a joint that stops short or runs over is carried on or cut back, mm.

    Raises:
        SlabOpen: Which outline is the slab's is not clear; it carries the candidates.
        InputRefused: A layer is not there, or what is named gives no slab.
    """
    refuse_unmatched(look.drawing, look.layers)
    if look.question:
        raise look.question
    mixed = look.proposal.mixed
    parts = slab_parts(look.drawing, look.layers, slab=look.slab, mixed=mixed, reach=reach)
    return Reading(look=look, parts=parts)


def reading(drawing: Drawing, wishes: ReadingWishes = ReadingWishes()) -> Reading:
    """Reads a slab out of a drawing: ``look_at``, then ``taken``."""
    return taken(look_at(drawing, wishes), wishes.reach)


def _chosen(drawing: Drawing, proposal: Proposal, wishes: ReadingWishes) -> Proposal:
    """The proposal with the candidate that the user chose, where he chose one."""
    decision = proposal.decision
    if wishes.slab is not None:
        slab = next((c for c in decision.candidates if c.number == wishes.slab), None)
        if slab is None:
            raise _no_such(drawing, decision, f"--slab {wishes.slab}")
        return with_slab(drawing, decision, slab)
    if wishes.at is not None:
        slab = chosen_at(decision.candidates, wishes.at)
        if slab is None:
            raise _no_such(drawing, decision, "--slab-at")
        return with_slab(drawing, decision, slab)
    return proposal


def _no_such(drawing: Drawing, decision: Decision, option: str) -> InputRefused:
    count = len(decision.candidates)
    allowed = f"a number from 1 to {count}, or a point in one of them" if count else ""
    return InputRefused(
        Mistake(
            what="there is no such outline in the drawing",
            where=f"{drawing.path}, {option}",
            found=f"{count} that could be a slab" if count else "none that could be a slab",
            allowed=allowed,
            remedy="leave the option out to see them listed",
        )
    )
