"""Details in plan: a column's boxout, bars across a corner and ahead of a joint that stops on another."""

from kerfline.geometry.ring import Point
from kerfline.model.bars import BAR_FIRST, BAR_LENGTH, BAR_NUMBER, BAR_PITCH, CORNER_BARS, TEE_BARS
from kerfline.model.job import Job
from kerfline.model.slab import Column
from kerfline.sheets.detail_marks import PLAN_SIDE, Detail, scale_for, trade_size
from kerfline.sheets.marks import Board, Fill, Layer, Path
from kerfline.sheets.plan_marks import POST_SHARE
from kerfline.sheets.under_slab import METRIC_BARS
from kerfline.units import Display, counted, format_length

PLAN_SCALE = {Display.FEET_INCHES: 24.0, Display.METRIC: 25.0}
ARM = 8.0
"""How far the joints reach beyond a boxout, mm of paper."""

BAR_SCALE = {Display.FEET_INCHES: 32.0, Display.METRIC: 50.0}


def boxout_detail(job: Job, column: Column) -> Detail:
    """A column in its boxout, and the joints that meet it."""
    outline = column.outline
    scale = scale_for(column.size * 0.75, PLAN_SIDE - ARM, PLAN_SCALE[job.display])
    arm = column.size * 0.75 / scale + ARM

    def draw(board: Board, at: Point) -> None:
        x, top = at
        y = top - arm
        if outline is None:
            return
        cx, cy = column.at
        points = tuple((x + (px - cx) / scale, y + (py - cy) / scale) for px, py in outline.points)
        board.add(Path(layer=Layer.ISOLATION, points=points, bulges=outline.bulges, closed=True))
        half = column.size * POST_SHARE / 2 / scale
        post = (
            (x - half, y - half),
            (x + half, y - half),
            (x + half, y + half),
            (x - half, y + half),
        )
        board.add(Fill(layer=Layer.COLUMN, rings=(post,), tone=0.35))
        start = _reach(column) / scale
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            board.line(
                Layer.CONTROL, (x + dx * start, y + dy * start), (x + dx * arm, y + dy * arm)
            )

    shape = column.boxout.value
    words = (
        f"{shape.capitalize()} boxout {format_length(column.size, job.display)} "
        f"{'across' if column.is_round else 'a side'}; joints meet its points, its edge is an "
        "isolation joint. Fill it after the column is loaded."
    )
    return Detail("Column boxout (plan)", words, scale, 2 * arm, draw)


def _reach(column: Column) -> float:
    """From the column's centre to where a joint along its axes meets the boxout, mm."""
    half = column.size / 2
    return half * 2**0.5 if column.points else half


def corner_detail(job: Job) -> Detail:
    """Bars across a corner that no joint leaves."""
    count, length = _count(job.steel.corner_bars, CORNER_BARS), job.steel.bar_length or BAR_LENGTH
    scale = scale_for(length / 2, PLAN_SIDE, BAR_SCALE[job.display])
    arm = length * 0.45 / scale

    def draw(board: Board, at: Point) -> None:
        x, top = at
        y = top - arm
        board.line(Layer.EDGE, (x, y + arm), (x, y), (x + arm, y))
        lean = 0.5**0.5
        half = length / 2 / scale * lean
        for i in range(count):
            off = (BAR_FIRST + i * BAR_PITCH) / scale * lean
            cx, cy = x - off, y - off
            board.line(Layer.BARS, (cx - half, cy + half), (cx + half, cy - half))

    words = (
        f"{_bars(job, count)} {trade_size(length, job.display)} long across a re-entrant corner that no joint "
        f"leaves, first {trade_size(BAR_FIRST, job.display)} off the corner, {_placing(job)}"
    )
    return Detail("Bars at a corner (plan)", words, scale, 2 * arm + 1.0, draw)


def tee_detail(job: Job) -> Detail:
    """Bars ahead of a joint that stops on another."""
    count, length = _count(job.steel.tee_bars, TEE_BARS), job.steel.bar_length or BAR_LENGTH
    scale = scale_for(length * 0.55, PLAN_SIDE - 3.0, BAR_SCALE[job.display])
    arm = length * 0.55 / scale
    ahead = (BAR_FIRST + count * BAR_PITCH) / scale

    def draw(board: Board, at: Point) -> None:
        x, top = at
        y = top - ahead
        board.line(Layer.CONTROL, (x - arm - 3.0, y), (x + arm + 3.0, y))
        board.line(Layer.CONTROL, (x, y), (x, y - arm / 2))
        half = length / 2 / scale
        for i in range(count):
            up = y + (BAR_FIRST + i * BAR_PITCH) / scale
            board.line(Layer.BARS, (x - half, up), (x + half, up))

    words = (
        f"{_bars(job, count)} {trade_size(length, job.display)} long beyond a joint that another one stops on, "
        f"square to the one that stops, first {trade_size(BAR_FIRST, job.display)} off, {_placing(job)}"
    )
    return Detail("Bars at a tee (plan)", words, scale, ahead + arm / 2 + 1.0, draw)


def _count(asked: int | None, usual: int) -> int:
    return usual if asked is None else asked


def _bars(job: Job, count: int) -> str:
    number = job.steel.bar or BAR_NUMBER
    feet = job.display is Display.FEET_INCHES
    size = f"No. {number}" if feet or number not in METRIC_BARS else METRIC_BARS[number]
    return counted(count, f"{size} bar")


def _placing(job: Job) -> str:
    apart = trade_size(BAR_PITCH, job.display)
    return f"{apart} apart, in the upper half (common practice; the designer decides)."
