"""Level chords of a figure, and the upright chords that cross one of them."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from kerfline.engine.arrays import Flags, Numbers
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import SAME, TOUCH


@dataclass(frozen=True)
class LevelChord:
    """A level chord of the concrete.

    Attributes:
        height: Its height, mm.
        start: Where it begins, mm.
        end: Where it ends, mm.
    """

    height: float
    start: float
    end: float

    @property
    def length(self) -> float:
        """Its length, mm."""
        return self.end - self.start

    def beside(self, other: "LevelChord", apart: float) -> bool:
        """Whether one lies over the other and no farther from it than that, mm."""
        along = min(self.end, other.end) - max(self.start, other.start)
        return along > 0.0 and abs(self.height - other.height) < apart

    @property
    def ends(self) -> Numbers:
        """Both ends, 2 x 2, mm."""
        return np.array([[self.start, self.height], [self.end, self.height]])


def level_chords(pieces: Numbers, figure: Area, height: float) -> list[LevelChord]:
    """The chords of a figure at a height that no corner has.

    Args:
        pieces: Pieces of line (n x 2 x 2, mm) at which chords end, the boundary of the figure among them.
        figure: The figure.
        height: The height, mm.
    """
    low, high = pieces[:, :, 1].min(axis=1), pieces[:, :, 1].max(axis=1)
    (x0, y0), (x1, y1) = pieces[(low < height) & (high > height)].transpose(1, 2, 0)
    at = np.sort(x0 + (x1 - x0) * (height - y0) / (y1 - y0))
    inside = shapely.contains_xy(
        figure, (at[:-1] + at[1:]) / 2, np.full(max(len(at) - 1, 0), height)
    )
    return [
        LevelChord(height, start, end)
        for (start, end), kept in zip(pairwise(at.tolist()), inside, strict=True)
        if kept
    ]


@dataclass(frozen=True)
class Uprights:
    """The upright chords that cross a level chord, from one place where that changes to the next.

    Attributes:
        places: The ends of the level chord and the places between them, mm.
        below: Heights at which they begin, at the left and at the right end of each stretch, mm.
        above: Heights at which they end.
        from_below: The highest corner under each of the inner places, mm.
        from_above: The lowest corner over it.
    """

    places: Numbers
    below: Numbers
    above: Numbers
    from_below: Numbers
    from_above: Numbers

    @property
    def lengths(self) -> Numbers:
        """At the left and at the right end of each stretch, mm."""
        return self.above - self.below

    @property
    def at_places(self) -> Numbers:
        """The shortest at each inner place, which both sides and the corners there leave, mm."""
        above = np.minimum(np.minimum(self.above[:-1, 1], self.above[1:, 0]), self.from_above)
        below = np.maximum(np.maximum(self.below[:-1, 1], self.below[1:, 0]), self.from_below)
        return np.asarray(np.maximum(above - below, 0.0))

    def crossing(self, chord: LevelChord) -> Flags:
        """On which stretches some of them may cross another level chord too."""
        along = (chord.start < self.places[1:]) & (self.places[:-1] < chord.end)
        over = self.below.min(axis=1) < chord.height
        return np.asarray(along & over & (chord.height < self.above.max(axis=1)), dtype=bool)


def uprights_on(chord: LevelChord, pieces: Numbers, more: Numbers) -> Uprights:
    """The upright chords through a level chord.

    Args:
        chord: The level chord.
        pieces: Pieces of line at which chords end.
        more: Further places to tell apart, mm.
    """
    corners = np.unique(pieces.reshape(-1, 2), axis=0)
    inner = np.unique(np.append(corners[:, 0], more))
    inner = inner[(inner > chord.start + SAME) & (inner < chord.end - SAME)]
    places = np.concatenate([[chord.start], inner, [chord.end]])
    middle = (places[:-1] + places[1:]) / 2
    left, right = pieces[:, :, 0].min(axis=1), pieces[:, :, 0].max(axis=1)
    over = (left[:, None] < middle) & (middle < right[:, None])
    (x0, y0), (x1, y1) = pieces.transpose(1, 2, 0)[..., None]
    slope = np.where(over, (y1 - y0) / np.where(over, x1 - x0, 1.0), 0.0)
    centre = y0 + slope * (middle - x0)
    near = np.abs(corners[:, :1] - inner) <= TOUCH
    heights = corners[:, 1:]

    def first(side: float) -> tuple[Numbers, Numbers]:
        away = np.where(over, side * (centre - chord.height), np.inf)
        which = np.argmin(np.where(away > 0.0, away, np.inf), axis=0)
        taken = (which, np.arange(len(middle)))
        ends = np.stack([places[:-1], places[1:]], axis=1) - middle[:, None]
        at = centre[taken][:, None] + slope[taken][:, None] * ends
        met = np.where(near & (side * (heights - chord.height) > 0.0), side * heights, np.inf)
        return at, side * met.min(axis=0, initial=np.inf)

    (above, from_above), (below, from_below) = first(1.0), first(-1.0)
    return Uprights(places, below, above, from_below, from_above)
