"""A slab as a program gives it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shapely import Polygon

if TYPE_CHECKING:
    from kerfline.model.job import Job

Spots = Sequence[Sequence[float | str]]
Thing = Mapping[str, Any] | Spots
"""A thing as a table of a job file has it, such as ``{"path": [(0, 12), (24, 12)], "bearing": True}``, or its
points alone."""

TABLES = {
    "walls": ("wall", "path"),
    "columns": ("column", "at"),
    "penetrations": ("penetration", "at"),
    "zones": ("zone", "outline"),
    "keep_outs": ("keep_out", "outline"),
    "edges": ("edge", ""),
    "joints": ("joint", "path"),
    "falls": ("fall", ""),
}
"""The table of a job file for each field, and the key that its points alone stand for."""


@dataclass(frozen=True)
class Slab:
    """A slab on ground. Its fields are the tables of a job file, with the same keys.

    Attributes:
        outline: Its corners in order, each ``(x, y)`` or ``(x, y, bulge)``; or a shapely polygon, whose
            interiors are openings.
        thickness: Such as ``"4 in"`` or ``"100 mm"``; may be given with ``lay_out`` instead.
        units: Unit of bare numbers: ``ft``, ``in``, ``m`` or ``mm``.
        name: What it is called on the sheets.
        openings: Holes through it, as the outline is given.
        walls: Interior walls, each its path or a table.
        columns: Columns, each its place or a table.
        penetrations: Pipes, drains and posts, each its place or a table.
        zones: Tables of areas with a thickness of their own.
        keep_outs: Areas where no saw may go, each its outline or a table.
        edges: Tables of what is known of edges.
        joints: Joints that are given, each its path or a table.
        falls: Tables of areas that fall to a drain.

    Example:
        >>> Slab([(0, 0), (40, 0), (40, 24), (0, 24)], "4 in", walls=[[(0, 12), (24, 12)]]).name
        'slab'
    """

    outline: Spots | Polygon
    thickness: str = ""
    units: str = "ft"
    name: str = "slab"
    openings: Sequence[Spots] = ()
    walls: Sequence[Thing] = ()
    columns: Sequence[Thing | Sequence[float | str]] = ()
    penetrations: Sequence[Thing | Sequence[float | str]] = ()
    zones: Sequence[Thing] = ()
    keep_outs: Sequence[Thing] = ()
    edges: Sequence[Mapping[str, Any]] = ()
    joints: Sequence[Thing] = ()
    falls: Sequence[Mapping[str, Any]] = ()


def job_of(slab: Slab, thickness: str | None) -> "Job":
    """The job that a slab stands for, read as a job file is.

    Raises:
        InputRefused: It is no sensible slab; every mistake is listed.
    """
    from kerfline.files.job_file import job_of_toml
    from kerfline.files.job_locate import Places
    from kerfline.files.toml_file import TomlFile

    toml = TomlFile(tables_of(slab, thickness), Places("Slab", {}))
    return job_of_toml(toml, Path("Slab"))


def tables_of(slab: Slab, thickness: str | None) -> dict[str, Any]:
    """The tables of the job file that would say the same."""
    outline, openings = _rings(slab)
    own: dict[str, Any] = {"outline": outline}
    if thick := thickness or slab.thickness:
        own["thickness"] = thick
    if openings:
        own["openings"] = openings
    tables: dict[str, Any] = {"job": {"name": slab.name, "units": slab.units}, "slab": own}
    for field in fields(slab):
        table, key = TABLES.get(field.name, ("", ""))
        if table and (given := getattr(slab, field.name)):
            tables[table] = [_table(each, key) for each in given]
    return tables


def _rings(slab: Slab) -> tuple[list[Any], list[Any]]:
    openings = [_plain(ring) for ring in slab.openings]
    if not isinstance(slab.outline, Polygon):
        return _plain(slab.outline), openings
    holes = [_plain(ring.coords[:-1]) for ring in slab.outline.interiors]
    return _plain(slab.outline.exterior.coords[:-1]), [*holes, *openings]


def _table(given: Any, key: str) -> dict[str, Any]:  # noqa: ANN401 - what a user's program gives
    if isinstance(given, Mapping):
        return {str(name): _plain(value) for name, value in given.items()}
    return {key: _plain(given)}


def _plain(value: Any) -> Any:  # noqa: ANN401
    """Lists for sequences and arrays, plain numbers for those of other libraries."""
    if isinstance(value, str | bool | int) or value is None:
        return value
    if isinstance(value, Mapping):
        return {str(name): _plain(each) for name, each in value.items()}
    if hasattr(value, "tolist"):
        return value.tolist()
    if isinstance(value, Sequence):
        return [_plain(each) for each in value]
    return float(value)
