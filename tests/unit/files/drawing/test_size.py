"""The question for a drawing's unit: sizes without powers of ten, and no remedy that cannot be had."""

from pathlib import Path

import ezdxf
import pytest

from kerfline.errors import InputRefused
from kerfline.files.drawing.open_file import open_document
from kerfline.files.drawing.size import Size, ask_for_unit


def asked(width, height):
    size = Size(width=width, height=height, of="what is drawn")
    return str(ask_for_unit(Path("a.dxf"), size, "the drawing does not say its unit"))


def test_sizes_are_written_without_powers_of_ten():
    assert "found what is drawn, 12,000 x 8,000.5 units" in asked(12000.0, 8000.5)
    assert "0.0125 x 0.5 units" in asked(0.0125, 0.5)


def test_a_size_that_is_no_slab_in_any_unit_is_not_asked_for_its_unit():
    words = asked(1e9, 1e9)
    assert "1,000,000,000 x 1,000,000,000 units" in words
    assert words.endswith(
        "no unit makes a slab of it: draw the slab at its true size, or name its layer with --outline."
    )
    assert "say which unit it is" in asked(40.0, 24.0)


def test_a_damaged_file_is_told_in_one_sentence(tmp_path):
    document = ezdxf.new("R2010")
    document.modelspace().add_lwpolyline([(0, 0), (480, 0), (480, 288.0)])
    path = tmp_path / "damaged.dxf"
    document.saveas(path)
    path.write_text(path.read_text().replace("288.0", "abc"))
    with pytest.raises(InputRefused) as refused:
        open_document(path)
    words = str(refused.value)
    assert "damaged beyond recovery; found invalid floating point values near line" in words
    assert ".;" not in words
