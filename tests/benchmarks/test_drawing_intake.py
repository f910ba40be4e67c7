"""The intake of drawings grows with the drawing, not with its square; times are shown, ratios are held."""

import time

import ezdxf
import pytest
from ezdxf import units
from shapely import box

from kerfline.files.drawing import Layers, read_drawing, slab_parts
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.joints import read_joints
from kerfline.geometry.paths import Path
from kerfline.model.slab import JointKind
from kerfline.units import Display

GROWTH = 4.0
"""Ten times as much may take this many times ten times as long: the trees' logarithm and the machine's noise."""


def joint_pieces(count: int) -> tuple[list[Curve], float]:
    """A square floor whose joints, 3 m apart, are cut into dashes."""
    lines = max(2, round((count / 10) ** 0.5))
    side = lines * 3000.0
    dashes = count // (2 * lines)
    step = side / dashes
    rows = []
    for i in range(lines):
        at = 1500.0 + 3000.0 * i
        for k in range(dashes):
            low, high = k * step, (k + 0.7) * step
            rows += [((at, low), (at, high)), ((low, at), (high, at))]
    made = [Curve(layer="JNTS", kind="LINE", path=Path(r)) for r in rows]
    return made, side


def clean(drawn: tuple[list[Curve], float]) -> int:
    curves, side = drawn
    joints, _ = read_joints([(JointKind.CONTROL, curves)], box(0, 0, side, side), Display.METRIC)
    return len(joints)


@pytest.mark.parametrize("count", [100, 1_000, 10_000])
def test_joint_pieces(benchmark, count):
    drawn = joint_pieces(count)
    benchmark(clean, drawn)


def test_joint_pieces_grow_no_faster_than_the_drawing(benchmark):
    drawn = [joint_pieces(n) for n in (1_000, 10_000)]

    def both():
        spent = []
        for one in drawn:
            start = time.perf_counter()
            clean(one)
            spent.append(time.perf_counter() - start)
        return spent

    small, large = benchmark.pedantic(both, rounds=3)
    assert large / small < 10 * GROWTH


@pytest.fixture(scope="module")
def busy(tmp_path_factory):
    """A slab, a hundred rooms of walls, and ten thousand lines of no account."""
    doc = ezdxf.new("R2010", units=units.MM)
    space = doc.modelspace()
    side = 60_000
    space.add_lwpolyline(
        [(0, 0), (side, 0), (side, side), (0, side)], close=True, dxfattribs={"layer": "SLAB"}
    )
    for i in range(1, 10):
        for k in range(10):
            low, high = k * 6000 + 500, (k + 1) * 6000 - 500
            for face in (-60, 60):
                at = i * 6000 + face
                space.add_line((at, low), (at, high), dxfattribs={"layer": "A-WALL"})
                space.add_line((low, at), (high, at), dxfattribs={"layer": "A-WALL"})
    for i in range(10_000):
        x, y = i % 100 * 600, i // 100 * 600
        space.add_line((x, y), (x + 400, y + 300), dxfattribs={"layer": "GRASS"})
    path = tmp_path_factory.mktemp("busy") / "busy.dxf"
    doc.saveas(path)
    return path


def test_a_busy_drawing(benchmark, busy):
    def read():
        return slab_parts(read_drawing(busy), Layers(outline=("SLAB",), walls=("A-WALL",)))

    parts = benchmark.pedantic(read, rounds=3)
    assert parts.outline is not None
    assert len(parts.walls) == 18
