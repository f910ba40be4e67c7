"""The job that a drawing gives, with a few words about it."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.wishes import Wishes, thickness_of
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point, Ring
from kerfline.model.job import Job, RuleChoice
from kerfline.units import Unit, parse_length

if TYPE_CHECKING:
    from kerfline.files.drawing import Candidate, Drawing, Look, Reading, ReadingWishes

LONGEST_REPAIR = 304.8
"""A joint that ends farther than this (mm, 1 ft) from what it should meet is a finding, no slip of the pen."""

ALL = "all"
"""What the user writes for every slab of a drawing."""


def look_at_drawing(drawing: "Drawing", wishes: Wishes) -> "Look":
    """What a drawing offers in the light of what the user says.

    Raises:
        InputRefused: Its unit is open, or what the user chose is not there.
    """
    from kerfline.app.drawing_words import ask
    from kerfline.files.drawing import look_at

    look = look_at(drawing, _reading_wishes(drawing, wishes))
    if wishes.asks:
        ask(look.proposal, dict(wishes.layers))
    return look


def taken_by(look: "Look", wishes: Wishes) -> "Reading":
    """What is taken from a drawing.

    Raises:
        SlabOpen: Which outline is the slab's is for the user to say.
        InputRefused: A layer is not there, or what is named gives no slab.
    """
    from kerfline.files.drawing import taken

    return taken(look, reach_of(wishes, wishes.units or look.drawing.unit))


def job_of_drawing(read: "Reading", wishes: Wishes) -> Job:
    """The job that a drawing gives.

    Raises:
        InputRefused: The slab makes no sense, or nothing says how thick it is.
    """
    from kerfline.files.drawing.account import Chosen, account
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    path, parts, units = read.drawing.path, read.parts, wishes.units or read.drawing.unit
    told = parts.thickness if wishes.thickness is None else None
    slab = slab_of(parts, parts.outline or Ring(()), told or thickness_of(wishes, units))
    if mistakes := check_slab(slab, path.name, units.display):
        raise InputRefused(*mistakes)
    look = read.look
    by = Chosen(
        layers=look.layers,
        told=dict(wishes.layers),
        notes=look.proposal.notes,
        joints=wishes.asks,
    )
    return Job(
        name=_name(read, wishes),
        units=units,
        slab=slab,
        rules=RuleChoice(),
        notes=parts.notes,
        reading=account(read.drawing, parts, by),
    )


def slabs_meant(source: Path, wishes: Wishes) -> tuple[str, ...]:
    """The slabs that the user means, each as he would choose it by itself; one that is empty where he chose none.

    Args:
        source: What was named; only of a drawing can several slabs be meant.
        wishes: What the user said, perhaps ``all``.

    Raises:
        InputRefused: The drawing cannot be used.
    """
    from kerfline.files.drawing import gather
    from kerfline.files.kinds import Kind, kind_of

    if wishes.slab != ALL or not source.is_file() or kind_of(source) not in (Kind.DXF, Kind.DWG):
        return (wishes.slab,)
    look = look_at_drawing(gather(source), replace(wishes, slab=""))
    return tuple(str(c.number) for c in _slabs(look))


def _slabs(look: "Look") -> "tuple[Candidate, ...]":
    """The outlines that are slabs side by side."""
    from kerfline.files.drawing.candidates.decide import side_by_side

    found = side_by_side(look.proposal.decision.candidates)
    if not found:
        raise look.question or InputRefused(
            Mistake(what="no outline is plainly a slab", where=str(look.drawing.path))
        )
    return found


def _name(read: "Reading", wishes: Wishes) -> str:
    """The job's name: the drawing's, and of several slabs on it the number."""
    stem = read.drawing.path.stem
    slab = read.look.slab
    if not wishes.slab or slab is None or len(_slabs(read.look)) == 1:
        return stem
    return f"{stem} slab {slab.number}"


def _reading_wishes(drawing: "Drawing", wishes: Wishes) -> "ReadingWishes":
    from kerfline.files.drawing import ReadingWishes
    from kerfline.files.drawing.size import drawn_unit

    said = wishes.drawn_in or (wishes.units.value if wishes.units else "")
    return ReadingWishes(
        unit=drawn_unit(said) if said else None,
        layers={part: names for part, names in wishes.layers if names},
        slab=_number(wishes.slab),
        at=_at(drawing.path, wishes),
    )


def _number(slab: str) -> int | None:
    """The number of the slab that the user chose; None where he chose none."""
    if not slab:
        return None
    if slab == ALL:
        raise InputRefused(
            Mistake(
                what="only kerfline layout takes all slabs of a drawing at once",
                where="--slab all",
                remedy="choose one, as --slab 1; leave it out to see them listed",
            )
        )
    if not slab.isdecimal():
        raise InputRefused(
            Mistake(
                what="a slab is chosen by its number in the list of the question",
                where="--slab",
                found=repr(slab),
                remedy="write --slab 1; with kerfline layout also --slab all, for a job of each",
            )
        )
    return int(slab)


def _at(path: Path, wishes: Wishes) -> Point | None:
    """The place that the user said lies in the slab, mm."""
    if not wishes.slab_at:
        return None
    unit = wishes.units or Unit.MM
    x, comma, y = wishes.slab_at.partition(",")
    if not comma:
        raise InputRefused(
            Mistake(
                what="a place is given by its two coordinates",
                where=f"{path}, --slab-at",
                found=repr(wishes.slab_at),
                remedy='write them as --slab-at "12 m, 4 m"',
            )
        )
    return (
        parse_length(x.strip(), unit, where="--slab-at"),
        parse_length(y.strip(), unit, where="--slab-at"),
    )


def reach_of(wishes: Wishes, units: Unit) -> float:
    """How far joints are repaired (mm), as the user says, or as the reader has it."""
    from kerfline.files.drawing.joints import REACH

    if wishes.repair is None:
        return REACH
    reach = parse_length(wishes.repair, units, where="--repair")
    if not 0 <= reach <= LONGEST_REPAIR:
        raise InputRefused(
            Mistake(
                what="a joint is not repaired over as much as this",
                where="--repair",
                found=wishes.repair,
                allowed="0 to 12 in (305 mm)",
                remedy="draw the joint anew, or leave it to be found as it is",
            )
        )
    return reach
