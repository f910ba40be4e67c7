"""Whether the areas that a job names for cut sheets of their own make sense on its slab."""

from collections import Counter
from collections.abc import Sequence

from kerfline.errors import Mistake
from kerfline.files.job_locate import Places
from kerfline.model.job import CutAreaChoice
from kerfline.model.slab import Slab

LEAST_AREA = 1e4
"""An area that holds less concrete than this (mm2, a hand's breadth square) is a slip."""


def area_mistakes(areas: Sequence[CutAreaChoice], slab: Slab, places: Places) -> list[Mistake]:
    """Areas that cross themselves, hold no concrete, or share a name.

    Args:
        areas: The areas of the job.
        slab: A slab that makes sense.
        places: Where each table of the job file stands.
    """
    counts = Counter(area.name.casefold() for area in areas)
    found = []
    for i, area in enumerate(areas):
        where = places.of(("sheet", "area", i))
        shape = area.outline.polygon
        if counts[area.name.casefold()] > 1:
            what, remedy = f"two areas are called {area.name}", "give each a name of its own"
        elif not shape.is_valid:
            what, remedy = (
                f"the outline of area {area.name} crosses itself",
                "put its points in order",
            )
        elif shape.intersection(slab.concrete).area < LEAST_AREA:
            what, remedy = (
                f"area {area.name} holds no concrete",
                "move it onto the slab or leave it out",
            )
        else:
            continue
        found.append(Mistake(what=what, where=where, remedy=remedy))
    return found
