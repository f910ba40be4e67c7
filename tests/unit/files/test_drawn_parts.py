"""A job file's ``[drawing]`` reads every kind of plan, told by what stands in it, whatever it is called."""

import ezdxf
import pytest
from reportlab.pdfgen.canvas import Canvas

from dwg_writing import save_dwg
from kerfline.errors import InputRefused
from kerfline.files.job_file import read_job

MM_PER_POINT = 25.4 / 72
SIZE = (12_000.0, 9_000.0)


def document():
    """A slab of 12 x 9 m with a wall across it."""
    made = ezdxf.new(units=4)
    space = made.modelspace()
    width, depth = SIZE
    corners = [(0, 0), (width, 0), (width, depth), (0, depth)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "SLAB"})
    for x in (5950, 6050):
        space.add_line((x, 0), (x, depth), dxfattribs={"layer": "WALL"})
    return made


def as_dxf(path):
    document().saveas(path)


def as_dwg(path):
    save_dwg(document(), path)


def as_pdf(path):
    """The same at 1:100, the slab in a broad pen and the wall in a fine one."""
    page = Canvas(str(path), pagesize=(420 / MM_PER_POINT, 297 / MM_PER_POINT))
    page.drawString(20, 20, "SCALE 1:100")
    page.setLineWidth(2)
    width, depth = (side / 100 / MM_PER_POINT for side in SIZE)
    page.rect(100, 100, width, depth)
    page.setLineWidth(0.5)
    for x in (5950, 6050):
        page.line(100 + x / 100 / MM_PER_POINT, 100, 100 + x / 100 / MM_PER_POINT, 100 + depth)
    page.save()


def as_ifc(path):
    from models import ModelWriter, rectangle

    model = ModelWriter("mm")
    model.prism("IfcSlab", rectangle(0, 0, *SIZE), -100, 0, predefined="BASESLAB")
    model.save(path)


def job(folder, name, keys=""):
    path = folder / "job.toml"
    path.write_text(
        '[job]\nname = "Boathouse"\nunits = "mm"\n\n[slab]\nthickness = 100\n\n'
        f'[drawing]\nfile = "{name}"\n{keys}\n'
    )
    return read_job(path)


LAYERS = 'outline = ["SLAB"]\nwalls = ["WALL"]'


@pytest.mark.parametrize(("write", "keys"), [(as_dxf, LAYERS), (as_dwg, LAYERS)])
def test_drawings_by_their_layers(tmp_path, write, keys):
    write(tmp_path / "plan")  # no ending that would tell

    read = job(tmp_path, "plan", keys)

    assert read.slab.outline.polygon.area == pytest.approx(108e6)
    assert len(read.slab.walls) == 1
    assert read.reading[0].startswith("Slab: ")
    assert "edge on SLAB, as you say" in read.reading[0]
    assert any(words.startswith("Walls: 1 interior wall") for words in read.reading)


def test_a_page_of_a_pdf_by_its_pens(tmp_path):
    as_pdf(tmp_path / "plan.pdf")

    read = job(tmp_path, "plan.pdf", 'page = 1\nscale = "1:100"\noutline = ["0.71 mm*"]')

    assert read.slab.outline.polygon.area == pytest.approx(108e6, rel=1e-4)
    assert any("paper at" in words for words in read.reading)


def test_a_building_model_says_itself_what_is_what(tmp_path):
    pytest.importorskip("ifcopenshell")
    as_ifc(tmp_path / "house")

    read = job(tmp_path, "house")

    assert read.slab.outline.polygon.area == pytest.approx(108e6)
    assert read.reading


@pytest.mark.parametrize(
    ("write", "keys", "words"),
    [
        (as_dxf, LAYERS + "\npage = 2", "[drawing], page: this has no meaning for a DXF"),
        (as_dxf, LAYERS + '\nscale = "1:50"', "[drawing], scale"),
        (as_dxf, LAYERS + '\nstorey = "Ground"', "[drawing], storey"),
        (as_pdf, 'outline = ["*"]\nstorey = "Ground"', "this has no meaning for a PDF"),
        (as_ifc, LAYERS, "this has no meaning for a building model (IFC)"),
    ],
)
def test_what_has_no_meaning_for_a_file_is_refused(tmp_path, write, keys, words):
    if write is as_ifc:
        pytest.importorskip("ifcopenshell")
    write(tmp_path / "plan")
    with pytest.raises(InputRefused) as refused:
        job(tmp_path, "plan", keys)
    assert words in str(refused.value).replace("\n", " ")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\x89PNG\r\n\x1a\n" + bytes(20), "a picture"),
        (b"[job]\nname = 'x'\n", "this is a job file"),
        (b"", "an empty file"),
    ],
)
def test_what_holds_no_plan_is_refused_by_its_kind(tmp_path, content, words):
    (tmp_path / "plan.dxf").write_bytes(content)
    with pytest.raises(InputRefused, match=words):
        job(tmp_path, "plan.dxf", LAYERS)
