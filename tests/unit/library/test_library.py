"""What programs get: the same layout as the command line writes, as plain data; the examples of the docstrings."""

import doctest
import importlib
import json
import pickle
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from xml.etree import ElementTree

import ezdxf
import nbclient
import nbformat
import pytest
import shapely
from click.testing import CliRunner

import kerfline
from kerfline.cli.program import kerfline as command

FT = 304.8
OUTLINE = [(0, 0), (40, 0), (40, 24), (0, 24)]
BOATHOUSE = """
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
openings = [[[10, 10], [14, 10], [14, 13], [10, 13]]]

[[wall]]
path = [[0, 16], [24, 16]]
thickness = "4 1/2 in"

[[column]]
at = [32, 12]
"""


def boathouse(**more):
    return kerfline.Slab(
        OUTLINE,
        name="Boathouse",
        openings=[[(10, 10), (14, 10), (14, 13), (10, 13)]],
        walls=[{"path": [(0, 16), (24, 16)], "thickness": "4 1/2 in"}],
        columns=[(32, 12)],
        **more,
    )


@pytest.fixture(scope="module")
def result():
    return kerfline.lay_out(boathouse(), thickness="4 in")


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
    with pytest.raises(AttributeError, match="nothing_of_the_kind"):
        _ = kerfline.nothing_of_the_kind


def test_the_package_itself_loads_nothing_heavy():
    code = "import sys, kerfline; print(kerfline.__version__, [m for m in ('shapely', 'numpy', 'pydantic') if m in sys.modules])"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.endswith("[]\n")


def test_a_slab_a_job_file_and_the_command_give_one_layout(result, tmp_path):
    path = tmp_path / "boathouse.toml"
    path.write_text(BOATHOUSE)
    from_file = kerfline.lay_out(path)
    assert from_file.to_dict() == result.to_dict()
    assert kerfline.lay_out(str(path)).mark == result.mark
    CliRunner().invoke(command, ["layout", str(path), "--out", str(tmp_path / "command")])
    written = result.write(tmp_path / "library")
    assert {p.name for p in written} == {p.name for p in (tmp_path / "command").glob("[!.]*")}
    for file in written:
        assert file.read_bytes() == (tmp_path / "command" / file.name).read_bytes(), file.name
    data = json.loads((tmp_path / "command" / "boathouse-layout.json").read_text())
    assert result.to_dict() == data


DAY = """
[day]
date = 2026-06-14
start = "06:30"

[day.pours]
volume = "6 yd3"
"""


@pytest.fixture(scope="module")
def with_day(tmp_path_factory):
    path = tmp_path_factory.mktemp("day") / "boathouse.toml"
    path.write_text(BOATHOUSE + DAY)
    return path


def same_files(library, command):
    names = {p.name for p in command.glob("[!.]*")}
    assert {p.name for p in library} == names
    for file in library:
        assert file.read_bytes() == (command / file.name).read_bytes(), file.name
    return names


def test_a_job_with_a_day_is_parted_into_placements_as_by_the_command(with_day, tmp_path):
    CliRunner().invoke(command, ["layout", str(with_day), "--out", str(tmp_path / "command")])
    written = kerfline.lay_out(with_day).write(tmp_path / "library")
    names = same_files(written, tmp_path / "command")
    assert "boathouse-cut-sheet-placement-2.pdf" in names
    assert written.text.startswith("files")


def test_the_day_is_that_of_the_command(with_day, tmp_path):
    CliRunner().invoke(command, ["day", str(with_day), "--out", str(tmp_path / "command")])
    day = kerfline.plan_day(with_day)
    same_files(day.write(tmp_path / "library"), tmp_path / "command")
    assert day.to_dict() == json.loads((tmp_path / "command" / "boathouse-day.json").read_text())
    assert day.text() in (tmp_path / "command" / "boathouse-day.txt").read_text()


def test_a_day_that_cannot_be_used_is_refused_before_the_search(with_day, tmp_path, monkeypatch):
    path = tmp_path / "bad.toml"
    path.write_text(with_day.read_text().replace("06:30", "six"))
    monkeypatch.setattr("kerfline.app.live.outcome_of", None)
    with pytest.raises(kerfline.InputRefused, match="start"):
        kerfline.lay_out(path)


def test_alternatives_are_compared_and_written(tmp_path):
    found = kerfline.lay_out("40 ft x 28 ft", thickness="4 in", alternatives=3)
    assert len(found.alternatives) > 1
    assert found.alternatives[next(iter(found.alternatives))].mark == found.mark
    assert len({other.mark for other in found.alternatives.values()}) == len(found.alternatives)
    assert found.comparison().count("\n") >= len(found.alternatives)
    own = kerfline.lay_out("40 ft x 28 ft", thickness="4 in")
    assert (own.alternatives, own.comparison()) == ({}, "")
    assert set(own.files()) < set(found.files())


def test_a_saved_layout_is_drawn_on_other_paper(with_day, tmp_path):
    laid_out = kerfline.lay_out(with_day)
    laid_out.write(tmp_path)
    drawn = kerfline.redraw(with_day, folder=tmp_path, size="a3")
    assert drawn.command == "sheets"
    assert [j.path for j in drawn.joints] == [j.path for j in laid_out.joints]
    assert drawn.svg() != laid_out.svg()


def test_a_check_is_mended(tmp_path):
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    plain, mended = kerfline.check(bays), kerfline.check(bays, mend=True)
    assert (plain.amended, plain.amendment()) == (None, "")
    assert mended.amended is not None
    assert mended.amended.clean
    assert "1 joint added" in mended.amendment()
    assert {p.name for p in mended.write(tmp_path)} > set(plain.files())


def test_rule_sets_are_compared_side_by_side():
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    one, two = kerfline.check(bays), kerfline.check(bays, rules=["floor", "pavement"])
    assert one.report() in two.report()
    assert "pavement" in two.report()


def test_a_drawing_says_how_it_was_read_and_draws_it_also_after_pickling(tmp_path):
    drawing = ezdxf.new(units=ezdxf.units.FT)
    drawing.modelspace().add_lwpolyline(OUTLINE, close=True, dxfattribs={"layer": "SLAB EDGE"})
    path = tmp_path / "plan.dxf"
    drawing.saveas(path)
    read = kerfline.lay_out(path, thickness="4 in")
    assert "SLAB EDGE" in " ".join(read.reading)
    again = pickle.loads(pickle.dumps(read))
    assert again.files()["plan-reading.pdf"] == read.files()["plan-reading.pdf"]
    assert [options.slab for options in kerfline.slabs_of(path, kerfline.Options())] == [""]


def test_a_job_file_is_written_from_a_size(tmp_path):
    told = []
    path = kerfline.new_job(
        "40 ft x 24 ft", options=kerfline.Options(thickness="4 in"), target=tmp_path / "a.toml", tell=told.append,
    )  # fmt: skip
    assert kerfline.lay_out(path).concrete.area == pytest.approx(40 * 24 * FT**2)
    assert "no walls" in told[0]


def test_many_are_written_and_summed_up(with_day, tmp_path):
    told = []
    done = kerfline.write_many([with_day, tmp_path / "no.toml"], tmp_path / "out", workers=1,
                               tell=lambda *words: told.append(words))  # fmt: skip
    assert done.status == 2
    assert [words[:2] for words in told] == [(1, 2), (2, 2)]
    assert {p.name for p in done.files} == {"summary.csv", "summary.pdf", "summary.svg"}
    assert (tmp_path / "out" / "boathouse" / "boathouse-layout.json").is_file()


def test_a_unit_that_there_is_not_is_refused():
    with pytest.raises(kerfline.InputRefused, match="cubit"):
        kerfline.lay_out("40 x 24", thickness="4 in", units="cubit")


def test_a_shapely_polygon_is_a_slab(result):
    holes = [[(10, 10), (14, 10), (14, 13), (10, 13)]]
    shape = shapely.Polygon(OUTLINE, holes)
    slab = kerfline.Slab(
        shape, "4 in", name="Boathouse", columns=[(32, 12)],
        walls=[{"path": [(0, 16), (24, 16)], "thickness": "4 1/2 in"}],
    )  # fmt: skip
    assert kerfline.lay_out(slab).concrete.equals(result.concrete)


def test_the_parts_tile_the_slab(result):
    """As shapely sees them, against areas worked by hand: 40 x 24 ft less a pit of 12 ft2 and a boxout."""
    union = shapely.union_all([panel.polygon for panel in result.panels])
    assert union.symmetric_difference(result.concrete).area < 1.0
    boxout = shapely.Point(32 * FT, 12 * FT).buffer(3 * FT).difference(result.concrete).area
    assert sum(p.area for p in result.panels) == pytest.approx((960 - 12) * FT**2 - boxout, abs=10)
    assert sum(j.line.length for j in result.joints) == pytest.approx(result.joint_length, abs=0.1)
    assert result.clean is (result.errors == 0)


def test_tables_and_geojson(result):
    panels = result.to_dataframe()
    assert list(panels["id"]) == [p.id for p in result.panels]
    assert panels["area"].sum() == pytest.approx(result.concrete.area, rel=1e-6)
    assert len(result.to_dataframe("joints")) == len(result.joints)
    assert len(result.to_dataframe("findings")) == len(result.findings)
    collection = json.loads(json.dumps(result.to_geojson()))
    assert collection["type"] == "FeatureCollection"
    shapes = [shapely.geometry.shape(f["geometry"]) for f in collection["features"]]
    assert all(shape.is_valid for shape in shapes)
    assert sum(s.area for s in shapes) == pytest.approx(result.concrete.area, rel=1e-6)


def test_a_notebook_is_shown_the_plan(result):
    drawing = ElementTree.fromstring(result._repr_svg_())
    assert drawing.tag.endswith("svg")
    said = "".join(drawing.itertext())
    assert "Boathouse" in said
    assert result.mark in said
    assert repr(result).startswith("<Result 'Boathouse': ")


def test_a_result_can_be_pickled(result):
    again = pickle.loads(pickle.dumps(result))
    assert again.to_dict() == result.to_dict()


def test_check_holds_what_is_given():
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    found = kerfline.check(bays)
    spans = [f for f in found.findings if f.rule == "span" and f.severity == "error"]
    assert [f.measured for f in spans] == [pytest.approx(20 * FT)]
    assert not found.clean


@pytest.mark.parametrize(
    ("slab", "told"),
    [
        (kerfline.Slab(OUTLINE), "Slab, slab.thickness"),
        (kerfline.Slab(OUTLINE, "four"), "four"),
        (kerfline.Slab([(0, 0), (40, 24), (40, 0), (0, 24)], "4 in"), "cross"),
        (kerfline.Slab(OUTLINE, "4 in", units="cubit"), "job.units"),
        (kerfline.Slab(OUTLINE, "4 in", walls=[{"path": [(0, 0), (9, 9)], "weight": 3}]), "weight"),
        (kerfline.Slab(OUTLINE, "4 in", joints=[[(99, 0), (99, 10)]]), "does not lie on the slab"),
    ],
)  # fmt: skip
def test_a_slab_that_makes_no_sense_is_refused_in_words(slab, told):
    with pytest.raises(kerfline.InputRefused, match=told):
        kerfline.lay_out(slab)


def test_many_come_back_in_order(tmp_path):
    sizes = [f"{width} ft x 12 ft" for width in (40, 10, 30, 20)]
    options = kerfline.Options(thickness="4 in")
    with ThreadPoolExecutor(2) as threads:
        done = kerfline.lay_out_many(
            [*sizes, tmp_path / "no.toml"], executor=threads, options=options
        )
    alone = [kerfline.lay_out(size, thickness="4 in") for size in sizes]
    assert [r.to_dict() for r in done[:-1]] == [r.to_dict() for r in alone]
    assert isinstance(done[-1], kerfline.Refusal)
    assert "there is no such" in done[-1].message


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


@pytest.mark.long
def test_a_cluster_gives_the_same_in_the_same_order():
    distributed = pytest.importorskip("distributed")
    sizes = [f"{width} ft x 18 ft" for width in range(20, 44, 2)]
    options = kerfline.Options(thickness="4 in")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        done = kerfline.lay_out_many(sizes, executor=client.get_executor(), options=options)
    alone = [kerfline.lay_out(size, thickness="4 in") for size in sizes]
    assert [r.to_dict() for r in done] == [r.to_dict() for r in alone]
