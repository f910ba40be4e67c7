"""Points of a site as field controllers exchange them: point, northing, easting, height, description.

Plain text, one point a line, commas between, no heading (RFC 4180 without a header line); eastings and
heights in the unit of the site. Some controllers want the easting first, which the job says.
"""

import csv
import io
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import FARTHEST
from kerfline.model.site import Site

DECIMALS = 4
"""Decimals of a coordinate: a tenth of a millimetre in metres, a thirtieth in feet."""

MOST_BYTES = 16 * 1024 * 1024
MOST_POINTS = 100_000
LEAST_CELLS = 3
"""Point, northing and easting; height and description may be left out."""


@dataclass(frozen=True, kw_only=True)
class SitePoint:
    """A point on site.

    Attributes:
        name: Its name.
        easting: mm.
        northing: mm.
        height: mm; None where it is not known.
        what: What it is; empty where nobody says.
    """

    name: str
    easting: float
    northing: float
    height: float | None = None
    what: str = ""

    @property
    def at(self) -> Point:
        """Easting and northing."""
        return (self.easting, self.northing)


def points_csv(points: Sequence[SitePoint], site: Site) -> bytes:
    """The points as a text file, in the site's unit and order."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    for point in points:
        northing, easting = written(point.northing, site), written(point.easting, site)
        pair = (easting, northing) if site.easting_first else (northing, easting)
        height = "" if point.height is None else written(point.height, site)
        writer.writerow((point.name, *pair, height, point.what))
    return text.getvalue().encode()


def written(mm: float, site: Site) -> str:
    """A coordinate in the site's unit."""
    return f"{round(mm / site.unit.mm, DECIMALS) + 0.0:.{DECIMALS}f}"


def read_points(path: Path, site: Site) -> dict[str, SitePoint]:
    """Reads the points of a survey by name.

    Args:
        path: A file as ``points_csv`` writes it; a first line of headings is passed over.
        site: Its unit, and which coordinate comes first.

    Raises:
        InputRefused: It cannot be read, or a line of it is no point; every such line is listed.
    """
    found: dict[str, SitePoint] = {}
    mistakes: list[Mistake] = []
    for number, cells in _rows(path):
        if number == 1 and not _is_number(cells, 1):
            continue  # headings
        point = _point(cells, site)
        if point is None:
            mistakes.append(_no_point(f"{path.name}, line {number}", cells, site))
        elif point.name in found:
            mistakes.append(
                Mistake(
                    what=f"point {point.name} stands there twice",
                    where=f"{path.name}, line {number}",
                    remedy="keep the one that holds",
                )
            )
        else:
            found[point.name] = point
    if mistakes or not found:
        raise InputRefused(
            *mistakes or (Mistake(what="this file holds no points", where=path.name),)
        )
    return found


def _rows(path: Path) -> list[tuple[int, list[str]]]:
    """The lines that say something, with their numbers."""
    try:
        data = path.read_bytes()
    except OSError as error:
        said = str(error.strerror or error).lower()
        raise InputRefused(
            Mistake(what=f"the survey cannot be read ({said})", where=str(path))
        ) from None
    try:
        text = data.decode("utf-8-sig")
        if len(data) > MOST_BYTES or "\x00" in text:
            raise ValueError
        rows = list(csv.reader(io.StringIO(text)))
    except (ValueError, csv.Error):
        raise InputRefused(
            Mistake(
                what="this is no file of points",
                where=path.name,
                allowed="lines of point, northing, easting, height, description",
            )
        ) from None
    told = [(n, row) for n, row in enumerate(rows, start=1) if any(cell.strip() for cell in row)]
    if len(told) > MOST_POINTS:
        raise InputRefused(
            Mistake(what=f"no survey has more than {MOST_POINTS:,} points", where=path.name)
        )
    return told


def _point(cells: Sequence[str], site: Site) -> SitePoint | None:
    if len(cells) < LEAST_CELLS or not cells[0].strip():
        return None
    first, second = (_number(cells, i, site) for i in (1, 2))
    height = _number(cells, 3, site)
    told = len(cells) > LEAST_CELLS and bool(cells[LEAST_CELLS].strip())
    if first is None or second is None or (told and height is None):
        return None
    easting, northing = (first, second) if site.easting_first else (second, first)
    what = cells[LEAST_CELLS + 1].strip() if len(cells) > LEAST_CELLS + 1 else ""
    return SitePoint(
        name=cells[0].strip(), easting=easting, northing=northing, height=height, what=what
    )


def _number(cells: Sequence[str], index: int, site: Site) -> float | None:
    """A coordinate in mm; None where there is none."""
    if not _is_number(cells, index):
        return None
    mm = float(cells[index]) * site.unit.mm
    return mm if abs(mm) < FARTHEST else None


def _is_number(cells: Sequence[str], index: int) -> bool:
    try:
        return math.isfinite(float(cells[index]))
    except (IndexError, ValueError):
        return False


def _no_point(where: str, cells: Sequence[str], site: Site) -> Mistake:
    order = "easting, northing" if site.easting_first else "northing, easting"
    return Mistake(
        what="this is no point",
        where=where,
        found=",".join(cells),
        allowed=f"point, {order}, height, description",
        remedy='numbers stand without units; the order is that of "first" under [site]',
    )


def survey_csv(rows: Sequence[Mapping[str, str]]) -> bytes:
    """A table with headings, such as that of a survey held against the plan."""
    text = io.StringIO()
    writer = csv.DictWriter(text, list(rows[0]) if rows else [], lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue().encode()
