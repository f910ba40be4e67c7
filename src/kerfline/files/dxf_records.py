"""Many texts and lines as one ready-made run of DXF records.

A set of sheets for a large floor holds tens of thousands of texts. The library writes each of them tag by
tag with its own checks, which takes most of a minute; these records are the same tags, written at once.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ezdxf.entities import DXFGraphic
from ezdxf.layouts import BaseLayout
from ezdxf.lldxf.tagwriter import AbstractTagWriter

from kerfline.files.dxf_shapes import is_oldest
from kerfline.geometry.ring import Point

PAPER_SPACE = " 67\n1\n"

NAME = "NAME"
"""Attribute of a tag's block."""


@dataclass(frozen=True)
class Ring:
    """The circle around the text of a block: centre and radius in drawing units, line width in hundredths of a mm."""

    centre: Point
    radius: float
    weight: int


@dataclass(frozen=True)
class TagBlock:
    """A block that tags are references to, and the circle around the text of one where it has a circle."""

    name: str
    ring: Ring | None = None


class Records(DXFGraphic):
    """An entity that stands for a run of records and writes them as they are."""

    DXFTYPE = "TEXT"
    records: Sequence[str] = ()

    def export_dxf(self, tagwriter: AbstractTagWriter) -> None:
        """Writes the records."""
        tagwriter.write_str("".join(self.records))


class RecordWriter:
    """Collects texts and lines for one layout.

    Attributes:
        space: Model space or a paper-space layout.
    """

    def __init__(self, space: BaseLayout) -> None:
        self.space = space
        self._records: list[str] = []
        self._database = space.doc.entitydb
        self._old = is_oldest(space.doc)
        self._head = (
            ""
            if self._old
            else f"330\n{space.layout_key}\n100\nAcDbEntity\n"
            + (PAPER_SPACE if space.is_any_paperspace else "")
        )

    def text(
        self,
        layer: str,
        at: Point,
        text: str,
        height: float,
        *,
        turn: float,
        align: int,
        style: str,
    ) -> None:
        """Adds a line of text; ``align`` is 0 for left, 1 for centred, 2 for right."""
        place = f"10\n{at[0]:.6f}\n20\n{at[1]:.6f}\n30\n0.0\n"
        second = f"11\n{at[0]:.6f}\n21\n{at[1]:.6f}\n31\n0.0\n" if align else ""
        self._records.append(
            f"0\nTEXT\n5\n{self._handle()}\n{self._head}8\n{layer}\n{self._class('AcDbText')}{place}"
            f"40\n{height:.6f}\n1\n{text}\n50\n{turn % 360.0:.6f}\n7\n{style}\n72\n{align}\n{second}"
            f"{self._class('AcDbText')}"
        )

    def tag(
        self,
        block: TagBlock,
        layer: str,
        at: Point,
        text: str,
        height: float,
        *,
        turn: float,
        align: int,
        style: str,
    ) -> None:
        """Adds a reference to a block whose one attribute, ``NAME``, holds a text, and which may be a circle; see ``text``."""
        insert = self._handle()
        here = f"10\n{at[0]:.6f}\n20\n{at[1]:.6f}\n30\n0.0\n"
        placed, weight = here, ""
        if ring := block.ring:
            (x, y), radius = ring.centre, f"{ring.radius:.6f}"
            placed = (
                f"10\n{x:.6f}\n20\n{y:.6f}\n30\n0.0\n41\n{radius}\n42\n{radius}\n43\n{radius}\n"
            )
            weight = f"370\n{ring.weight}\n"
        second = f"11\n{at[0]:.6f}\n21\n{at[1]:.6f}\n31\n0.0\n" if align else ""
        inner = self._head.replace(f"330\n{self.space.layout_key}\n", f"330\n{insert}\n")
        self._records.append(
            f"0\nINSERT\n5\n{insert}\n{self._head}8\n{layer}\n{weight}100\nAcDbBlockReference\n66\n1\n2\n{block.name}\n{placed}"
            f"0\nATTRIB\n5\n{self._handle()}\n{inner}8\n{layer}\n100\nAcDbText\n{here}"
            f"40\n{height:.6f}\n1\n{text}\n50\n{turn % 360.0:.6f}\n7\n{style}\n72\n{align}\n{second}"
            f"100\nAcDbAttribute\n2\n{NAME}\n70\n0\n"
            f"0\nSEQEND\n5\n{self._handle()}\n{inner}8\n{layer}\n"
        )

    def line(
        self, start: Point, end: Point, attribs: Mapping[str, object], extended: str = ""
    ) -> None:
        """Adds a straight line with the attributes of a mark, and extended data as ready records."""
        self._records.append(
            f"0\nLINE\n5\n{self._handle()}\n{self._head}{_attribs(attribs, old=self._old)}{self._class('AcDbLine')}"
            f"10\n{start[0]:.9f}\n20\n{start[1]:.9f}\n30\n0.0\n"
            f"11\n{end[0]:.9f}\n21\n{end[1]:.9f}\n31\n0.0\n{extended}"
        )

    def finish(self) -> None:
        """Puts the records into the layout."""
        if self._records:
            entity = Records.new(doc=self.space.doc)
            entity.records = tuple(self._records)
            self.space.add_entity(entity)

    def _class(self, name: str) -> str:
        """The marker of a class of entities, which the oldest form has not."""
        return "" if self._old else f"100\n{name}\n"

    def _handle(self) -> str:
        return self._database.next_handle()


_CODES = {"layer": 8, "linetype": 6, "lineweight": 370, "ltscale": 48, "color": 62}
"""Group codes of the attributes, in the order in which they are written."""


_NEW = ("lineweight", "ltscale")
"""Attributes that the oldest form has not."""


def _attribs(attribs: Mapping[str, object], *, old: bool) -> str:
    return "".join(
        f"{code}\n{attribs[name]}\n"
        for name, code in _CODES.items()
        if name in attribs and not (old and name in _NEW)
    )
