"""A DWG is read in a process of its own: what it holds, or why it is refused, comes back."""

import ezdxf
import pytest

from dwg_writing import save_dwg
from kerfline.errors import InputRefused
from kerfline.files.apart import Overrun
from kerfline.files.drawing import dwg_apart
from kerfline.files.drawing.dwg_apart import open_dwg_apart
from kerfline.files.drawing.dwg_file import open_dwg


def test_what_it_holds_comes_back(tmp_path):
    document = ezdxf.new("R2010", units=4)
    document.layers.add("Maßlinie")
    document.modelspace().add_line((0, 0), (5, 1), dxfattribs={"layer": "Maßlinie"})
    path = save_dwg(document, tmp_path / "a.dwg")
    read, notes = open_dwg_apart(path)
    (line,) = read.modelspace()
    assert tuple(line.dxf.end)[:2] == (5, 1)
    assert line.dxf.layer == "Maßlinie"
    assert read.header["$INSUNITS"] == 4
    assert notes == open_dwg(path)[1]


def test_a_refusal_comes_back_with_its_words(tmp_path):
    path = tmp_path / "a.dwg"
    path.write_bytes(b"AC1024" + bytes(400))
    with pytest.raises(
        InputRefused, match=r"a\.dwg: this DWG is damaged, cut off, or of a release"
    ):
        open_dwg_apart(path)


def test_one_that_takes_too_long_is_refused(tmp_path, monkeypatch):
    def endless(*_):
        raise Overrun

    monkeypatch.setattr(dwg_apart, "run_apart", endless)
    with pytest.raises(InputRefused, match="takes more time or memory to read than a plan"):
        open_dwg_apart(tmp_path / "a.dwg")
