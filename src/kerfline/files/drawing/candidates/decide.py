"""Takes the best candidate where it is clearly ahead; else leaves it to the user.

What is enough and what is ahead is common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kerfline.files.drawing.candidates.candidate import Candidate, Source, on_ledge
from kerfline.files.drawing.names import outline_rank

ENOUGH = 1.5
"""Points that a slab needs to be taken without a question."""

AHEAD = 1.5
"""Points by which it must be ahead of every other candidate."""

WORTH = -3.0
"""Candidates with fewer points are not even listed."""

MOST = 9
"""Candidates that are listed at most."""

LIKELY = 0.0
"""Points of a figure that is drawn as the best is, beside it, from which on it is a slab as well."""

MISNAMED = -3.0
"""A sign of fewer points says that the line is a roof's, a site's or a frame."""

NOT_FAR = 0.6
"""A closed line goes around walls, not around a building on its site, where they take up this share of it."""

MINOR = 0.2
PAD = 40e6
"""A figure beside the slab of under this share of its area, and under the second (mm2, 40 square metres), is a pad or a
step: said, not asked about."""


OPEN = "nothing says plainly which outline is the slab's"
SEVERAL = "there are several outlines of slabs side by side"


@dataclass(frozen=True, kw_only=True)
class Decision:
    """What was decided.

    Attributes:
        candidates: The candidates worth listing, best first, numbered from 1.
        slab: The one that is taken; None where the user is to say.
        why: Why it is left open, as a clause; empty where it is decided.
        others: Further slabs of a site beside the one that is taken, too small to ask about.
    """

    candidates: tuple[Candidate, ...]
    slab: Candidate | None = None
    why: str = ""
    others: tuple[Candidate, ...] = ()


def decide(candidates: Sequence[Candidate]) -> Decision:
    """Ranks candidates that have been judged and takes the best where it is clear."""
    ranked = sorted(
        candidates, key=lambda c: (-round(c.points, 3), -round(c.polygon.area), c.polygon.bounds)
    )
    worth = [c for c in ranked if c.points > WORTH]
    listed = tuple(replace(c, number=n) for n, c in enumerate(worth[:MOST], start=1))
    if not listed:
        return Decision(candidates=(), why="nothing that is drawn closes to the outline of a slab")
    best = listed[0]
    rivals = [c for c in listed[1:] if _rivals(best, c)]
    if best.points < ENOUGH or _of_something_else(best):
        several = len(side_by_side(listed)) > 1 and not _of_something_else(best)
        return Decision(candidates=listed, why=SEVERAL if several else OPEN)
    if not rivals:
        others = tuple(c for c in listed[1:] if _beside(best, c) and c.points >= ENOUGH)
        return Decision(candidates=listed, slab=best, others=others)
    if all(_beside(best, c) for c in rivals):
        return Decision(candidates=listed, why=SEVERAL)
    return Decision(candidates=listed, why="what is drawn can be read as more than one slab")


def _of_something_else(best: Candidate) -> bool:
    """Whether the best is a roof's line, or one of no telling name around a building or a plan: a site's, a frame."""
    return not _named(best) and any(s.around for s in best.signs)


def _named(candidate: Candidate) -> bool:
    """Whether a layer's name says that it is a slab's edge."""
    return any(outline_rank(n) is not None for n in candidate.layers)


def _rivals(best: Candidate, other: Candidate) -> bool:
    """Whether another candidate could be meant instead, or as well."""
    if _beside(best, other):
        like = set(best.layers) == set(other.layers) and best.source is other.source
        as_good = other.points >= ENOUGH or (like and other.points > LIKELY)
        return as_good and other.polygon.area >= min(MINOR * best.polygon.area, PAD)
    if _goes_around(best, other):
        return True
    if best.points - other.points >= AHEAD:
        return False
    if best.source is other.source is Source.WALLS:
        return best.alike and other.alike
    if other.source is Source.WALLS and on_ledge(other.polygon, best.polygon):
        # The slab's own line would show a court as well; of another line nobody knows.
        return bool(other.courts) and not _named(best)
    return True


def _goes_around(best: Candidate, other: Candidate) -> bool:
    """Whether the best is a building's walls and a closed line of no telling name goes around them not far off."""
    return (
        best.source is Source.WALLS
        and other.source is Source.CLOSED
        and not any(s.points < MISNAMED for s in other.signs)
        and other.polygon.buffer(1.0).covers(best.polygon)
        and best.polygon.area > NOT_FAR * other.polygon.area
    )


def _beside(one: Candidate, other: Candidate) -> bool:
    common = one.polygon.intersection(other.polygon).area
    return bool(common < 0.02 * min(one.polygon.area, other.polygon.area))


def side_by_side(candidates: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """The best candidate, and those beside it and each other that could be meant as well."""
    if not candidates or candidates[0].points <= LIKELY:
        return ()
    best, found = candidates[0], [candidates[0]]
    for other in candidates[1:]:
        if all(_beside(other, f) for f in found) and _rivals(best, other):
            found.append(other)
    return tuple(found)


def chosen_at(candidates: Sequence[Candidate], at: tuple[float, float]) -> Candidate | None:
    """The best candidate around a point (mm); None where none lies there."""
    import shapely

    spot = shapely.Point(at)
    return next((c for c in candidates if c.floor.intersects(spot)), None)
