"""Where in a job file each thing on the slab stands."""

from collections.abc import Mapping, Sequence

from kerfline.files.job_build import edges
from kerfline.files.job_locate import Key, Places
from kerfline.files.job_schema import JobFile
from kerfline.files.sense_teller import Where
from kerfline.files.slab_sense import Named
from kerfline.model.slab import Slab

KINDS = ("wall", "column", "penetration", "zone", "keep_out", "joint", "pattern", "fall")


def place_of_subject(file: JobFile, slab: Slab, places: Places) -> Where:
    """Names the place of a subject of the slab: ``outline``, ``opening 2``, ``W3``."""
    keys = _keys(file, slab)

    def where(subject: str) -> str:
        key = keys.get(subject)
        return places.of(key) if key else f"{places.name}, {subject} of the drawing"

    return where


def _keys(file: JobFile, slab: Slab) -> Mapping[str, Key]:
    """The key of each subject that the file itself gives; the drawing's come first in the slab."""
    keys: dict[str, Key] = {"thickness": ("slab", "thickness")}
    if file.slab.outline or file.drawing is None:
        keys["outline"] = ("slab", "outline")
    drawn = len(slab.openings) - len(file.slab.openings)
    for i in range(len(file.slab.openings)):
        keys[f"opening {drawn + i + 1}"] = ("slab", "openings", i)
    things: tuple[Sequence[Named], ...] = (
        slab.walls, slab.columns, slab.penetrations, slab.zones, slab.keep_outs, slab.joints,
        slab.patterns, slab.falls,
    )  # fmt: skip
    for kind, every in zip(KINDS, things, strict=True):
        own = len(getattr(file, kind))
        for i, thing in enumerate(every[len(every) - own :]):
            keys.setdefault(thing.id, (kind, i))
    return {**keys, **_edge_keys(file, slab)}


def _edge_keys(file: JobFile, slab: Slab) -> Mapping[str, Key]:
    """The last table that speaks of each segment."""
    rings = (slab.outline, *slab.openings)
    return {
        f"edge {edge.ring}/{edge.segment}": ("edge", i)
        for i, table in enumerate(file.edge)
        for edge in edges(table, rings)
    }
