"""Says where a DWG holds something that the library cannot be trusted to read.

The library seeks the numbers of a line by what they could be, and takes none beyond a hundred million: further out a
line comes back as other numbers, many of them next to nothing, and a hatch not at all. Arcs, polylines and texts come
back as they are, and tell so that the lines beside them do not.
"""

from collections.abc import Iterable, Iterator
from typing import Any

REACH = 1e8
"""Greatest coordinate, in the drawing's units, at which the library reads a line (measured: it fails from here on)."""

SPECK = 1e-30
"""No drawing has a coordinate that is not nothing and yet smaller than this: such a number was misread."""

_PLACES = ("start", "end", "center", "location", "insert", "defpoint")


def beyond_reach(entities: Iterable[Any]) -> str:
    """What tells that lines of these entities were misread.

    Args:
        entities: What the reader gives: a kind and its values.

    Returns:
        The first such thing and its place, in the drawing's units, or an empty text where there is none.
    """
    for entity in entities:
        kind = str(entity.dxftype)
        for x, y in _places(entity.dxf):
            if max(abs(x), abs(y)) > REACH:
                return f"{kind} at {x:,.0f}, {y:,.0f}"
            if kind == "LINE" and (0 < abs(x) < SPECK or 0 < abs(y) < SPECK):
                return f"{kind} at {x:.3g}, {y:.3g}"
    return ""


def _places(values: Any) -> Iterator[tuple[float, float]]:  # noqa: ANN401 -- values as the reader holds them
    """The points of an entity."""
    for key in _PLACES:
        if values.get(key):
            yield float(values[key][0]), float(values[key][1])
    for point in values.get("points") or ():
        yield float(point[0]), float(point[1])
