"""Whatever happens to a file on its way, it is read or refused in a sentence; nothing else comes out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.files.drawing import (
    Drawing,
    Layers,
    ReadingWishes,
    gather,
    look_at,
    report,
    slab_parts,
)
from kerfline.files.drawing.size import drawn_unit


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """The lines of a sound drawing of every kind of entity that is read."""
    import ezdxf
    from ezdxf import units

    doc = ezdxf.new("R2000", units=units.IN)
    space = doc.modelspace()
    slab = {"layer": "SLAB"}
    space.add_lwpolyline(
        [(0, 0, 0), (480, 0, 0.5), (480, 240, 0), (0, 240, 0)],
        format="xyb",
        close=True,
        dxfattribs=slab,
    )
    space.add_line((0, 120), (480, 120), dxfattribs={"layer": "A-WALL"})
    space.add_line((0, 126), (480, 126), dxfattribs={"layer": "A-WALL"})
    space.add_circle((100, 60), 12, dxfattribs={"layer": "S-COLS"})
    space.add_arc((480, 0), 100, 90, 180, dxfattribs={"layer": "S-JNTS-CTLJ"})
    space.add_ellipse((200, 60), (20, 0), 0.5, dxfattribs={"layer": "S-SLAB-OPNG"})
    space.add_spline([(0, 60, 0), (100, 80, 0), (300, 30, 0)], dxfattribs={"layer": "S-JNTS-CTLJ"})
    space.add_polyline2d(
        [(300, 30), (340, 30), (340, 60)], close=True, dxfattribs={"layer": "S-SLAB-OPNG"}
    )
    block = doc.blocks.new("COL")
    block.add_lwpolyline([(0, 0), (10, 0), (10, 10), (0, 10)], close=True)
    space.add_blockref(
        "COL", (50, 50), dxfattribs={"layer": "S-COLS", "xscale": -1, "rotation": 20}
    )
    space.add_text("CJ", dxfattribs={"insert": (5, 5)})
    folder = tmp_path_factory.mktemp("damage")
    doc.saveas(folder / "sound.dxf")
    return folder, (folder / "sound.dxf").read_text().splitlines()


LAYERS = Layers(
    outline=("SLAB",),
    walls=("A-WALL",),
    columns=("S-COLS",),
    openings=("*OPNG",),
    joints=("*CTLJ",),
)


def read_or_refuse(path):
    """The drawing, or the refusal; anything else that is raised fails the test."""
    try:
        look = look_at(gather(path), ReadingWishes(unit=drawn_unit("in")))
        drawing = look.drawing
        report(look, slab_parts(drawing, look.layers, slab=look.slab))
        slab_parts(drawing, LAYERS)
    except InputRefused as refused:
        return refused
    return drawing


def in_sentences(outcome) -> bool:
    """Whether what came out is a drawing or a refusal that says something."""
    return isinstance(outcome, Drawing) or all(m.what for m in outcome.mistakes)


def test_the_sound_one_is_read(sound):
    folder, _ = sound
    assert isinstance(read_or_refuse(folder / "sound.dxf"), Drawing)


STRANGE = st.sampled_from(
    [
        "",
        "nan",
        "inf",
        "-1e300",
        "1e-320",
        "99999999999",
        "0",
        "LINE",
        "INSERT",
        "ENDSEC",
        "\x07",
        "é",
        "-1",
        "COL",
    ]
)


@settings(max_examples=40)
@given(st.data())
def test_lines_changed_dropped_or_doubled(sound, data):
    folder, lines = sound
    start = lines.index("BLOCKS") if data.draw(st.booleans()) else lines.index("ENTITIES")
    damaged = list(lines)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(start, len(damaged) - 1))
        match data.draw(st.sampled_from(["change", "drop", "double", "number"])):
            case "change":
                damaged[at] = data.draw(STRANGE)
            case "drop":
                del damaged[at : at + data.draw(st.integers(1, 3))]
            case "double":
                damaged[at:at] = damaged[at : at + data.draw(st.integers(1, 30))]
            case "number":
                damaged[at] = str(data.draw(st.floats()))
    path = folder / "damaged.dxf"
    path.write_text("\n".join(damaged) + "\n", encoding="utf-8")
    assert in_sentences(read_or_refuse(path))


@settings(max_examples=20)
@given(st.integers(0, 10_000), st.binary(min_size=1, max_size=8))
def test_bytes_changed_in_a_binary_drawing(sound, at, put):
    import ezdxf

    folder, _ = sound
    path = folder / "sound-binary.dxf"
    if not path.exists():
        ezdxf.readfile(folder / "sound.dxf").saveas(path, fmt="bin")
    content = path.read_bytes()
    at = 30 + at * (len(content) - 60) // 10_000
    damaged = folder / "damaged-binary.dxf"
    damaged.write_bytes(content[:at] + put + content[at + len(put) :])
    assert in_sentences(read_or_refuse(damaged))
