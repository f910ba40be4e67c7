"""Writes the same drawing as DWG that ezdxf holds as DXF, by the library's own writer."""

from pathlib import Path
from typing import Any

import ezdwg
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic
from ezdxf.layouts import BaseLayout


def save_dwg(document: Drawing, path: Path) -> Path:
    """Writes layers, blocks and model space of a document as a DWG (release 2000)."""
    made = ezdwg.new()
    made.header["insunits"] = int(document.header.get("$INSUNITS", 0))
    blocks = [b for b in document.blocks if not b.name.startswith(("*", "_"))]
    for space in (document.modelspace(), *blocks):
        for entity in space:
            made.layers.setdefault(entity.dxf.layer, {"color_index": 7})
    for layer in document.layers:
        made.layers[layer.dxf.name] = {
            "color_index": 7,
            "off": layer.is_off(),
            "frozen": layer.is_frozen(),
        }
    for block in blocks:
        made.blocks.new(block.name, base_point=tuple(block.block.dxf.base_point))
    for block in blocks:
        _copy(block, made.blocks[block.name])
    _copy(document.modelspace(), made.modelspace())
    made.save(str(path))
    return path


def bind_references(document: Drawing) -> None:
    """Names the layers of attached drawings as binding does, for a DWG takes their names with a bar from no one else."""
    for layer in list(document.layers):
        if "|" in layer.dxf.name:
            layer.rename(layer.dxf.name.replace("|", "$0$"))
    for space in (document.modelspace(), *document.blocks):
        for entity in space:
            entity.dxf.layer = entity.dxf.layer.replace("|", "$0$")


def _copy(space: BaseLayout, target: Any) -> None:
    for entity in space:
        _WRITERS[entity.dxftype()](entity, target, _common(entity))


def _common(entity: DXFGraphic) -> dict[str, Any]:
    common: dict[str, Any] = {"layer": entity.dxf.layer}
    if entity.dxf.hasattr("extrusion"):
        common["extrusion"] = tuple(entity.dxf.extrusion)
    return common


def _line(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_line(tuple(e.dxf.start), tuple(e.dxf.end), **common)


def _circle(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_circle(tuple(e.dxf.center), e.dxf.radius, **common)


def _arc(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_arc(tuple(e.dxf.center), e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle, **common)


def _polyline(e: Any, target: Any, common: dict[str, Any]) -> None:
    points = list(e.get_points("xyb"))
    target.add_lwpolyline(
        [(x, y) for x, y, _ in points],
        bulges=[b for _, _, b in points],
        closed=bool(e.closed),
        **({"const_width": e.dxf.const_width} if e.dxf.hasattr("const_width") else {}),
        **common,
    )


def _text(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_text(e.dxf.text, tuple(e.dxf.insert), e.dxf.height, **common)


def _insert(e: Any, target: Any, common: dict[str, Any]) -> None:
    scale = (e.dxf.xscale, e.dxf.yscale, e.dxf.zscale)
    target.add_blockref(
        e.dxf.name, tuple(e.dxf.insert), scale=scale, rotation=e.dxf.rotation, **common
    )


def _ellipse(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_ellipse(
        tuple(e.dxf.center),
        tuple(e.dxf.major_axis),
        e.dxf.ratio,
        e.dxf.start_param,
        e.dxf.end_param,
        **common,
    )


def _point(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_point(tuple(e.dxf.location), **common)


def _hatch(e: Any, target: Any, common: dict[str, Any]) -> None:
    rings = [[(x, y) for x, y, *_ in path.vertices] for path in e.paths]
    target.add_hatch(rings, **common)


def _solid(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_solid([tuple(e.dxf.get(f"vtx{i}")) for i in range(4)], **common)


def _dimension(e: Any, target: Any, common: dict[str, Any]) -> None:
    target.add_linear_dim(
        tuple(e.dxf.defpoint),
        tuple(e.dxf.defpoint2),
        tuple(e.dxf.defpoint3),
        e.dxf.get("angle", 0.0),
        text=e.dxf.get("text", ""),
        **common,
    )


_WRITERS = {
    "SOLID": _solid,
    "DIMENSION": _dimension,
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "LWPOLYLINE": _polyline,
    "TEXT": _text,
    "INSERT": _insert,
    "ELLIPSE": _ellipse,
    "POINT": _point,
    "HATCH": _hatch,
}
