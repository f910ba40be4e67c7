"""The legend: each line and mark with what it means, drawn with the pens of the plan."""

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass, replace

import shapely

from kerfline.geometry.ring import Point
from kerfline.model.bars import BarPlace, Bars
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind, JointKind, Slab
from kerfline.sheets.baselines import baselines
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.column_grid import column_grid
from kerfline.sheets.details import Shown, detail_numbers
from kerfline.sheets.fall_marks import arrow
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.lettering import fitted
from kerfline.sheets.marks import Anchor, Board, Fill, Layer, Path
from kerfline.sheets.plan_labels import NO_CUT, cut_allowed
from kerfline.sheets.plan_marks import (
    KEEP_OUT_PITCH,
    cross_ticks,
    joint_layer,
    rings_of,
    thickened_lines,
)
from kerfline.units import Display

SAMPLE = 16.0
"""Length of a line sample in mm."""

AMENDED = {
    Layer.CONTROL_NEW: "A  CTLJ  added control joint",
    Layer.CONTROL_EXISTING: "CTLJ  existing control joint",
    Layer.CONSTRUCTION_NEW: "A  CNTJ  added construction joint",
    Layer.CONSTRUCTION_EXISTING: "CNTJ  existing construction joint",
    Layer.ISOLATION_NEW: "A  ISOL  added isolation joint",
    Layer.ISOLATION_EXISTING: "ISOL  existing isolation joint",
}
"""What the lines of an amended plan mean."""

PITCH = 2.3
"""Distance of the legend's rows, in capital heights."""


@dataclass(frozen=True)
class Entry:
    """One row of the legend.

    Attributes:
        words: What the mark means.
        sample: Draws the mark in a box of 16 mm by the row's height, left middle at a point.
    """

    words: str
    sample: Callable[[Board, Point, float], None]


def legend(
    job: Job,
    layout: Layout,
    text: float,
    width: float,
    *,
    flags: bool = True,
    bars: Sequence[Bars] = (),
    tags: bool = True,
    details: bool = False,
) -> Figure:
    """The legend of what a plan shows.

    Args:
        job: The slab.
        layout: Its joints.
        text: Capital height in mm.
        width: Width in mm.
        flags: Whether the plan flags the re-entrant corners.
        bars: The bars at corners and tees that it shows.
        tags: Whether it names joints and panels.
        details: Whether the set has the details, which the entries then name.
    """
    slab, laid = job.slab, {b.place for b in bars}
    numbers = detail_numbers(job, layout, bars) if details else {}
    entries = [
        *_joint_entries(slab, layout, numbers),
        *_slab_entries(slab, numbers, flags=flags, laid=laid),
    ]
    if tags:
        entries.append(Entry("J1, P1  joint and panel, see tables", _tags))
    tall = heading_height(text) + (len(entries) + 0.3) * PITCH * text

    def paint(board: Board, at: Point, width: float) -> None:
        x, y = at
        y = draw_heading(board, at, width, "Legend", text)
        for i, entry in enumerate(entries):
            middle = y - (i + 0.6) * PITCH * text
            entry.sample(board, (x, middle), text)
            words = fitted(entry.words, text, width - SAMPLE - 3.0)
            board.text(Layer.TABLE, (x + SAMPLE + 3.0, middle - text / 2), words, text)

    return Figure(width=width, tall=tall, painter=paint)


def _joint_entries(slab: Slab, layout: Layout, numbers: Mapping[Shown, int]) -> list[Entry]:
    def say(words: str, shown: Shown) -> str:
        return f"{words}: detail {numbers[shown]}" if shown in numbers else words

    out = _amended_entries(layout)
    used = {j.kind for j in layout.joints} if layout.added is None else set()
    edges = {e.kind for e in slab.edges}
    if JointKind.CONTROL in used:
        out.append(
            Entry(say("CTLJ  control (contraction) joint", Shown.CONTROL), _line(Layer.CONTROL))
        )
    if JointKind.CONSTRUCTION in used or EdgeKind.CONSTRUCTION in edges:
        out.append(
            Entry(
                say("CNTJ  construction joint", Shown.CONSTRUCTION),
                _construction(Layer.CONSTRUCTION),
            )
        )
    boxed = any(c.outline for c in slab.columns)
    if JointKind.ISOLATION in used or EdgeKind.ISOLATED in edges or boxed:
        out.append(
            Entry(say("ISOL  isolation joint, full depth", Shown.ISOLATION), _line(Layer.ISOLATION))
        )
    out.append(Entry("slab edge (baselines: its outside face)", _line(Layer.EDGE)))
    return out


def _amended_entries(layout: Layout) -> list[Entry]:
    """What exists and what is added, by kind, on an amended plan; nothing on any other."""
    if layout.added is None:
        return []
    drawn = {joint_layer(j, layout) for j in layout.joints}
    return [Entry(words, _sample(layer)) for layer, words in AMENDED.items() if layer in drawn]


def _sample(layer: Layer) -> Callable[[Board, Point, float], None]:
    formed = layer in (Layer.CONSTRUCTION_NEW, Layer.CONSTRUCTION_EXISTING)
    return _construction(layer) if formed else _line(layer)


def _slab_entries(
    slab: Slab, numbers: Mapping[Shown, int], *, flags: bool, laid: Set[BarPlace]
) -> list[Entry]:
    column, at_corner, at_tee, edge, strip = (
        f": detail {numbers[shown]}" if shown in numbers else ""
        for shown in (Shown.COLUMN, Shown.CORNER, Shown.TEE, Shown.EDGE, Shown.STRIP)
    )
    out = []
    given = (
        (slab.openings, "O  opening through the slab", _opening),
        (slab.walls, "W  interior wall", _wall),
        (slab.columns, f"C  column in its boxout{column}", _column),
        (_in_rows(slab), "column grid line, named at the rim", _grid_line),
        (slab.penetrations, "N  pipe, drain, conduit or post", _penetration),
        (slab.falls, "the floor falls to its drain", _fall),
    )
    out += [Entry(words, sample) for there, words, sample in given if there]
    if slab.keep_outs:
        words = "no cut, or no deeper than the notes say" if _some_depth(slab) else "no cut here"
        out.append(Entry(f"K  {words}", _keep_out))
    if slab.zones or thickened_lines(slab):
        out.append(Entry("other thickness: zone, strip or edge", _line(Layer.ZONE)))
    out += [
        Entry(f"{words}{number}", _line(Layer.ZONE))
        for words, number in (("turned-down edge", edge), ("thickened strip", strip))
        if number
    ]
    if flags and slab.reentrant_corners:
        out.append(Entry("re-entrant corner, a joint leaves it", _corner))
    if BarPlace.CORNER in laid:
        out.append(Entry(f"corner without joint: bars{at_corner}", _line(Layer.BARS)))
    if BarPlace.TEE in laid:
        out.append(Entry(f"joint stops on another: bars{at_tee}", _line(Layer.BARS)))
    if numbers:
        out.append(Entry("number of a detail", _bubble))
    return out


def _some_depth(slab: Slab) -> bool:
    """Whether a saw may go some way into a keep-out."""
    return any(cut_allowed(k, Display.METRIC) != NO_CUT for k in slab.keep_outs)


def _line(layer: Layer) -> Callable[[Board, Point, float], None]:
    def draw(board: Board, at: Point, text: float) -> None:
        del text
        board.line(layer, at, (at[0] + SAMPLE, at[1]))

    return draw


def _construction(layer: Layer) -> Callable[[Board, Point, float], None]:
    def draw(board: Board, at: Point, text: float) -> None:
        _line(layer)(board, at, text)
        for tick in cross_ticks(shapely.LineString([at, (at[0] + SAMPLE, at[1])])):
            board.add(replace(tick, in_plan=False))

    return draw


def _swatch(at: Point, text: float) -> tuple[float, float, float, float]:
    return (at[0], at[1] - 0.75 * text, at[0] + SAMPLE, at[1] + 0.75 * text)


def _opening(board: Board, at: Point, text: float) -> None:
    x0, y0, x1, y1 = _swatch(at, text)
    board.box(Layer.OPENING, (x0, y0, x1, y1))
    board.line(Layer.OPENING, (x0, y0), (x1, y1), width=0.13)
    board.line(Layer.OPENING, (x0, y1), (x1, y0), width=0.13)


def _wall(board: Board, at: Point, text: float) -> None:
    area = shapely.box(at[0], at[1] - 0.4 * text, at[0] + SAMPLE, at[1] + 0.4 * text)
    board.add(Path(layer=Layer.WALL, points=rings_of(area)[0], closed=True))


def _keep_out(board: Board, at: Point, text: float) -> None:
    area = shapely.box(*_swatch(at, text))
    board.add(Path(layer=Layer.KEEP_OUT, points=rings_of(area)[0], closed=True))
    for line in hatch_lines(area, KEEP_OUT_PITCH):
        (ax, ay), (bx, by) = line.coords[0], line.coords[-1]
        board.line(Layer.KEEP_OUT, (ax, ay), (bx, by))


def _column(board: Board, at: Point, text: float) -> None:
    x, y = at[0] + SAMPLE / 2, at[1]
    far, near = 1.05 * text, 0.4 * text
    diamond = ((x - far, y), (x, y - far), (x + far, y), (x, y + far))
    board.add(Path(layer=Layer.ISOLATION, points=diamond, closed=True))
    post = ((x - near, y - near), (x + near, y - near), (x + near, y + near), (x - near, y + near))
    board.add(Fill(layer=Layer.COLUMN, rings=(post,), tone=0.35))


def _penetration(board: Board, at: Point, text: float) -> None:
    x, y = at[0] + SAMPLE / 2, at[1]
    board.circle(Layer.PENETRATION, (x, y), 0.6 * text)
    for dx, dy in ((0.9 * text, 0.0), (0.0, 0.9 * text)):
        board.line(Layer.PENETRATION, (x - dx, y - dy), (x + dx, y + dy), width=0.18)


def _fall(board: Board, at: Point, text: float) -> None:
    half = min(2.5 * text, SAMPLE / 2)
    x = at[0] + SAMPLE / 2
    board.add(*arrow((x - half, at[1]), (x + half, at[1]), "fall"))


def _corner(board: Board, at: Point, text: float) -> None:
    board.circle(Layer.SYMBOL, (at[0] + SAMPLE / 2, at[1]), 0.7 * text)


def _bubble(board: Board, at: Point, text: float) -> None:
    x, y = at[0] + SAMPLE / 2, at[1]
    board.circle(Layer.SYMBOL, (x, y), 0.95 * text)
    board.text(Layer.TABLE, (x, y - text / 2), "1", text, anchor=Anchor.MIDDLE)


def _in_rows(slab: Slab) -> bool:
    """Whether the columns stand in rows, whose lines the plan names."""
    return bool(column_grid(slab, baselines(slab)).along)


def _grid_line(board: Board, at: Point, text: float) -> None:
    x, y = at[0] + SAMPLE / 2, at[1]
    board.line(Layer.GRID, (at[0], y), (x - 1.0 * text, y))
    board.circle(Layer.GRID, (x, y), 1.0 * text)
    board.text(Layer.GRID_NAME, (x, y - text / 2), "1", text, anchor=Anchor.MIDDLE)


def _tags(board: Board, at: Point, text: float) -> None:
    board.text(
        Layer.TABLE, (at[0] + SAMPLE / 2, at[1] - text / 2), "J1  P1", text, anchor=Anchor.MIDDLE
    )
