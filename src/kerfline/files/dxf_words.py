"""Words of a sheet as a drawing program knows them: paragraphs, title-block attributes and dimensions."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from ezdxf.document import Drawing
from ezdxf.layouts import Paperspace

from kerfline.files.dxf_marks import MarkWriter, plain_text
from kerfline.files.dxf_setup import STYLE, paper_dim_style
from kerfline.sheets.lettering import ASCENT, LINE_PITCH
from kerfline.sheets.marks import DIMENSION_TEXT, Layer, Mark, Measure, Sheet, Text
from kerfline.sheets.prose import PARAGRAPH
from kerfline.sheets.title_block import TITLE_FIELD

TITLE_BLOCK = "TITLE_BLOCK"
"""Block whose attributes hold the values of the title block."""

PITCH_OF_ONE = 5 / 3
"""Distance of lines of a paragraph at a spacing of 1, in heights of its text."""

ORDINATE_X = 6 | 32 | 64
ORDINATE_Y = 6 | 32
LINEAR = 32
"""Types of dimension, each with a block of its own."""

UPRIGHT = 90.0


def is_written_apart(mark: Mark) -> bool:
    """Whether a mark is written as a dimension, an attribute or part of a paragraph."""
    if not isinstance(mark, Text):
        return False
    return mark.ref == DIMENSION_TEXT or mark.ref.startswith((TITLE_FIELD, PARAGRAPH))


class WordWriter:
    """Writes the words of one sheet on its layout.

    Attributes:
        paper: The layout.
        unit: Millimetres in one drawing unit.
    """

    def __init__(self, document: Drawing, paper: Paperspace, unit: float) -> None:
        self.document = document
        self.paper = paper
        self.unit = unit

    def write(self, sheet: Sheet) -> None:
        """Writes paragraphs, title block and dimensions."""
        for lines in _paragraphs(sheet.texts):
            self._paragraph(lines)
        self._title([t for t in sheet.texts if t.ref.startswith(TITLE_FIELD)])
        style = paper_dim_style(self.document, self.unit, sheet.view.scale if sheet.view else 1.0)
        for measure in sheet.measures:
            self._dimension(measure, style)

    def _at(self, point: tuple[float, float]) -> tuple[float, float]:
        return (point[0] / self.unit, point[1] / self.unit)

    def _paragraph(self, lines: Sequence[Text]) -> None:
        first = lines[0]
        x, y = first.at
        self.paper.add_mtext(
            "\\P".join(_escaped(line.text) for line in lines),
            dxfattribs={
                "layer": first.layer.value,
                "style": STYLE,
                "char_height": first.height / self.unit,
                "insert": self._at((x, y + ASCENT * first.height)),
                "attachment_point": 1,
                "line_spacing_style": 2,
                "line_spacing_factor": LINE_PITCH / PITCH_OF_ONE,
            },
        )

    def _title(self, values: Sequence[Text]) -> None:
        if TITLE_BLOCK not in self.document.blocks:
            self.document.blocks.new(TITLE_BLOCK)
        block = self.document.blocks.get(TITLE_BLOCK)
        known = {definition.dxf.tag for definition in block.query("ATTDEF")}
        insert = self.paper.add_blockref(
            TITLE_BLOCK, (0, 0), dxfattribs={"layer": Layer.TITLE.value}
        )
        for text in values:
            tag = text.ref.removeprefix(TITLE_FIELD).upper()
            look = {
                "layer": text.layer.value,
                "style": STYLE,
                "height": text.height / self.unit,
            }
            if tag not in known:
                block.add_attdef(tag, self._at(text.at), dxfattribs={**look, "prompt": tag.lower()})
                known.add(tag)
            insert.add_attrib(tag, plain_text(text.text), self._at(text.at), dxfattribs=look)

    def _dimension(self, measure: Measure, style: str) -> None:
        """A dimension whose block holds its text as it is drawn, and its line."""
        block = self.document.blocks.new_anonymous_block(type_char="D")
        writer = MarkWriter(block, lambda p: p, 1.0, 0.0, self.unit)
        writer.write_all([measure.text])
        text, line = measure.text, measure.line
        kind = LINEAR
        if measure.running:
            kind = ORDINATE_Y if measure.upright else ORDINATE_X
        attribs = {
            "layer": Layer.DIMENSION.value,
            "dimstyle": style,
            "geometry": block.name,
            "dimtype": kind,
            "text": "<>" if not _told(text.text) else plain_text(text.text),
            "text_midpoint": self._at(text.at),
            "attachment_point": 5,
        }
        if measure.running:
            attribs |= {
                "defpoint": self._at(measure.start),
                "defpoint2": self._at(measure.end),
                "defpoint3": self._at(line),
            }
        else:
            attribs |= {
                "defpoint": self._at(line),
                "defpoint2": self._at(measure.start),
                "defpoint3": self._at(measure.end),
                "angle": UPRIGHT if measure.upright else 0.0,
            }
        self.paper.new_entity("DIMENSION", attribs)


def _told(text: str) -> bool:
    """Whether a text says more than its measure: equal bays as one."""
    return "@" in text


def _escaped(text: str) -> str:
    """Text of a paragraph, its signs of format as they stand."""
    plain = plain_text(text)
    return plain.replace("\\", "\\\\").replace("{", "\\{").replace("}", "\\}")


def _paragraphs(texts: Iterable[Text]) -> Iterator[list[Text]]:
    """The lines of each paragraph."""
    marked = [t for t in texts if t.ref.startswith(PARAGRAPH)]
    for _, run in groupby(marked, key=lambda t: (t.ref, t.at[0])):
        yield list(run)
