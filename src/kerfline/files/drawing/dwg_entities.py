"""Draws what a DWG holds into a document, entity by entity."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from ezdxf.layouts import BaseLayout

from kerfline.geometry.ring import Point

Values = Mapping[str, Any]
"""What the reader gives of an entity, by name."""

DIMENSION_TYPES = {"linear": 0, "rotated": 0, "aligned": 1}
"""Types of dimension between two points, as DXF numbers them."""

LATER = frozenset({"ATTRIB", "ATTDEF", "VIEWPORT", "WIPEOUT", "LIGHT", "VERTEX", "SEQEND"})
"""Kinds that draw no edge of anything and are passed over without a word."""


def draw(entities: Iterable[Any], space: BaseLayout) -> Counter[str]:
    """Draws entities into a space.

    Args:
        entities: What the reader gives: a kind and its values.
        space: Model space, or the content of a block.

    Returns:
        How many could not be carried over, by kind.
    """
    lost: Counter[str] = Counter()
    for entity in entities:
        kind = str(entity.dxftype)
        if kind in LATER:
            continue
        drawer = _DRAWERS.get(kind)
        try:
            if drawer is None:
                raise KeyError(kind)
            drawer(space, entity.dxf, _common(entity.dxf))
        except Exception:  # whatever a damaged entity makes either library do
            lost[kind] += 1
    return lost


def is_empty(block: Any) -> bool:  # noqa: ANN401 -- a block as the reader holds it
    """Whether nothing was read of a block's content."""
    return next(iter(block.query()), None) is None


def _common(values: Values) -> dict[str, Any]:
    """Layer and plane."""
    common: dict[str, Any] = {"layer": str(values.get("layer") or "0")}
    if values.get("extrusion"):
        common["extrusion"] = tuple(values["extrusion"])
    if values.get("invisible"):
        common["invisible"] = 1
    return common


def _line(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_line(values["start"], values["end"], dxfattribs=common)


def _point(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_point(values["location"], dxfattribs=common)


def _circle(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_circle(values["center"], values["radius"], dxfattribs=common)


def _arc(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    angles = values["start_angle"], values["end_angle"]
    space.add_arc(values["center"], values["radius"], *angles, dxfattribs=common)


def _ellipse(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_ellipse(
        values["center"],
        values["major_axis"],
        values["axis_ratio"],
        values.get("start_angle", 0.0),
        values.get("end_angle", math.tau),
        dxfattribs=common,
    )


def _polyline(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    """A polyline in a plane, with its bulges and its width."""
    points = [(float(p[0]), float(p[1])) for p in values["points"]]
    bulges = values.get("bulges") or [0.0] * len(points)
    widths = values.get("widths") or [(0.0, 0.0)] * len(points)
    rows = [
        (x, y, float(start), float(end), float(bulge))
        for (x, y), (start, end), bulge in zip(points, widths, bulges, strict=True)
    ]
    made = space.add_lwpolyline(rows, close=bool(values.get("closed")), dxfattribs=common)
    if values.get("const_width"):
        made.dxf.const_width = float(values["const_width"])
    if values.get("elevation"):
        made.dxf.elevation = float(values["elevation"])


def _polyline_3d(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_polyline3d(values["points"], close=bool(values.get("closed")), dxfattribs=common)


def _spline(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    made = space.add_spline(dxfattribs=common)
    made.dxf.degree = int(values.get("degree") or 3)
    made.control_points = values.get("control_points") or []
    made.knots = values.get("knots") or []
    made.weights = values.get("weights") or []
    made.fit_points = values.get("fit_points") or []
    made.closed = bool(values.get("closed"))
    if not len(made.control_points) and not len(made.fit_points):
        raise ValueError("a spline without points")


def _text(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    made = space.add_text(
        str(values["text"]), height=values.get("height") or 1.0, dxfattribs=common
    )
    made.dxf.insert = values["insert"]
    made.dxf.rotation = _degrees(values.get("rotation"))


def _mtext(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    made = space.add_mtext(str(values["text"]), dxfattribs=common)
    made.dxf.insert = values["insert"]
    made.dxf.char_height = values.get("char_height") or 1.0
    made.dxf.attachment_point = values.get("attachment_point") or 1
    if values.get("text_direction"):
        made.dxf.text_direction = values["text_direction"]


def _solid(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    space.add_solid(values["points"], dxfattribs=common)


def _hatch(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    made = space.add_hatch(dxfattribs=common)
    for path in values["paths"]:
        rows: Sequence[Sequence[float]] = path["points"] if isinstance(path, Mapping) else path
        corners: list[Point] = [(float(p[0]), float(p[1])) for p in rows]
        made.paths.add_polyline_path(corners, is_closed=True)
    if values.get("solid_fill"):
        made.set_solid_fill()


def _insert(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    scales = {key: float(values.get(key) or 1.0) for key in ("xscale", "yscale", "zscale")}
    made = space.add_blockref(
        str(values["name"]),
        values["insert"],
        dxfattribs={**common, **scales, "rotation": _degrees(values.get("rotation"))},
    )
    rows, columns = int(values.get("row_count") or 1), int(values.get("column_count") or 1)
    if rows * columns > 1:
        made.grid(
            (rows, columns),
            (float(values.get("row_spacing") or 0.0), float(values.get("column_spacing") or 0.0)),
        )


def _dimension(space: BaseLayout, values: Values, common: dict[str, Any]) -> None:
    """A dimension between two points, for the length that it states; its lines are no edges."""
    kind = DIMENSION_TYPES.get(str(values.get("dimtype", "")).lower())
    if kind is None:
        return
    space.new_entity(
        "DIMENSION",
        {
            **common,
            "dimtype": kind,
            "defpoint": values["defpoint"],
            "defpoint2": values["defpoint2"],
            "defpoint3": values["defpoint3"],
            "angle": _degrees(values.get("angle")),
            "text": str(values.get("text") or ""),
        },
    )


def _degrees(angle: object) -> float:
    return float(angle) if isinstance(angle, int | float) else 0.0


_DRAWERS: dict[str, Callable[[BaseLayout, Values, dict[str, Any]], None]] = {
    "LINE": _line,
    "POINT": _point,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "LWPOLYLINE": _polyline,
    "POLYLINE_2D": _polyline,
    "POLYLINE_3D": _polyline_3d,
    "SPLINE": _spline,
    "TEXT": _text,
    "MTEXT": _mtext,
    "SOLID": _solid,
    "TRACE": _solid,
    "HATCH": _hatch,
    "INSERT": _insert,
    "MINSERT": _insert,
    "DIMENSION": _dimension,
}
