"""The scale of a page: as it is written on it, and as its dimensions state it."""

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from kerfline.errors import InputRefused
from kerfline.files.plan_pdf.page_objects import Drawn, Written
from kerfline.geometry.ring import Point
from kerfline.units import Unit, parse_length, parse_scale

NEAR = 3.0
"""The line of a dimension lies no farther from its text than this many heights of it."""

MIDDLE = 0.15
"""The text of a dimension stands in the middle of its line, within this share of its length."""

ALONG = 3.0
"""Degrees by which a dimension's text and its line may differ."""

AGREE = 0.01
"""Shares by which dimensions of one scale differ: their texts are rounded."""

FEWEST = 3
"""Dimensions that must agree before they state a scale."""

MOST = 0.6
"""Share of all dimensions that must agree."""

SHORTEST = 2.0
"""A dimension's line is longer than this (mm of paper)."""

LARGEST_SCALE = 5000.0

FIELD = 20.0
"""A field of a title block is filled in no farther from its word than this (mm of paper)."""

_TITLE = re.compile(r"(?:drawing\s+)?scale\s*:?", re.IGNORECASE)
_IMPERIAL = re.compile(
    r"(?P<paper>\d+(?:[\s-]+\d+/\d+|/\d+|\.\d+)?)\s*(?:\"|''|\u2033|\u201d|in\.?|inch(?:es)?)\s*=\s*"
    r"(?P<real>\d+)\s*(?:'|\u2032|\u2019|ft\.?|feet|foot)(?:\s*-?\s*0\s*(?:\"|''|\u2033|\u201d|in\.?)?)?",
    re.IGNORECASE,
)
_METRIC = re.compile(r"(?<![\d.:/])1\s*:\s*(?P<of>\d{1,4})(?![\d.:/])")
_USUAL = frozenset(
    {5, 10, 20, 25, 30, 40, 50, 60, 75, 80, 100, 120, 125, 150, 200, 250, 300, 400, 500, 1000}
)
_LENGTH = re.compile(
    r"\d+'\s*-?\s*\d*(?:\s*\d+/\d+)?\s*\"?|\d+(?:\.\d+)?\s*(?:mm|cm|m|ft|in)\b|\d{3,5}",
    re.IGNORECASE,
)


def written_scales(texts: Sequence[str]) -> list[float]:
    """The scales that texts state, as denominators, the one stated most often first."""
    found: dict[float, int] = {}
    for text in texts:
        for scale in _in_text(text):
            found[scale] = found.get(scale, 0) + 1
    return sorted(found, key=lambda scale: (-found[scale], scale))


def titled_scale(texts: Sequence[Written]) -> float | None:
    """The scale that a title block states: beside or under the word scale; None where none does, or several."""
    heads = [t for t in texts if _TITLE.fullmatch(t.text.strip())]
    stated = [(t, scale) for t in texts for scale in _in_text(t.text)]
    found = set()
    for head in heads:
        near = [(math.dist(head.at, t.at), scale) for t, scale in stated]
        if near and min(near)[0] <= FIELD:
            found.add(min(near)[1])
    return found.pop() if len(found) == 1 else None


def _in_text(text: str) -> Iterator[float]:
    for match in _IMPERIAL.finditer(text):
        try:
            yield round(parse_scale(f"{match['paper']} in = {match['real']} ft"), 6)
        except InputRefused:
            continue
    for match in _METRIC.finditer(text):
        of = int(match["of"])
        if of in _USUAL:
            yield float(of)


def dimensioned_scale(paths: Sequence[Drawn], texts: Sequence[Written]) -> float | None:
    """The scale that dimensions agree on; None where too few do.

    A dimension is a text that is a length, over the middle of a straight line along it.
    """
    lines = [line for drawn in paths if not drawn.filled for line in _straight(drawn)]
    lengths = [(text, mm) for text in texts if (mm := _length(text.text))]
    if not lines or not lengths:
        return None
    tree = shapely.STRtree([LineString(line) for line in lines])
    ratios = [r for text, mm in lengths if (r := _ratio(text, mm, lines, tree)) is not None]
    return _agreed(ratios)


def _agreed(ratios: Sequence[float]) -> float | None:
    """The middle of the largest group of ratios that agree, where it is large enough."""
    best: list[float] = []
    ordered = sorted(ratios)
    for low in ordered:
        group = [r for r in ordered if low <= r <= low * (1 + AGREE)]
        if len(group) > len(best):
            best = group
    if len(best) < FEWEST or len(best) < MOST * len(ratios):
        return None
    return float(np.median(best))


def _straight(drawn: Drawn) -> Iterator[tuple[Point, Point]]:
    points = drawn.path.points
    if not drawn.path.has_arcs:
        for start, end in pairwise(points):
            if math.dist(start, end) > SHORTEST:
                yield (start, end)


def _length(text: str) -> float | None:
    """The length that a text is, mm; a plain number of three to five digits is in millimetres."""
    match = _LENGTH.fullmatch(text.strip())
    if not match:
        return None
    try:
        length = parse_length(text, Unit.MM)
    except InputRefused:
        return None
    return length if length > 0 else None


def _ratio(
    text: Written, mm: float, lines: Sequence[tuple[Point, Point]], tree: shapely.STRtree
) -> float | None:
    """Real length over paper length of the nearest line that a text can be the dimension of."""
    reach = NEAR * max(text.height, 1.0)
    near = tree.query(shapely.Point(text.at), "dwithin", reach).tolist()
    fitting = [
        (shapely.Point(text.at).distance(LineString(lines[i])), i)
        for i in near
        if _fits(text, lines[i])
    ]
    if not fitting:
        return None
    _, best = min(fitting)
    ratio = mm / math.dist(*lines[best])
    return ratio if 1.0 <= ratio <= LARGEST_SCALE else None


def _fits(text: Written, line: tuple[Point, Point]) -> bool:
    """Whether a line runs along a text, with the text over its middle."""
    (x0, y0), (x1, y1) = line
    size = math.dist(*line)
    way = math.degrees(math.atan2(y1 - y0, x1 - x0))
    off = abs((way - text.turn + 90.0) % 180.0 - 90.0)
    share = ((text.at[0] - x0) * (x1 - x0) + (text.at[1] - y0) * (y1 - y0)) / size**2
    return off <= ALONG and abs(share - 0.5) <= MIDDLE
