"""A page of a PDF as a drawing in real size."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve, Label
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import DrawnUnit
from kerfline.files.plan_pdf.page_content import PageContent, page_content
from kerfline.files.plan_pdf.page_objects import Content, Drawn
from kerfline.files.plan_pdf.page_scale import (
    AGREE,
    dimensioned_scale,
    titled_scale,
    written_scales,
)
from kerfline.geometry.ring import Point
from kerfline.sheets.paper import scale_words
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display, Unit, counted, parse_scale

FEW_PATHS = 4
"""A page with no more paths than this beside a picture is the picture and its frame."""

PICTURE = 0.3
"""A page that pictures cover by more than this share, with hardly a line on it, is a picture."""

FEET_PER_INCH = (1, 2, 4, 16 / 3, 8, 32 / 3, 16, 32, 10, 20, 30, 40, 50, 60, 100)
"""Feet of the real thing in an inch of paper: architects' scales, then engineers'."""

METRIC_SCALES = frozenset({10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 500, 1000})

BORDER = "border of the sheet"
MARGIN = 25.0
"""A rectangle no farther than this from every edge of the page is the border of the sheet, mm (the widest margin
of ISO 5457, 4.2, is 20, on the side where sheets are bound; quoted from memory)."""

SLIVER = 0.5
"""By how much the corners of a border may be off, mm."""

PLACES = 2
"""Decimals of a mm of the real thing: a page holds no more."""

SAY_SCALE = "--scale '1/8 in = 1 ft' or --scale 1:100"


@dataclass(frozen=True, kw_only=True)
class PageChoice:
    """What the user says of the page.

    Attributes:
        page: Its number, from 1; 0 where he does not say.
        scale: Its scale as text; empty where he does not say.
        units: Unit of the job; None leaves it to the scale.
    """

    page: int = 0
    scale: str = ""
    units: Unit | None = None


@dataclass(frozen=True)
class _Scale:
    """A scale as its denominator, whether the user stated it, and whether the page did."""

    of: float
    told: bool = False
    written: bool = False


def read_pdf(path: Path, choice: PageChoice | None = None) -> Drawing:
    """Reads a page of a PDF.

    Args:
        path: The PDF.
        choice: Which page and which scale.

    Returns:
        The drawing in mm of the real thing, the lower left corner of the page at 0, 0; its layers are those
        that the PDF marks, else one for each pen.

    Raises:
        InputRefused: The page cannot be read, is a picture, or its scale must be asked for.
    """
    choice = choice or PageChoice()
    page = page_content(path, choice.page)
    _refuse_picture(path, page)
    return _drawing(path, page, _scale(path, page, choice), choice.units)


def _drawing(path: Path, page: PageContent, scale: _Scale, units: Unit | None) -> Drawing:
    content = page.content
    drawn = (_bordered(d, page.size) for d in content.paths if not d.filled)
    curves = tuple(_curve(d, scale.of) for d in drawn)
    texts = [Label(layer="text", text=t.text, at=t.at).scaled(scale.of) for t in content.texts]
    unit = _unit(scale, units)
    return Drawing(
        path=path,
        curves=curves,
        drawn_in=unit,
        declared=unit,
        told=scale.told,
        sure=True,
        labels=tuple(texts),
        fills=tuple(_curve(d, scale.of) for d in content.paths if d.filled and d.path.closed),
        counts=dict(sorted(Counter((c.layer, c.kind) for c in curves).items())),
        ignored=_ignored(content),
        notes=tuple(_notes(page)),
    )


def _bordered(drawn: Drawn, size: Point) -> Drawn:
    """A path on a layer that is called so where it is the border of the sheet: a rectangle along all its edges."""
    path = drawn.path
    if not path.closed or path.bulges:
        return drawn
    xs, ys = [x for x, _ in path.points], [y for _, y in path.points]
    margins = (min(xs), min(ys), size[0] - max(xs), size[1] - max(ys))
    at_edges = all(min(x - min(xs), max(xs) - x) < SLIVER for x in xs) and all(
        min(y - min(ys), max(ys) - y) < SLIVER for y in ys
    )
    return replace(drawn, layer=BORDER) if at_edges and max(margins) <= MARGIN else drawn


def _curve(drawn: Drawn, scale: float) -> Curve:
    points = tuple(
        (round(x * scale, PLACES), round(y * scale, PLACES)) for x, y in drawn.path.points
    )
    path = replace(drawn.path, points=points)
    return Curve(layer=drawn.layer, kind="PATH", path=path, width=drawn.width * scale)


def _unit(scale: _Scale, units: Unit | None) -> DrawnUnit:
    """The unit of the drawing, mm by now, under the name of its scale."""
    metric = scale.of in METRIC_SCALES
    job = units or (Unit.MM if metric else Unit.FT)
    words = scale_words(scale.of, Display.METRIC if metric else Display.FEET_INCHES)
    source = "" if scale.told or scale.written else " by its dimensions"
    return DrawnUnit(said="", name=f"paper at {words}{source}", mm=1.0, job=job)


def _ignored(content: Content) -> dict[str, int]:
    found = {"text": len(content.texts), "filled area": sum(d.filled for d in content.paths)}
    return {kind: count for kind, count in {**found, **content.passed}.items() if count}


def _notes(page: PageContent) -> list[str]:
    (width, height), outside = page.size, page.content.outside
    notes = [f"Page {page.number} of the PDF is {width:.0f} x {height:.0f} mm."]
    if outside:
        notes.append(f"{counted(outside, 'path')} outside the visible part of the page left out.")
    if page.content.hatched:
        notes.append(f"{counted(page.content.hatched, 'stroke')} of hatches left out.")
    return notes


def _refuse_picture(path: Path, page: PageContent) -> None:
    content = page.content
    lines = sum(not d.filled for d in content.paths)
    if lines > FEW_PATHS or (lines and content.pictures <= PICTURE):
        return
    where = f"{path.name}, page {page.number}"
    if content.pictures > PICTURE:
        raise InputRefused(
            Mistake(
                what="this page is a picture, not lines",
                where=where,
                remedy=DRAW,
            )
        )
    raise InputRefused(
        Mistake(
            what="there are no lines on this page that could be a plan",
            where=where,
            remedy="say which page holds the plan, as --page 2 (page = 2 under [drawing])",
        )
    )


DRAW = "lay it under the page (kerfline view, Picture underneath) and trace over it, or write the slab's sizes"


def _scale(path: Path, page: PageContent, choice: PageChoice) -> _Scale:
    """The scale that the user states, else the page's title block, else its dimensions where they agree.

    Raises:
        InputRefused: None of them does, or they do not agree.
    """
    if choice.scale:
        return _Scale(parse_scale(choice.scale), told=True)
    content = page.content
    written = written_scales([t.text for t in content.texts])
    measured = dimensioned_scale(content.paths, content.texts)
    if len(written) == 1 and (measured is None or abs(measured / written[0] - 1) <= AGREE):
        return _Scale(written[0], written=True)
    titled = titled_scale(content.texts)
    if titled and measured is None:
        return _Scale(titled, written=True)
    agreeing = [s for s in written if measured and abs(measured / s - 1) <= AGREE]
    if len(agreeing) == 1:
        return _Scale(agreeing[0], written=True)
    if measured and not written:
        return _Scale(_rounded(measured))
    raise InputRefused(_which_scale(path, page, written, measured))


def _rounded(measured: float) -> float:
    """The usual scale that dimensions mean; their own where it is none."""
    usual = [float(scale) for scale in METRIC_SCALES]
    usual += [round(MM_PER_FOOT / MM_PER_INCH * feet, 6) for feet in FEET_PER_INCH]
    near = min(usual, key=lambda s: abs(measured / s - 1))
    return near if abs(measured / near - 1) <= AGREE else measured


def _which_scale(
    path: Path, page: PageContent, written: Sequence[float], measured: float | None
) -> Mistake:
    told = [_words(s) for s in written]
    if measured:
        what = "the page and its dimensions do not state one scale"
        found = f"{' and '.join(told)} written, 1:{measured:.1f} by the dimensions"
    elif told:
        what, found = "the page states several scales", ", ".join(told)
    else:
        what, found = "the page does not state its scale", ""
    return Mistake(
        what=what,
        where=f"{path.name}, page {page.number}",
        found=found,
        remedy=f"say the scale of the plan, as {SAY_SCALE}",
    )


def _words(scale: float) -> str:
    return scale_words(scale, Display.METRIC if scale in METRIC_SCALES else Display.FEET_INCHES)
