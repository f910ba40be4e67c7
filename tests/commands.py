"""What the tests of the command line share: the command as a user types it, a job and a drawing for it."""

from pathlib import Path

import ezdxf
from click.testing import CliRunner, Result

from kerfline.cli.program import kerfline
from kerfline.errors import KerflineError

BOATHOUSE = """
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]

[[wall]]
path = [[0, 12], [24, 12]]
thickness = "4 1/2 in"
"""


def run(*words: object) -> Result:
    """Runs the command; a refusal is its exception."""
    return CliRunner().invoke(kerfline, [str(word) for word in words])


def refusal(*words: object) -> str:
    """The sentence that the user reads; fails where the command does not refuse."""
    result = run(*words)
    assert isinstance(result.exception, KerflineError), result.output
    return str(result.exception)


def flowing(result: Result) -> str:
    """What was said, its lines joined."""
    return " ".join(result.output.split())


def boathouse(folder: Path) -> Path:
    """The job file of the boathouse."""
    path = folder / "boathouse.toml"
    path.write_text(BOATHOUSE)
    return path


def square_plan(folder: Path, *, units: int = 1, size: float = 240.0) -> Path:
    """A square slab with a wall, drawn by a library that is not ours."""
    document = ezdxf.new("R2010", units=units)
    space = document.modelspace()
    space.add_lwpolyline(
        [(0, 0), (size, 0), (size, size), (0, size)],
        close=True,
        dxfattribs={"layer": "S-SLAB-EDGE"},
    )
    space.add_line((0, size / 2), (size, size / 2), dxfattribs={"layer": "A-WALL"})
    path = folder / "plan.dxf"
    document.saveas(path)
    return path
