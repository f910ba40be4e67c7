"""Turns the entities of a model space into plain curves, blocks taken apart, one bad entity at a time."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from ezdxf.document import Drawing as Document
from ezdxf.entities import Dimension, DXFEntity, Hatch, Insert

from kerfline.files.drawing.curves import Curve, Label, Skipped, Spot, Stated
from kerfline.files.drawing.names import outline_rank, part_named
from kerfline.files.drawing.no_shape import NoShape
from kerfline.files.drawing.shapes import has_shape, hatch_edges, shape_of, width_of
from kerfline.files.drawing.stated import stated_by
from kerfline.files.own_records import Record, is_one_joint, records_of
from kerfline.geometry.paths import Path, tidy
from kerfline.geometry.tolerance import FARTHEST

BY_LAYER = "BYLAYER"

DEPTH = 32
"""Blocks nested deeper than this are taken to contain themselves."""

METRE = 1000.0

DAMAGED = "it is damaged; draw it anew if it is part of the slab"

MOST_HATCHES = 5_000
"""Hatches whose edges are taken at most: a drawing with more is a rendering."""

TEXT_KINDS = frozenset({"TEXT", "MTEXT", "ATTRIB"})
QUIET = frozenset(
    {
        "ACAD_TABLE",
        "ARC_DIMENSION",
        "ATTDEF",
        "DIMENSION",
        "GEODATA",
        "HATCH",
        "IMAGE",
        "LARGE_RADIAL_DIMENSION",
        "LEADER",
        "LIGHT",
        "MLEADER",
        "MPOLYGON",
        "MULTILEADER",
        "OLE2FRAME",
        "OLEFRAME",
        "PDFUNDERLAY",
        "DWFUNDERLAY",
        "DGNUNDERLAY",
        "RAY",
        "SHAPE",
        "SUN",
        "TOLERANCE",
        "VIEWPORT",
        "WIPEOUT",
        "XLINE",
    }
)
"""Kinds that draw no edge of anything: passed over, only counted."""


@dataclass(kw_only=True)
class Harvest:
    """What the entities gave.

    Attributes:
        fine: How many times as finely as usual free-form curves are flattened.
        curves: The curves, in the order of the drawing.
        spots: The drawn points.
        labels: The texts.
        counts: Entities by layer and type, blocks counted once and their contents too.
        ignored: Entities that draw no edge, by type.
        hatches: The hatches, each with its layer and block reference.
        fills: Their edges.
        stated: The lengths that dimensions state.
        records: What a drawing of ours says of its parts.
        trouble: What could not be read, by (type, layer, reason).
        linetypes: The type of line of each layer, in capitals.
        blocks: The name of the block of each block reference, by its number.
        attached: Drawings that are attached and not in the file, by name.
    """

    fine: float = 1.0
    linetypes: dict[str, str] = field(default_factory=dict)
    blocks: dict[int, str] = field(default_factory=dict)
    attached: Counter[str] = field(default_factory=Counter)
    curves: list[Curve] = field(default_factory=list)
    spots: list[Spot] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    counts: Counter[tuple[str, str]] = field(default_factory=Counter)
    ignored: Counter[str] = field(default_factory=Counter)
    hatches: list[tuple[Hatch, str, int]] = field(default_factory=list)
    fills: list[Curve] = field(default_factory=list)
    stated: list[Stated] = field(default_factory=list)
    records: list[Record] = field(default_factory=list)
    trouble: Counter[tuple[str, str, str]] = field(default_factory=Counter)

    @property
    def skipped(self) -> tuple[Skipped, ...]:
        """What was not read, sorted."""
        return tuple(
            Skipped(kind=kind, layer=layer, why=why, count=count)
            for (kind, layer, why), count in sorted(self.trouble.items())
        )


def harvest(document: Document, factor: float, *, fine: bool = False) -> Harvest:
    """Everything drawn in the model space.

    Args:
        document: The drawing.
        factor: Millimetres in one drawing unit.
        fine: Whether free-form curves are flattened as if the unit were a metre: it is not known yet.
    """
    found = Harvest(fine=METRE if fine else 1.0)
    found.linetypes = {
        str(each.dxf.name): str(each.dxf.get("linetype", "")).upper() for each in document.layers
    }
    groups = _Groups()
    for entity, layer, group in _parts(document.modelspace(), found, groups, "", 0, 0):
        try:
            _take(entity, layer, group, factor, found)
        except NoShape as reason:
            found.trouble[(entity.dxftype(), layer, str(reason))] += 1
        except Exception:  # damaged entities fail in any way; the others are still good
            found.trouble[(entity.dxftype(), layer, DAMAGED)] += 1
    _take_hatched(factor, found)
    return found


def _take_hatched(factor: float, found: Harvest) -> None:
    """Takes the edges of hatches.

    On layers of a part of the slab that hold no line they are its curves: it is drawn so there.
    """
    lined = {curve.layer for curve in found.curves}
    for hatch, layer, group in found.hatches[:MOST_HATCHES]:
        try:
            edges = [_checked(path) for path in hatch_edges(hatch, factor)]
        except Exception:  # damaged, as above
            found.trouble[("HATCH", layer, DAMAGED)] += 1
            continue
        curves = [Curve(layer=layer, kind="HATCH", path=p, group=group) for p in edges]
        found.fills += curves
        if layer not in lined and (outline_rank(layer) is not None or part_named(layer)):
            found.curves += curves
            found.ignored -= Counter({"HATCH": 1})


@dataclass
class _Groups:
    """Gives block references their numbers."""

    last: int = 0

    def next(self) -> int:
        self.last += 1
        return self.last


def _parts(
    entities: Iterable[DXFEntity],
    found: Harvest,
    groups: _Groups,
    outer: str,
    group: int,
    depth: int,
) -> Iterator[tuple[DXFEntity, str, int]]:
    """Every entity with its layer and block reference, block references taken apart."""
    for entity in entities:
        layer = _layer_of(entity, outer)
        found.counts[(layer, entity.dxftype())] += 1
        if not isinstance(entity, Insert):
            yield entity, layer, group
            continue
        try:
            for one in _instances(entity):
                yield from _inside(one, layer, found, groups, group, depth)
        except Exception:  # a damaged block reference; the rest of the drawing is still good
            found.trouble[("INSERT", layer, DAMAGED)] += 1


def _inside(
    insert: Insert, layer: str, found: Harvest, groups: _Groups, group: int, depth: int
) -> Iterator[tuple[DXFEntity, str, int]]:
    name = insert.dxf.get("name", "?")
    block = insert.block()
    if block is not None and block.block is not None and block.block.is_xref:
        found.attached[str(block.block.dxf.get("xref_path", "")) or name] += 1
        return
    if block is None:
        found.trouble[("INSERT", layer, f"its block {name} is not in the file")] += 1
        return
    if depth >= DEPTH:
        found.trouble[("INSERT", layer, f"block {name} contains itself")] += 1
        return

    def refused(entity: DXFEntity, reason: str) -> None:
        found.trouble[(entity.dxftype(), _layer_of(entity, layer), reason)] += 1

    contents = insert.virtual_entities(skipped_entity_callback=refused)
    here = group or groups.next()
    found.blocks.setdefault(here, name)
    yield from _parts(contents, found, groups, layer, here, depth + 1)
    for attrib in insert.attribs:
        yield attrib, _layer_of(attrib, layer), here


def _instances(insert: Insert) -> Iterator[Insert]:
    """The block reference, or each one of an array."""
    if insert.mcount > 1:
        yield from insert.multi_insert()
    else:
        yield insert


def _layer_of(entity: DXFEntity, outer: str) -> str:
    """The entity's layer; what stands on layer 0 of a block takes the block reference's."""
    named = entity.is_supported_dxf_attrib("layer")
    layer = str(entity.dxf.get("layer", "0")) if named else "0"
    return outer if layer == "0" and outer else layer


def _take(entity: DXFEntity, layer: str, group: int, factor: float, found: Harvest) -> None:
    kind = entity.dxftype()
    if kind in TEXT_KINDS:
        _take_label(entity, layer, factor, found)
        found.ignored[kind] += 1
    elif kind in QUIET:
        found.ignored[kind] += 1
        if isinstance(entity, Dimension):
            found.stated += stated_by(entity)
        if isinstance(entity, Hatch):
            found.hatches.append((entity, layer, group))
    elif kind == "POINT":
        x, y = entity.dxf.location.x * factor, entity.dxf.location.y * factor
        if not (math.isfinite(x) and math.isfinite(y)):
            raise NoShape("a coordinate is not a number")
        found.spots.append(Spot(layer=layer, kind=kind, at=(x, y), group=group))
    elif not has_shape(kind):
        raise NoShape("this kind is not understood; explode it to lines and arcs")
    else:
        for path in shape_of(entity, factor, found.fine):
            width = width_of(entity) * factor
            curve = Curve(
                layer=layer,
                kind=kind,
                path=_checked(path),
                group=group,
                width=width,
                linetype=_linetype(entity, layer, found),
            )
            records = list(records_of(entity, curve.path, factor))
            found.curves.append(replace(curve, one_joint=is_one_joint(records)))
            found.records += records


def _linetype(entity: DXFEntity, layer: str, found: Harvest) -> str:
    """The type of line that an entity is drawn with."""
    own = str(entity.dxf.get("linetype", BY_LAYER)).upper()
    return found.linetypes.get(layer, "") if own in (BY_LAYER, "BYBLOCK") else own


def _checked(path: Path) -> Path:
    if not all(math.isfinite(c) for point in path.points for c in point):
        raise NoShape("a coordinate is not a number")
    if any(abs(c) > FARTHEST for point in path.points for c in point):
        raise NoShape("a coordinate lies beyond the earth")
    clean = tidy(path)
    if clean is None:
        raise NoShape("it has no length in plan")
    return clean


def _take_label(entity: DXFEntity, layer: str, factor: float, found: Harvest) -> None:
    text = entity.plain_text() if hasattr(entity, "plain_text") else ""
    at = entity.dxf.get("insert")
    if text and at is not None and math.isfinite(at.x) and math.isfinite(at.y):
        height = _height_of(entity) * factor
        place = (at.x * factor, at.y * factor)
        found.labels.append(Label(layer=layer, text=str(text), at=place, height=height))


def _height_of(entity: DXFEntity) -> float:
    """The height of a text's capitals, in drawing units; 0 where it says none that can be."""
    key = "char_height" if entity.dxftype() == "MTEXT" else "height"
    height = float(entity.dxf.get(key, 0.0))
    return height if math.isfinite(height) and height > 0 else 0.0
