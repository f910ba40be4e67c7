"""The cut sheet's table and lists in words."""

from collections import defaultdict
from collections.abc import Sequence

from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import BearingRule
from kerfline.placement.cut_ends import EndAt, SawnEnd
from kerfline.sheets.baselines import Baselines, Way, baselines
from kerfline.sheets.cut.areas import CutArea, slab_in
from kerfline.sheets.cut.lines import CutLine, Saw, diagonal, square_check
from kerfline.sheets.plan_labels import keep_out_words
from kerfline.sheets.prose import Prose
from kerfline.sheets.running import between, dimension_text, place_words
from kerfline.sheets.table import Column, Table
from kerfline.sheets.tie_marks import READING
from kerfline.sheets.ties import Ties
from kerfline.units import Display, counted, format_depth, format_length, format_run

WRITE_IN = 7.5
"""Height in mm of a row that is written in with a pencil."""

CREW_CAUTIONS = (
    ("Silica dust: water fed to the blade without a break, or a vacuum made for the saw; respirator as local "
    "rules ask. Hearing protection: a joint cutter passes 100 dB. Eyes, boots, guards on."),
    ("Find tubing, conduit and tendons before cutting. Keep out of every hatched area but where this "
    "sheet gives a depth. Where a service is not found for certain, do not cut."),
    ("Trial cut first: wait if the edges ravel. Stop where a crack is there already or runs ahead of the blade, and "
    "do not saw beside a crack."),
    ("Vacuum slurry at once, put the cure back, keep it out of the groove. Light the line; do not rely on "
    "headlights. Fresh concrete and slurry burn skin."),
    "Local rules and the designer come before this sheet.",
)  # fmt: skip


MOST_KNEES = 2
"""A line that bends more often is a curve, whose points no crew measures one by one."""


def cut_table(
    job: Job, cuts: Sequence[CutLine], saw: Saw, text: float, start: str = "corner A"
) -> Table:
    """All lines with offsets from a start, depth, method, ends and boxes to write in."""
    display = job.display
    unit = "" if display is Display.FEET_INCHES else ", mm"
    return Table(
        heading=f"Cuts in order (offsets from {start}{unit}; {saw.method.value} saw)",
        columns=(
            Column("cut"),
            Column("joint"),
            Column("line at"),
            Column("start", right=True),
            Column("end", right=True),
            Column("length", right=True),
            Column("depth", right=True),
            Column("slab", right=True),
            Column("window"),
            Column("at the ends", widest=62.0),
            Column("measured|depth"),
            Column("time cut", least=16.0),
        ),
        rows=tuple(_row(cut, job) for cut in cuts),
        text=text,
        tall=WRITE_IN,
    )


def _row(cut: CutLine, job: Job) -> tuple[str, ...]:
    display = job.display
    at, start, end = _places(cut, display)
    return (
        f"{cut.number}",
        cut.joint,
        at,
        start,
        end,
        dimension_text(_length(cut, display), display),
        format_depth(cut.depth, display),
        format_depth(cut.thickness, display),
        cut.window,
        ends_words(cut, display),
        "",
        "",
    )


def _length(cut: CutLine, display: Display) -> float:
    """Length of a cut; of a square one the difference of its ends as they are written."""
    if cut.way is Way.UPRIGHT:
        return between(cut.start[1], cut.end[1], display)
    if cut.way is Way.LEVEL:
        return between(cut.start[0], cut.end[0], display)
    return cut.length


def _places(cut: CutLine, display: Display) -> tuple[str, str, str]:
    """Where the line lies, and where on it the cut starts and ends."""

    def say(mm: float) -> str:
        return dimension_text(mm, display)

    x, y = ((a + b) / 2 for a, b in zip(cut.start, cut.end, strict=True))
    if cut.way is Way.UPRIGHT:
        return f"{say(x)} right", f"{say(cut.start[1])} up", f"{say(cut.end[1])} up"
    if cut.way is Way.LEVEL:
        return f"{say(y)} up", f"{say(cut.start[0])} right", f"{say(cut.end[0])} right"
    ends = [_place(spot, display) for spot in (cut.start, cut.end)]
    return "bent" if cut.knees else "slanting", ends[0], ends[1]


def _place(spot: Point, display: Display) -> str:
    x, y = (dimension_text(offset, display) for offset in spot)
    return f"{x} right, {y} up"


def corner_name(area: CutArea | None) -> str:
    """Name of the corner that a sheet measures from: A, or A2 at the second placement."""
    return f"A{area.id}" if area else "A"


def start_name(area: CutArea | None, base: Baselines) -> str:
    """What offsets are measured from: corner A, or point A where the slab has no corner there."""
    return f"{'corner' if base.corner else 'point'} {corner_name(area)}"


def _corner_words(job: Job, area: CutArea) -> str:
    """Where an area's own corner lies, measured from the slab's corner A."""
    whole, own = baselines(job.slab), baselines(job.slab, area.region)
    kind = "Corner" if own.corner else "Point"
    return f"{kind} {corner_name(area)} lies {place_words(whole, own, job.display)} of the slab."


def how_to_read(
    job: Job, area: CutArea | None, base: Baselines, tied: Ties, text: float, width: float
) -> Prose:
    """What the marks mean and where to measure from."""
    face = "slab edge or form" if area else "slab edge"
    start = start_name(area, base)
    if not base.corner:
        start = f"{start}, where both baselines meet"
    words = [
        "Numbers in circles: cutting order. Dot: start. Tick: end.",
        f"Measure every offset from {start}, along the outside face of the {face}; do not add up.",
    ]
    if tied.points:
        words.append(READING)
    words.extend(keep_out_words(slab_in(area, job.slab) if area else job.slab, job.display))
    if area:
        words.append(_corner_words(job, area))
        words.append("Grey concrete is on other sheets. A cut has the same number on every sheet.")
    return Prose("How to read", tuple(words), text, width, first=0)


def ends_words(cut: CutLine, display: Display) -> str:
    """What stands at the ends and how much is left to finish by hand."""
    words = [
        f"{name} at construction joint" if formed else _end_words(name, end, display)
        for name, end, formed in zip(("start", "end"), cut.ends, cut.formed, strict=True)
    ]
    said = [w for w in words if w]
    if 0 < len(cut.knees) <= MOST_KNEES and cut.way is Way.SLANTING:
        said.extend(f"bends at {_unbroken(_place(knee, display))}" for knee in cut.knees)
    if cut.under_wall:
        said.append("cut before the wall stands")
    return "; ".join(said) if said else "runs out"


def _end_words(name: str, end: SawnEnd, display: Display) -> str:
    left = _unbroken(format_depth(end.cut.surface, display))
    past = _unbroken(format_depth(end.cut.run_out, display))
    if end.meets is EndAt.WALL:
        return f"{name} stops short at wall: leaves {left}, finish by hand"
    if end.meets is EndAt.BOXOUT:
        return f"{name}: boxout, stop at its edge, finish {past} by hand"
    if end.meets is EndAt.OPENING:
        return f"{name}: opening, do not run past a corner"
    if end.meets is EndAt.JOINT:
        return f"{name} on a joint"
    return ""


def _unbroken(words: str) -> str:
    """Words that stay on one line."""
    return words.replace(" ", "\u00a0")


def totals(job: Job, cuts: Sequence[CutLine], saw: Saw, text: float, width: float) -> Prose:
    """Total length for each depth and thickness, and the blade that cuts it."""
    sums: dict[tuple[float, float], list[float]] = defaultdict(list)
    for cut in cuts:
        sums[(round(cut.depth, 1), round(cut.thickness, 1))].append(cut.length)
    lines = [
        f"{format_depth(depth, job.display)} deep in {format_depth(thick, job.display)} slab: "
        f"{counted(len(lengths), 'line')}, {format_run(sum(lengths), job.display)}"
        for (depth, thick), lengths in sorted(sums.items())
    ]
    if lines:
        blade = format_depth(saw.blade, job.display)
        lines.append(f"Saw: {saw.method.value}, blade {blade}: set the depth before each change.")
    return Prose("Totals", tuple(lines) or ("No line is sawn.",), text, width, first=0)


def squareness(
    job: Job,
    layout: Layout,
    base: Baselines,
    area: CutArea | None,
    text: float,
    width: float,
) -> Prose:
    """The diagonals that prove the layout square before the first cut."""
    sides = square_check(job, layout, base, area.region if area else None)
    corner = corner_name(area)
    if sides is None:
        words: tuple[str, ...] = ("Square the first line off the longest straight edge by 3-4-5.",)
    else:
        x, y = (format_length(side, job.display) for side in sides)
        both = format_length(diagonal(sides), job.display)
        words = (
            f"Corner {corner}, {x} right, {y} up: both diagonals {both}.",
            "Equal diagonals prove it square only where opposite sides are equal: tape the sides too.",
        )
    return Prose("Square check", words, text, width, first=0)


def _them(cuts: Sequence[CutLine]) -> str:
    return "them" if len(cuts) > 1 else "it"


def _cuts(cuts: Sequence[CutLine]) -> str:
    """The numbers of cuts in words: ``Cut 3``, ``Cuts 3, 7``, ``Cuts 3, 5 to 9``."""
    runs: list[list[int]] = []
    for number in sorted(cut.number for cut in cuts):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return f"Cut{'s' if len(cuts) > 1 else ''} {', '.join(map(_run, runs))}"


def _run(numbers: Sequence[int]) -> str:
    """Numbers that follow on one another: each of two, the first and the last of more."""
    first, last = numbers[0], numbers[-1]
    if last - first > 1:
        return f"{first} to {last}"
    return ", ".join(str(number) for number in numbers)


def by_hand(cuts: Sequence[CutLine], text: float, width: float) -> Prose | None:
    """Lines that a saw cannot finish."""
    short = [c for c in cuts if any(e.meets in (EndAt.WALL, EndAt.BOXOUT) for e in c.ends)]
    if not short:
        return None
    ends = "end" if len(short) > 1 else "ends"
    words = (
        f"{_cuts(short)} {ends} at a wall or a boxout. A round blade leaves the end uncut: finish it by hand "
        "grinder or groover to full depth, or the crack will choose its own way. Add the reach of your saw's "
        "guard to the lengths in the table."
    )
    return Prose("Finish by hand", (words,), text, width, first=0)


def before_walls(job: Job, cuts: Sequence[CutLine], text: float, width: float) -> Prose | None:
    """Lines that nobody can reach once the walls stand."""
    hidden = [c for c in cuts if c.hidden]
    doweled = any(w.bearing_rule is BearingRule.DOWELED and w.bearing for w in job.slab.walls)
    if not hidden:
        return None
    under = [c for c in hidden if c.under_wall]
    ending = [c for c in hidden if not c.under_wall]
    words = [f"{_cuts(under)}: a wall will stand on {_them(under)}."] if under else []
    if ending:
        words.append(f"{_cuts(ending)}: a wall will stand on a short piece of {_them(ending)}.")
    if doweled:
        words.append("A bearing wall stands on a doweled joint: see the designer's detail first.")
    return Prose("Before walls stand", tuple(words), text, width, first=0)
