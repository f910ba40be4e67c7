"""What programs get: the same layout as the command line writes, as plain data; the examples of the docstrings."""

import ast
import doctest
import importlib
import subprocess
import sys
from pathlib import Path

import nbclient
import nbformat
import pytest

import kerfline


@pytest.mark.parametrize("name", ["", ".calls", ".many", ".slab", ".starts"])
def test_the_examples_run(name):
    module = importlib.import_module(f"kerfline.library{name}")
    failed, tried = doctest.testmod(module)
    assert failed == 0
    assert tried > 0


def test_everything_public_is_listed_once():
    library = importlib.import_module("kerfline.library")
    assert sorted({*library.__all__, "__version__"}) == sorted(kerfline.__all__)
    for name in kerfline.__all__:
        assert getattr(kerfline, name) is not None
        assert name in dir(kerfline)
    source = ast.parse(Path(kerfline.__file__).read_text())
    typed = [
        n
        for n in ast.walk(source)
        if isinstance(n, ast.ImportFrom) and n.module == library.__name__
    ]
    assert {a.name for n in typed for a in n.names} == set(library.__all__), (
        "what checkers of types see"
    )
    with pytest.raises(AttributeError, match="nothing_of_the_kind"):
        _ = kerfline.nothing_of_the_kind


def test_the_package_itself_loads_nothing_heavy():
    code = "import sys, kerfline; print(kerfline.__version__, [m for m in ('shapely', 'numpy', 'pydantic') if m in sys.modules])"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.endswith("[]\n")


SCRIPT = """
import kerfline

def largest(path: str) -> float:
    result: kerfline.Result = kerfline.lay_out(path, thickness="4 in")
    widths: list[float] = [panel.width for panel in result.panels]
    notes: list[str] = [f"{j.id}: {j.line.length}" for j in result.joints]
    print(result.concrete.area, notes, kerfline.__version__, result.to_geojson()["type"])
    return max(widths)

slab = kerfline.Slab([(0, 0), (20, 0), (20, 10), (0, 10)], walls=[[(0, 5), (9, 5)]])
for one in kerfline.lay_out_many([slab, "a.toml"]):
    if isinstance(one, kerfline.Refusal):
        print(one.message)
    else:
        print(one.mark, kerfline.check(slab).clean)
"""


def test_a_users_script_is_typed(tmp_path):
    path = tmp_path / "script.py"
    path.write_text(SCRIPT)
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", str(tmp_path / "c"), str(path)],
        capture_output=True, text=True, check=False, cwd=tmp_path,
    )  # fmt: skip
    assert done.stdout.startswith("Success"), done.stdout


CELLS = (
    'import kerfline\nslab = kerfline.Slab([(0, 0), (24, 0), (24, 16), (0, 16)], "4 in")',
    "result = kerfline.lay_out(slab)\nresult",
    'result.to_dataframe("panels")[["id", "length", "width"]]',
)


def test_a_notebook_runs():
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in CELLS])
    nbclient.NotebookClient(book, timeout=120, kernel_name="python3").execute()
    plan, table = (cell["outputs"][-1]["data"] for cell in book.cells[1:])
    assert plan["image/svg+xml"].lstrip().startswith("<svg")
    assert "P6" in table["text/plain"]
