"""Pages of PDFs printed by a library, and our own sheets, read back as drawings in real size."""

import io
import math
from pathlib import Path

import pytest
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from kerfline.app.deliver import contents
from kerfline.app.live import outcome_of
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.files.plan_pdf import page_content
from kerfline.files.plan_pdf.page_objects import content_of
from kerfline.files.plan_pdf.pdf_file import opened_page
from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf
from kerfline.model.slab import Slab
from kerfline.units import Unit

FOOT = 304.8
WISHES = Wishes(thickness="4 in")


class Sheet:
    """A page that a plan is printed on; lengths of the plan in mm of the real thing."""

    def __init__(self, path: Path, scale: float = 96.0, at=(40.0, 60.0), **settings) -> None:
        self.path = path
        self.canvas = Canvas(str(path), pagesize=(432 * mm, 279 * mm), **settings)
        self.scale = scale
        self.at = at

    def to_page(self, x: float, y: float) -> tuple[float, float]:
        return tuple((c / self.scale + o) * mm for c, o in zip((x, y), self.at, strict=True))

    def ring(self, points, width: float = 0.5) -> None:
        path = self.canvas.beginPath()
        path.moveTo(*self.to_page(*points[0]))
        for point in points[1:]:
            path.lineTo(*self.to_page(*point))
        path.close()
        self.canvas.setLineWidth(width * mm)
        self.canvas.drawPath(path)

    def line(self, start, end, width: float = 0.18) -> None:
        self.canvas.setLineWidth(width * mm)
        self.canvas.line(*self.to_page(*start), *self.to_page(*end))

    def dimension(self, start, end, text: str) -> None:
        """A line with its length over its middle."""
        self.line(start, end)
        middle = [(a + b) / 2 for a, b in zip(start, end, strict=True)]
        turn = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
        self.canvas.saveState()
        self.canvas.translate(*self.to_page(*middle))
        self.canvas.rotate(turn)
        self.canvas.setFont("Helvetica", 7)
        self.canvas.drawCentredString(0, 2, text)
        self.canvas.restoreState()

    def text(self, x: float, y: float, words: str) -> None:
        """A text at a place on the paper, mm."""
        self.canvas.setFont("Helvetica", 8)
        self.canvas.drawString(x * mm, y * mm, words)

    def title_block(self, scale: str) -> None:
        self.canvas.setLineWidth(0.7 * mm)
        self.canvas.rect(10 * mm, 10 * mm, 412 * mm, 259 * mm)
        self.canvas.rect(340 * mm, 10 * mm, 82 * mm, 40 * mm)
        for x, y, words in ((342, 44, "PROJECT"), (342, 34, "DRAWN"), (342, 24, "SCALE")):
            self.text(x, y, words)
        self.text(342, 19, scale)

    def house(self) -> None:
        """An L, 40 by 28 ft, with a pit and a wall of two lines."""
        corners = [(0, 0), (40, 0), (40, 20), (28, 20), (28, 28), (0, 28)]
        self.ring([(x * FOOT, y * FOOT) for x, y in corners])
        self.ring([(x * FOOT, y * FOOT) for x, y in ((5, 20), (8, 20), (8, 24), (5, 24))], 0.35)
        for y in (10 * FOOT, 10 * FOOT + 114.3):
            self.line((0, y), (24 * FOOT, y))

    def save(self) -> Path:
        self.canvas.showPage()
        self.canvas.save()
        return self.path


HOUSE = (40 * 20 + 28 * 8) * FOOT**2


def outline_of(slab: Slab) -> list[tuple[float, float]]:
    """The corners of a slab from its own lower left, in feet to a hundredth."""
    x0, y0, *_ = slab.outline.polygon.bounds
    return sorted(
        (round((x - x0) / FOOT, 2), round((y - y0) / FOOT, 2)) for x, y in slab.outline.points
    )


def printed(path: Path, written: str = "", scale: float = 96.0, **settings) -> Path:
    sheet = Sheet(path, scale, **settings)
    sheet.title_block(written)
    sheet.house()
    return sheet.save()


@pytest.mark.parametrize(
    ("scale", "written", "unit"),
    [
        (96.0, '1/8" = 1\'-0"', Unit.FT),
        (64.0, "3/16 in = 1 ft", Unit.FT),
        (100.0, "1:100", Unit.MM),
        (120.0, "1\" = 10'", Unit.FT),
    ],
)
def test_the_scale_of_the_title_block(tmp_path, scale, written, unit):
    job = open_job(printed(tmp_path / "plan.pdf", written, scale), WISHES)
    assert job.units is unit
    assert outline_of(job.slab) == [(0, 0), (0, 28), (28, 20), (28, 28), (40, 0), (40, 20)]
    assert job.slab.outline.polygon.area == pytest.approx(HOUSE, rel=1e-5)
    assert [round(w.thickness) for w in job.slab.walls] == [114]
    assert any("as the drawing says" in sentence for sentence in job.reading)


def test_the_scale_that_the_user_says_wins(tmp_path):
    path = printed(tmp_path / "plan.pdf", "1:100", 96.0)
    job = open_job(path, Wishes(thickness="4 in", scale="1/8 in = 1 ft"))
    assert job.slab.outline.polygon.area == pytest.approx(HOUSE, rel=1e-5)
    assert any("as you say" in sentence for sentence in job.reading)
    job = open_job(path, Wishes(thickness="4 in", scale="1:96", units=Unit.M))
    assert job.units is Unit.M
    assert job.slab.outline.polygon.area == pytest.approx(HOUSE, rel=1e-5)


def dimensioned(path: Path, scale: float, texts: tuple[str, ...], written: str = "") -> Path:
    sheet = Sheet(path, scale)
    sheet.title_block(written)
    sheet.house()
    ends = (((0, -3), (40, -3)), ((-3, 0), (-3, 28)), ((0, 31), (28, 31)), ((43, 0), (43, 20)))
    for (start, end), text in zip(ends, texts, strict=True):
        sheet.dimension(*[(x * FOOT, y * FOOT) for x, y in (start, end)], text)
    return sheet.save()


FEET = ("40'-0\"", "28'-0\"", "28'-0\"", "20'-0\"")


def test_the_scale_that_dimensions_agree_on(tmp_path):
    drawing = read_pdf(dimensioned(tmp_path / "plan.pdf", 96.0, FEET))
    assert drawing.drawn_in.name == 'paper at 1/8" = 1\'-0" by its dimensions'
    metric = tuple(f"{feet * FOOT:.0f}" for feet in (40, 28, 28, 20))
    drawing = read_pdf(dimensioned(tmp_path / "metric.pdf", 50.0, metric))
    assert drawing.drawn_in.name == "paper at 1:50 by its dimensions"


def test_a_scale_that_the_dimensions_deny_is_asked_about(tmp_path):
    """A page that was printed smaller: it says 1/8 in to the foot, and its dimensions say half of it."""
    path = dimensioned(tmp_path / "plan.pdf", 192.0, FEET, '1/8" = 1\'-0"')
    with pytest.raises(InputRefused) as refused:
        read_pdf(path)
    said = str(refused.value)
    assert "the page and its dimensions do not state one scale" in said
    assert '1/8" = 1\'-0" written, 1:192.0 by the dimensions' in said
    assert "--scale" in said


def test_dimensions_choose_among_several_scales(tmp_path):
    sheet = Sheet(tmp_path / "plan.pdf", 96.0)
    sheet.house()
    sheet.text(200, 20, '1/8" = 1\'-0"')
    sheet.text(300, 20, 'DETAIL 1 1/2" = 1\'-0"')
    with pytest.raises(InputRefused, match="the page states several scales"):
        read_pdf(sheet.save())
    path = dimensioned(tmp_path / "two.pdf", 96.0, FEET)
    assert read_pdf(path).drawn_in.mm == 1.0


def test_no_scale_at_all_is_asked_for(tmp_path):
    with pytest.raises(InputRefused, match="the page does not state its scale"):
        read_pdf(printed(tmp_path / "plan.pdf"))
    lone = dimensioned(tmp_path / "lone.pdf", 96.0, ("40'-0\"", "n/a", "28'-0\"", "see note"))
    with pytest.raises(InputRefused, match="the page does not state its scale"):
        read_pdf(lone)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_rotated_page_is_read_as_it_is_seen(tmp_path, turn):
    """The page is turned, and the plan on it against it, so that it is seen upright as ever."""
    path = tmp_path / "plan.pdf"
    canvas = Canvas(str(path))
    wide, high = (279, 432) if turn % 180 else (432, 279)
    canvas.setPageSize((432 * mm, 279 * mm))  # as it is seen: the library turns it
    canvas.setPageRotation(turn)
    canvas.translate(*{90: (wide * mm, 0), 180: (wide * mm, high * mm), 270: (0, high * mm)}[turn])
    canvas.rotate(turn)
    sheet = Sheet(tmp_path / "unused.pdf")
    sheet.canvas = canvas
    sheet.title_block("1:96")
    sheet.house()
    canvas.showPage()
    canvas.save()
    job = open_job(path, Wishes(thickness="4 in", scale="1:96"))
    assert outline_of(job.slab) == [(0, 0), (0, 28), (28, 20), (28, 28), (40, 0), (40, 20)]
    x0, y0, *_ = job.slab.outline.polygon.bounds
    assert (x0 / 96, y0 / 96) == pytest.approx((40, 60), abs=0.01)


def test_what_lies_outside_the_crop_box_is_left_out(tmp_path):
    sheet = Sheet(tmp_path / "plan.pdf")
    sheet.house()
    sheet.ring([(4e4, 0), (4.2e4, 0), (4.2e4, 2e4)])
    sheet.canvas.setCropBox((30 * mm, 50 * mm, 250 * mm, 200 * mm))
    drawing = read_pdf(sheet.save(), PageChoice(scale="1:96"))
    assert any("1 path outside the visible part" in note for note in drawing.notes)
    x0, y0, x1, _ = drawing.bounds
    assert (x0 / 96, y0 / 96) == pytest.approx((10, 10), abs=0.01)
    assert x1 < 3e4


def test_hatches_and_curves(tmp_path):
    """A field of hatch lines beside the plan, a rounded slab, an ellipse that is no arc."""
    sheet = Sheet(tmp_path / "plan.pdf")
    radius = 10 * FOOT
    centre = sheet.to_page(20 * FOOT, 10 * FOOT)
    sheet.canvas.setLineWidth(0.5 * mm)
    sheet.canvas.circle(*centre, radius / 96 * mm)
    sheet.canvas.ellipse(300 * mm, 200 * mm, 340 * mm, 220 * mm)
    for i in range(100):
        sheet.line((3e4 + 50 * i, 0), (3e4 + 50 * i + 2000, 2000), 0.1)
    drawing = read_pdf(sheet.save(), PageChoice(scale="1:96"))
    circles = [c for c in drawing.curves if c.path.has_arcs and c.path.closed]
    (ring,) = [c.path.ring() for c in circles]
    assert ring.polygon.area == pytest.approx(math.pi * radius**2, rel=1e-3)
    assert len(drawing.curves) == 2
    assert "100 strokes of hatches left out." in drawing.notes
    job = open_job(
        tmp_path / "plan.pdf", Wishes(thickness="4 in", scale="1:96", slab_at="9936 mm, 8808 mm")
    )
    assert job.slab.outline.polygon.area == pytest.approx(math.pi * radius**2, rel=1e-3)


def test_the_page_is_asked_for_where_there_are_several(tmp_path):
    sheet = Sheet(tmp_path / "set.pdf")
    sheet.title_block("1:96")
    sheet.canvas.showPage()
    sheet.title_block("1:96")
    sheet.house()
    path = sheet.save()
    with pytest.raises(InputRefused, match=r"this PDF has 2 pages; say which .* --page 2"):
        read_pdf(path)
    with pytest.raises(InputRefused, match="there is no such page"):
        read_pdf(path, PageChoice(page=3))
    assert "Page 2 of the PDF" in read_pdf(path, PageChoice(page=2, scale="1:96")).notes[0]


def picture() -> ImageReader:
    """A grey picture of a few pixels, as a PNG."""
    import struct
    import zlib

    def chunk(kind: bytes, data: bytes) -> bytes:
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    rows = b"".join(b"\x00" + bytes([80, 160] * 8) for _ in range(16))
    head = struct.pack(">IIBBBBB", 16, 16, 8, 0, 0, 0, 0)
    data = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head)
    data += chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    return ImageReader(io.BytesIO(data))


def test_a_page_that_is_a_picture_says_so(tmp_path):
    canvas = Canvas(str(tmp_path / "scan.pdf"), pagesize=(432 * mm, 279 * mm))
    canvas.drawImage(picture(), 10 * mm, 10 * mm, 400 * mm, 250 * mm)
    canvas.save()
    with pytest.raises(InputRefused, match=r"a picture, not lines.*Picture underneath"):
        read_pdf(tmp_path / "scan.pdf")
    canvas = Canvas(str(tmp_path / "empty.pdf"))
    canvas.drawString(100, 100, "This page intentionally left blank")
    canvas.save()
    with pytest.raises(InputRefused, match="no lines on this page"):
        read_pdf(tmp_path / "empty.pdf")


def test_locked_cut_off_and_broken_pdfs(tmp_path):
    locked = StandardEncryption("secret", ownerPassword="owner", canPrint=1)
    path = printed(tmp_path / "locked.pdf", "1:96", encrypt=locked)
    with pytest.raises(InputRefused, match="locked with a password"):
        read_pdf(path)
    whole = printed(tmp_path / "plan.pdf", "1:96").read_bytes()
    for broken in (whole[:200], b"%PDF-1.7\n" + bytes(500), b"%PDF-1.4\n%%EOF"):
        (tmp_path / "broken.pdf").write_bytes(broken)
        with pytest.raises(InputRefused, match="damaged or cut off"):
            read_pdf(tmp_path / "broken.pdf")
    (tmp_path / "own.pdf").write_bytes(whole.replace(b"/Rotate 0", b"/UserUnit 2"))
    with pytest.raises(InputRefused, match="a unit of their own"):
        read_pdf(tmp_path / "own.pdf")


def test_changed_bytes_are_refused_or_read_but_never_more(tmp_path):
    content = printed(tmp_path / "plan.pdf", "1:96", pageCompression=0).read_bytes()
    path = tmp_path / "turned.pdf"
    for at in range(9, len(content), max(1, len(content) // 100)):
        path.write_bytes(content[:at] + bytes([content[at] ^ 0xFF]) + content[at + 1 :])
        try:
            with opened_page(path, 1) as page:
                content_of(page)
        except InputRefused:
            continue


def test_forms_within_forms_are_opened_as_far_as_anyone_draws(tmp_path):
    """A form that holds itself, and a plan inside a form that is drawn twice as large."""
    sheet = Sheet(tmp_path / "plan.pdf", 192.0)
    sheet.canvas.beginForm("plan")
    sheet.house()
    sheet.canvas.endForm()
    sheet.canvas.scale(2, 2)
    sheet.canvas.doForm("plan")
    drawing = read_pdf(sheet.save(), PageChoice(scale="1:96"))
    x0, y0, x1, y1 = drawing.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((40 * FOOT, 28 * FOOT), abs=0.1)


def test_our_own_sheets_give_the_same_slab(tmp_path):
    """Outline with an arc, opening, wall, columns and joints, to a millimetre, from each sheet."""
    job_file = tmp_path / "boathouse.toml"
    job_file.write_text(BOATHOUSE)
    job = open_job(job_file)
    outcome = outcome_of(job)
    files = contents(outcome)
    for sheet in ("joint-plan", "panel-sheet", "cut-sheet"):
        path = tmp_path / f"{sheet}.pdf"
        path.write_bytes(files[f"boathouse-{sheet}.pdf"])
        read = open_job(path, Wishes(thickness="4 in", page=1)).slab
        dx, dy, *_ = read.outline.polygon.bounds
        assert len(read.outline.points) == len(job.slab.outline.points)
        moved = [(x - dx, y - dy) for x, y in read.outline.points]
        for point, drawn in zip(sorted(moved), sorted(job.slab.outline.points), strict=True):
            assert math.dist(point, drawn) < 1.0
        assert max(read.outline.bulges) == pytest.approx(0.2, abs=1e-4)
        (pit,) = read.openings
        x0, y0, x1, y1 = pit.polygon.bounds
        assert (x0 - dx, y0 - dy, x1 - dx, y1 - dy) == pytest.approx(
            (10 * FOOT, 10 * FOOT, 14 * FOOT, 13 * FOOT), abs=1.0
        )
        (wall,) = read.walls
        assert wall.thickness == pytest.approx(114.3, abs=1.0)
        assert wall.line.length == pytest.approx(24 * FOOT, abs=1.0)
        assert [(round(c.at[0] - dx), round(c.at[1] - dy)) for c in read.columns] == [
            (round(20 * FOOT), round(6 * FOOT)),
            (round(32 * FOOT), round(6 * FOOT)),
        ]
        length = sum(j.length for j in outcome.layout.joints)
        found = sum(math.dist(j.path[0], j.path[-1]) for j in read.joints)
        assert found == pytest.approx(length, abs=1.0 * len(read.joints))


BOATHOUSE = """
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24, 0.2], [0, 24]]
openings = [[[10, 10], [14, 10], [14, 13], [10, 13]]]

[[wall]]
path = [[0, 14], [24, 14]]
thickness = "4 1/2 in"

[[column]]
at = [20, 6]

[[column]]
at = [32, 6]
"""


def test_a_page_that_draws_without_end_is_given_up(tmp_path, monkeypatch):
    """Forms within forms, each drawn ten times: a line drawn 10 to the power of 12 times, in 3 kilobytes."""
    monkeypatch.setattr(page_content, "LONGEST", 3.0)
    last = 16
    streams = {4: b"/F Do", last: b"0 0 m 100 100 l S"} | dict.fromkeys(
        range(5, last), b"/F Do " * 10
    )
    parts = {
        1: b"<</Type/Catalog/Pages 2 0 R>>",
        2: b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        3: b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 600]/Contents 4 0 R%b>>" % resource(5),
    }
    for number, stream in streams.items():
        form = b"" if number == 4 else b"/Type/XObject/Subtype/Form/BBox[0 0 600 600]"
        more = resource(number + 1) if 4 < number < last else b""
        head = b"<<%b%b/Length %d>>stream\n" % (form, more, len(stream))
        parts[number] = head + stream + b"\nendstream"
    body = b"".join(b"%d 0 obj%b\nendobj\n" % (n, part) for n, part in sorted(parts.items()))
    path = tmp_path / "endless.pdf"
    path.write_bytes(b"%PDF-1.4\n" + body + b"trailer<</Root 1 0 R>>\n%%EOF")
    with pytest.raises(InputRefused, match="draws more than can be read"):
        read_pdf(path, PageChoice(scale="1:100"))


def resource(form: int) -> bytes:
    """The name of a form for those who draw it."""
    return b"/Resources<</XObject<</F %d 0 R>>>>" % form


def test_a_pen_as_thick_as_a_wall_draws_a_wall(tmp_path):
    """As wide polylines are printed: 2.5 mm of paper are 240 mm at 1:96, and no line is so thick."""
    sheet = Sheet(tmp_path / "plan.pdf")
    sheet.house()
    sheet.line((0, 15 * FOOT), (24 * FOOT, 15 * FOOT), 2.5)
    drawing = read_pdf(sheet.save(), PageChoice(scale="1:96"))
    wide = [c.width for c in drawing.curves if c.width]
    assert wide == pytest.approx([2.5 * 96], rel=1e-3)


def test_the_border_of_the_sheet_is_named_so(tmp_path):
    sheet = Sheet(tmp_path / "plan.pdf")
    sheet.title_block("1:96")
    sheet.house()
    drawing = read_pdf(sheet.save(), PageChoice(scale="1:96"))
    borders = [c for c in drawing.curves if c.layer == "border of the sheet"]
    assert len(borders) == 1
    assert borders[0].path.ring().polygon.area == pytest.approx(412 * 259 * 96**2, rel=1e-3)


def test_a_plan_hatched_all_over_gives_the_same_slab(tmp_path):
    """Five thousand strokes across the house: left out, counted and said."""
    sheet = Sheet(tmp_path / "plan.pdf")
    sheet.title_block("1:96")
    sheet.house()
    for number in range(5000):
        row, place = divmod(number, 125)
        x, y = 100.0 * place, 250.0 * row
        sheet.line((x, y), (x + 240, y + 240), 0.1)
    slab = open_job(sheet.save(), Wishes(thickness="4 in", scale="1:96"))
    assert slab.slab.outline.polygon.area == pytest.approx(HOUSE, rel=1e-4)
    (said,) = [note for note in slab.notes if "strokes of hatches left out" in note]
    assert int(said.split()[0].replace(",", "")) > 4000
