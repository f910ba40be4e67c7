"""The job file that ``kerfline new`` writes: layers where they say it all, else rounded figures; read back alike."""

import tomllib
from dataclasses import replace

import ezdxf
import pytest

from kerfline.app.new_job import new_job
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.files.job_file import read_job
from kerfline.units import Unit

WISHES = Wishes(thickness="150 mm")


def plan(path, *, unit=4, layer="S-SLAB", off=0.0, others=()):
    """A slab of 12 x 8 m with a wall, a column, a pit and a drain, and closed curves on more layers."""
    made = ezdxf.new(units=unit)
    space = made.modelspace()

    def poly(name, *points):
        at = [(x + off, y + off) for x, y in points]
        space.add_lwpolyline(at, close=True, dxfattribs={"layer": name})

    poly(layer, (0, 0), (12_000, 0), (12_000, 8_000), (0, 8_000))
    for x in (5_925, 6_075):
        line = (x + off, 0 + off), (x + off, 8_000 + off)
        space.add_line(*line, dxfattribs={"layer": "A-WALL"})
    poly("S-COLS", (3_000, 3_000), (3_300, 3_000), (3_300, 3_300), (3_000, 3_300))
    poly("S-SLAB-OPNG", (9_000, 2_000), (10_000, 2_000), (10_000, 3_000), (9_000, 3_000))
    space.add_circle((2_000 + off, 6_000 + off), 50, dxfattribs={"layer": "P-DRAIN"})
    for name, points in others:
        poly(name, *points)
    made.saveas(path)
    return path


def written(source, wishes=WISHES, folder=None):
    path = new_job(source, wishes, target=folder / "job.toml" if folder else None)
    return path, tomllib.loads(path.read_text(encoding="utf-8"))


def test_layers_are_named_where_they_say_it_all(tmp_path):
    source = plan(tmp_path / "plan.dxf")
    path, tables = written(source)

    assert tables["drawing"] == {
        "file": "plan.dxf",
        "outline": ["S-SLAB"],
        "openings": ["S-SLAB-OPNG"],
        "walls": ["A-WALL"],
        "columns": ["S-COLS"],
        "penetrations": ["P-DRAIN"],
    }
    assert tables["slab"] == {"thickness": "150 mm"}
    assert "wall" not in tables
    assert read_job(path).slab == open_job(source, WISHES).slab
    assert "# - Slab: " in path.read_text(encoding="utf-8")


def test_a_job_in_another_folder_finds_its_drawing(tmp_path):
    (tmp_path / "jobs").mkdir()
    source = plan(tmp_path / "plan.dxf")
    path, tables = written(source, folder=tmp_path / "jobs")
    assert tables["drawing"]["file"] == "../plan.dxf"
    assert read_job(path).slab == open_job(source, WISHES).slab


def test_a_unit_that_the_user_said_is_kept(tmp_path):
    source = plan(tmp_path / "plan.dxf", unit=0)
    wishes = replace(WISHES, units=Unit.MM)
    path, tables = written(source, wishes)
    assert tables["drawing"]["units"] == "mm"
    assert read_job(path).slab == open_job(source, wishes).slab


@pytest.mark.parametrize(
    ("wishes", "why"),
    [
        (replace(WISHES, slab="2"), "a slab that is not the largest on its layer"),
        (replace(WISHES, drawn_in="cm"), "a unit that no job can be in"),
    ],
)
def test_what_layers_alone_do_not_say_is_written_out_rounded(tmp_path, wishes, why):
    beside = [(20_000, 0), (29_000.0004, 0), (29_000, 8_000), (20_000, 8_000.0003)]
    others = [("S-SLAB", beside)] if wishes.slab else []
    source = plan(tmp_path / "plan.dxf", off=0.0007, others=others)
    path, tables = written(source, wishes)

    assert "drawing" not in tables, why
    flat = [c for point in tables["slab"]["outline"] for c in point]
    assert all(c == round(c) for c in flat)
    drawn, read = open_job(source, wishes).slab, read_job(path).slab
    assert len(read.walls) == len(drawn.walls)
    assert read.outline.polygon.hausdorff_distance(drawn.outline.polygon) < 1.0


def test_a_page_of_a_pdf_keeps_its_page_and_scale(tmp_path):
    from unit.files.test_drawn_parts import as_pdf

    as_pdf(tmp_path / "plan.pdf")
    layers = (("outline", ("0.71 mm*",)),)
    wishes = replace(WISHES, page=1, scale="1:100", layers=layers)
    path, tables = written(tmp_path / "plan.pdf", wishes)
    assert tables["drawing"]["page"] == 1
    assert tables["drawing"]["scale"] == "1:100"
    assert read_job(path).slab == open_job(tmp_path / "plan.pdf", wishes).slab


def test_notes_of_one_wording_are_said_once(tmp_path):
    doors = [
        ("A-WALL", ((x, 4_000), (x + 150, 4_000), (x + 150, 4_050), (x, 4_050)))
        for x in range(500, 5_000, 700)
    ]
    text = written(plan(tmp_path / "plan.dxf", others=doors))[0].read_text(encoding="utf-8")
    confirm = [line for line in text.splitlines() if line.startswith("# - ")]
    assert 0 < len(confirm) <= 25
