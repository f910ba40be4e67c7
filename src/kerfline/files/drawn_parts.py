"""What a job file's ``[drawing]`` gives of the slab, whatever kind of file it names."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_schema import DrawingTable
from kerfline.files.kinds import DRAWINGS, Kind, kind_of
from kerfline.files.slab_parts import SlabParts

PARTS = ("outline", "openings", "walls", "columns", "penetrations", "joints", "keep_outs")
"""Keys of ``[drawing]`` that name layers."""


def drawn_parts(path: Path, table: DrawingTable) -> SlabParts:
    """The parts that a file gives, told by what stands in it: a DXF, a DWG, a page of a PDF, a building model.

    Args:
        path: The file.
        table: What the job file says of it.

    Raises:
        InputRefused: The file cannot be used, or what is said of it has no meaning for its kind.
    """
    kind = kind_of(path)
    if kind not in DRAWINGS:
        raise InputRefused(
            Mistake(
                what=f"this is {kind}",
                where=str(path),
                allowed="a drawing (DXF, DWG, PDF) or a building model (IFC) under [drawing]",
            )
        )
    if senseless := list(_senseless(kind, table)):
        raise InputRefused(*senseless)
    return _of_model(path, table) if kind is Kind.IFC else _of_drawing(path, kind, table)


def _of_model(path: Path, table: DrawingTable) -> SlabParts:
    """The parts of the slab of a building model, which says itself what each thing is."""
    from kerfline.files.building.floors import FloorChoice
    from kerfline.files.building.read_apart import read_building_apart

    read = read_building_apart(path, FloorChoice(storey=table.storey))
    return replace(read.parts, reading=read.reading)


def _of_drawing(path: Path, kind: Kind, table: DrawingTable) -> SlabParts:
    """The parts that lie on the layers named."""
    from kerfline.files.drawing import Layers, read_drawing, slab_parts
    from kerfline.files.drawing.account import Chosen, account
    from kerfline.files.drawing.joints import REACH
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    named = _named(table)
    layers = Layers(**named)
    if kind is Kind.PDF:
        page = PageChoice(page=table.page or 0, scale=table.scale, units=table.units)
        drawing = read_pdf(path, page)
    else:
        drawing = read_drawing(path, table.units)
    reach = REACH if table.repair is None else table.repair
    parts = slab_parts(drawing, layers, reach=reach)
    told = {part: names for part, names in named.items() if names}
    return replace(parts, reading=account(drawing, parts, Chosen(layers=layers, told=told)))


def _named(table: DrawingTable) -> Mapping[str, tuple[str, ...]]:
    return {part: tuple(getattr(table, part)) for part in PARTS}


def _senseless(kind: Kind, table: DrawingTable) -> Iterator[Mistake]:
    """What is said under ``[drawing]`` that has no meaning for such a file."""
    pages = {"page": table.page, "scale": table.scale} if kind is not Kind.PDF else {}
    storeys = {"storey": table.storey} if kind is not Kind.IFC else {}
    layers = {**_named(table), "repair": table.repair} if kind is Kind.IFC else {}
    for key, value in {**pages, **storeys, **layers}.items():
        if value:
            yield Mistake(
                what=f"this has no meaning for {kind}",
                where=f"[drawing], {key}",
                remedy="take it out",
            )
