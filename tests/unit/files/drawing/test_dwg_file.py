"""DWG files written by the library's own writer, read as the DXF of the same drawing is."""

from pathlib import Path

import ezdwg
import ezdxf
import pytest
from ezdxf.document import Drawing as Document

from dwg_writing import save_dwg
from kerfline.app.open_job import open_job
from kerfline.app.save_job import same_slab
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.files.drawing.dwg_file import open_dwg

WISHES = Wishes(thickness="4 in")
FOOT = 12.0


def house(units: int = 1, scale: float = 1.0) -> Document:
    """A house with a rounded end, a pit, walls as pairs of lines, columns in blocks, drains, joints, clutter."""
    document = ezdxf.new("R2010", units=units)
    for name in ("S-SLAB-EDGE", "S-SLAB-OPNG", "A-WALL", "S-COLS", "P-DRAN", "S-JNTS-CTLJ"):
        document.layers.add(name)
    for name in ("A-FURN", "A-ANNO"):
        document.layers.add(name)
    document.layers.get("A-FURN").off()
    space, f = document.modelspace(), FOOT * scale
    outline = [(0, 0, 0), (40 * f, 0, 0.5), (40 * f, 28 * f, 0), (0, 28 * f, 0)]
    space.add_lwpolyline(outline, format="xyb", close=True, dxfattribs={"layer": "S-SLAB-EDGE"})
    pit = [(20 * f, 18 * f), (24 * f, 18 * f), (24 * f, 21 * f), (20 * f, 21 * f)]
    space.add_lwpolyline(pit, close=True, dxfattribs={"layer": "S-SLAB-OPNG"})
    for y in (12 * f, 12 * f + 4.5 * scale):
        space.add_line((0, y), (24 * f, y), dxfattribs={"layer": "A-WALL"})
    block = document.blocks.new("COLUMN", base_point=(6 * scale, 6 * scale))
    square = [(0, 0), (12 * scale, 0), (12 * scale, 12 * scale), (0, 12 * scale)]
    block.add_lwpolyline(square, close=True, dxfattribs={"layer": "0"})
    for x, size, turn in ((30 * f, 1.0, 0), (36 * f, 2.0, 45)):
        space.add_blockref(
            "COLUMN",
            (x, 14 * f),
            dxfattribs={"layer": "S-COLS", "xscale": size, "yscale": size, "rotation": turn},
        )
    # Drawn from below: the plane's normal points down, so that x changes sign.
    space.add_circle(
        (-6 * f, 5 * f), 2 * scale, dxfattribs={"layer": "P-DRAN", "extrusion": (0, 0, -1)}
    )
    space.add_arc((30 * f, 24 * f), 3 * scale, 0, 180, dxfattribs={"layer": "A-FURN"})
    space.add_line((12 * f, 0), (12 * f, 12 * f), dxfattribs={"layer": "S-JNTS-CTLJ"})
    space.add_text("Hall", height=9 * scale, dxfattribs={"layer": "A-ANNO"}).dxf.insert = (9, 9)
    space.add_ellipse((30 * f, 4 * f), (f, 0), 0.5, dxfattribs={"layer": "A-FURN"})
    return document


@pytest.mark.parametrize(("units", "scale"), [(1, 1.0), (4, 25.4), (2, 1 / 12), (6, 0.0254)])
def test_the_same_job_through_both_doors(tmp_path: Path, units: int, scale: float) -> None:
    document = house(units, scale)
    document.saveas(tmp_path / "house.dxf")
    drawn = open_job(tmp_path / "house.dxf", WISHES)
    saved = open_job(save_dwg(document, tmp_path / "house.dwg"), WISHES)
    assert same_slab(drawn.slab, saved.slab)
    assert (drawn.units, drawn.notes) == (saved.units, saved.notes)
    assert drawn.reading == saved.reading
    assert len(saved.slab.columns) == 2
    assert saved.slab.penetrations[0].at == pytest.approx((6 * 304.8, 5 * 304.8))
    assert saved.slab.outline.has_arcs


def test_a_job_file_may_name_a_dwg(tmp_path: Path) -> None:
    save_dwg(house(), tmp_path / "house.dwg")
    job = tmp_path / "house.toml"
    job.write_text(
        '[job]\nname = "House"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        '[drawing]\nfile = "house.dwg"\noutline = "S-SLAB-EDGE"\nwalls = "A-WALL"\n'
    )
    assert [round(w.thickness, 1) for w in open_job(job).slab.walls] == [114.3]


def test_the_unit_is_asked_for_where_the_dwg_says_none(tmp_path: Path) -> None:
    path = save_dwg(house(units=0), tmp_path / "house.dwg")
    with pytest.raises(InputRefused, match="does not say its unit"):
        open_job(path, WISHES)


def test_what_is_not_carried_over_is_said(tmp_path: Path) -> None:
    made = ezdwg.new()
    made.header["insunits"] = 1
    space = made.modelspace()
    space.add_lwpolyline([(0, 0), (480, 0), (480, 336), (0, 336)], closed=True)
    space.add_3dface([(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)])
    space.add_3dface([(0, 0, 0), (2, 0, 0), (2, 2, 0), (0, 2, 0)])
    made.blocks.new("HOLLOW")
    space.add_blockref("HOLLOW", (5, 5, 0))
    space.add_aligned_dim((0, 0, 0), (480, 0, 0), -20)
    path = tmp_path / "plan.dwg"
    made.save(str(path))
    document, notes = open_dwg(path)
    assert any(n.startswith("Not read of the DWG: 2 3DFACE.") for n in notes)
    assert any("1 reference to blocks of the DWG that came out empty (HOLLOW)" in n for n in notes)
    kinds = [e.dxftype() for e in document.modelspace()]
    assert sorted(kinds) == ["DIMENSION", "INSERT", "LWPOLYLINE"]
    assert document.modelspace().query("DIMENSION").first.get_measurement() == pytest.approx(480)


def test_a_dwg_that_is_cut_off_damaged_or_old(tmp_path: Path) -> None:
    content = save_dwg(house(), tmp_path / "house.dwg").read_bytes()
    path = tmp_path / "broken.dwg"
    for broken in (
        content[: len(content) // 3],
        content[:6] + b"\xff" * (len(content) - 6),
        b"AC1009" + bytes(2000),
        b"AC1032" + bytes(200),
    ):
        path.write_bytes(broken)
        with pytest.raises(InputRefused) as refused:
            open_job(path, WISHES)
        assert "broken.dwg" in str(refused.value)


def test_changed_bytes_are_refused_or_read_but_never_more(tmp_path: Path) -> None:
    """Every hundredth byte turned over, one at a time: no other exception comes out."""
    content = save_dwg(house(), tmp_path / "house.dwg").read_bytes()
    path = tmp_path / "turned.dwg"
    step = max(1, len(content) // 100)
    for at in range(6, len(content), step):
        path.write_bytes(content[:at] + bytes([content[at] ^ 0xFF]) + content[at + 1 :])
        try:
            open_dwg(path)
        except InputRefused:
            continue


def test_a_want_of_memory_is_told_as_that_and_not_as_damage(tmp_path, monkeypatch):
    """The process that reads a DWG dies of it, and whoever started it says that the file takes too much."""

    def read(_):
        raise MemoryError

    path = tmp_path / "large.dwg"
    path.write_bytes(b"AC1015" + bytes(40))
    monkeypatch.setattr(ezdwg, "read", read)
    with pytest.raises(MemoryError):
        open_dwg(path)
