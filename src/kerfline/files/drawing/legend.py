"""What a drawing's legend shows: a sample of a line beside the words for a kind of joint.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import shapely

from kerfline.files.drawing.curves import Curve, Label
from kerfline.files.drawing.names import decorates, outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.model.slab import JointKind

WORDS = {
    JointKind.CONTROL: re.compile(
        r"\b(?:CONTROL|CONTRACTION)\s+J(?:OIN)?TS?\b|\bSAW[- ]?(?:CUTS?|N)\b"
    ),
    JointKind.CONSTRUCTION: re.compile(r"\bCONSTRUCTION\s+J(?:OIN)?TS?\b"),
    JointKind.ISOLATION: re.compile(r"\b(?:ISOLATION|EXPANSION)\s+J(?:OIN)?TS?\b"),
}
"""Words of a legend for each kind of joint."""

LONGEST = 80
"""Letters of a legend's line at most; what is longer is a note."""

LEVEL = 0.3
"""A sample lies level with its words where it is off by at most this share of its length."""

NEAR = 1.5
"""Its words begin within so many times its length behind its right end."""

LARGEST = 4_000.0
"""Length (mm) of a sample at most: 40 mm on paper at 1:100."""

FREE = 20.0
"""A sample stands by itself: nothing else is drawn this near to it (mm)."""

FLAT = 0.02
"""A sample is level where it rises by at most this share of its length."""


@dataclass(frozen=True, kw_only=True)
class Legend:
    """The lines that a legend shows.

    Attributes:
        kinds: The kind of joint by layer and line type.
    """

    kinds: Mapping[tuple[str, str], JointKind]

    @property
    def layers(self) -> tuple[str, ...]:
        """The layers that it speaks of, sorted."""
        return tuple(sorted({layer for layer, _ in self.kinds}))

    def of_layer(self, layer: str) -> JointKind | None:
        """The kind of all joints on a layer; None where it shows none there, or several."""
        found = {kind for (name, _), kind in self.kinds.items() if name == layer}
        return found.pop() if len(found) == 1 else None

    def of(self, curve: Curve) -> JointKind | None:
        """The kind of the joint that a curve is."""
        return self.of_layer(curve.layer) or self.kinds.get((curve.layer, curve.linetype))


def legend_of(drawing: Drawing) -> Legend:
    """What the legend of a drawing shows; nothing where it has none, or where it is at odds with itself."""
    found: dict[tuple[str, str], set[JointKind]] = {}
    said = [(label, kind) for label in drawing.labels if (kind := _kind_said(label.text))]
    if said:
        samples = list(_samples(drawing))
        for label, kind in said:
            sample = _beside(label, samples)
            if sample:
                found.setdefault((sample.layer, sample.linetype), set()).add(kind)
    return Legend(kinds={key: kinds.pop() for key, kinds in found.items() if len(kinds) == 1})


def _kind_said(text: str) -> JointKind | None:
    """The kind of joint that a line of a legend names; None where it names none, or two."""
    line = " ".join(text.upper().split())
    if len(line) > LONGEST:
        return None
    kinds = [kind for kind, words in WORDS.items() if words.search(line)]
    return kinds[0] if len(kinds) == 1 else None


def _samples(drawing: Drawing) -> Iterator[Curve]:
    """The short level lines that stand by themselves, on layers that may hold joints."""
    drawn = shapely.STRtree([c.path.line for c in drawing.curves])
    for layer in drawing.layers:
        other = part_named(layer) not in ("", "joints") or outline_rank(layer) is not None
        if other or decorates(layer) or layer in drawing.hidden:
            continue
        for curve in drawing.on(layer):
            if _is_level(curve) and len(drawn.query(curve.path.line, "dwithin", FREE)) == 1:
                yield curve


def _is_level(curve: Curve) -> bool:
    """Whether a curve is one short straight line that runs level."""
    path = curve.path
    if path.closed or path.has_arcs or len(path.points) != 2:  # noqa: PLR2004 - two ends
        return False
    (x0, y0), (x1, y1) = path.points
    return abs(x1 - x0) <= LARGEST and abs(y1 - y0) <= FLAT * abs(x1 - x0)


def _beside(label: Label, samples: Sequence[Curve]) -> Curve | None:
    """The sample that stands next to a text, on its left."""
    near = []
    for sample in samples:
        (x0, y0), (x1, _) = sorted(sample.path.points)
        length = x1 - x0
        away, off = label.at[0] - x1, abs(label.at[1] - y0)
        if 0 <= away <= NEAR * length and off <= LEVEL * length:
            near.append((round(away + off, 3), sample.layer, sample))
    return min(near, key=lambda n: n[:2])[2] if near else None
