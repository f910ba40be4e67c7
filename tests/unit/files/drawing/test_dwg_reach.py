"""How far from its origin a DWG can be trusted: the library misreads lines further out."""

from collections.abc import Iterable
from pathlib import Path

import ezdwg
import pytest

from kerfline.errors import InputRefused
from kerfline.files.drawing.dwg_file import open_dwg
from kerfline.files.drawing.dwg_reach import beyond_reach


class Entity:
    """An entity as the reader gives it."""

    def __init__(self, kind: str, **values: object) -> None:
        self.dxftype, self.dxf = kind, values


def test_what_lies_at_the_reach_is_read() -> None:
    assert beyond_reach([Entity("CIRCLE", center=(1e8, -1e8, 0.0), radius=5.0)]) == ""


@pytest.mark.parametrize(
    "entity",
    [
        Entity("CIRCLE", center=(1e8 + 1, 0.0, 0.0)),
        Entity("ARC", center=(0.0, -1e8 - 1, 0.0)),
        Entity("LWPOLYLINE", points=[(0.0, 0.0), (3.0, 2e8)]),
        Entity("LINE", start=(0.0, 0.0, 0.0), end=(2e8, 0.0, 0.0)),
        Entity("LINE", start=(1.0, 4.5e-286, 0.0), end=(0.0, 1.0, 0.0)),
        Entity("LINE", start=(1.0, 0.0, 0.0), end=(-1.1e-268, 1.0, 0.0)),
    ],
)
def test_what_tells_of_misread_lines(entity: Entity) -> None:
    assert beyond_reach([Entity("POINT", location=(0.0, 0.0)), entity]).startswith(entity.dxftype)


def test_a_coordinate_that_turning_left_next_to_nothing_is_no_misread_line() -> None:
    assert beyond_reach([Entity("LINE", start=(6.1e-17, -1e-29), end=(1000.0, 0.0))]) == ""


def saved(path: Path, lines: Iterable[tuple[tuple[float, float], tuple[float, float]]]) -> Path:
    made = ezdwg.new()
    for start, end in lines:
        made.modelspace().add_line((*start, 0.0), (*end, 0.0))
    made.save(str(path))
    return path


def square(x: float) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    corners = [(x, 0.0), (x + 9000.0, 0.0), (x + 9000.0, 7000.0), (x, 7000.0)]
    return list(zip(corners, corners[1:] + corners[:1], strict=True))


def test_lines_within_reach_come_back_as_they_were_written(tmp_path: Path) -> None:
    document, notes = open_dwg(saved(tmp_path / "near.dwg", square(9.9e7)))
    read = [
        ((e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)) for e in document.modelspace()
    ]
    assert read == square(9.9e7)
    assert notes == ()


@pytest.mark.parametrize("x", [2e8, -4e8, 3.3e9])
def test_a_drawing_of_lines_out_of_reach_is_refused_not_misread(tmp_path: Path, x: float) -> None:
    path = saved(tmp_path / "far.dwg", square(x) + square(x + 31))
    with pytest.raises(InputRefused, match=r"too far from its origin.*100,000,000.*move the plan"):
        open_dwg(path)
