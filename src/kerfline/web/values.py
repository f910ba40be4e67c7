"""The kinds of value in what the page says, each within bounds that anything honest keeps."""

from typing import Annotated

from pydantic import Field

LARGEST = 1e8
"""No coordinate of a slab is beyond a hundred kilometres (mm)."""

LONGEST_TEXT = 200
Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Name = Annotated[str, Field(min_length=1, max_length=LONGEST_TEXT)]
Coordinate = Annotated[float, Field(ge=-LARGEST, le=LARGEST)]
Spot = tuple[Coordinate, Coordinate]
Points = Annotated[tuple[Spot, ...], Field(max_length=500)]
Index = Annotated[int, Field(ge=0, le=10_000_000)]
