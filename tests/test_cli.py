"""The commands as a user runs them: exit status, what they print, what they write."""

import json
import signal
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pytest
from click.testing import CliRunner, Result

from kerfline.app.open_job import open_job
from kerfline.cli import main as cli_main
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


def run(*words: str) -> Result:
    return CliRunner().invoke(kerfline, list(words))


def refusal(*words: str) -> str:
    """The sentence that the user reads; fails where the command does not refuse."""
    result = run(*words)
    assert isinstance(result.exception, KerflineError), result.output
    return str(result.exception)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "boathouse.toml"
    path.write_text(BOATHOUSE)
    return path


def plan(tmp_path: Path, *, units: int = 1, size: float = 240.0) -> Path:
    """A square slab with a wall, drawn by a library that is not ours."""
    document = ezdxf.new("R2010", units=units)
    space = document.modelspace()
    space.add_lwpolyline(
        [(0, 0), (size, 0), (size, size), (0, size)],
        close=True,
        dxfattribs={"layer": "S-SLAB-EDGE"},
    )
    space.add_line((0, size / 2), (size, size / 2), dxfattribs={"layer": "A-WALL"})
    path = tmp_path / "plan.dxf"
    document.saveas(path)
    return path


def test_layout_of_a_job_writes_every_promised_file(job: Path, tmp_path: Path) -> None:
    result = run("layout", str(job), "--out", str(tmp_path / "sheets"))
    assert result.exit_code == 0, result.output
    names = {p.name for p in (tmp_path / "sheets").iterdir()}
    assert {
        "boathouse-joint-plan.dxf",
        "boathouse-joint-plan-flat.dxf",
        "boathouse-joint-plan.svg",
        "boathouse-joint-plan.pdf",
        "boathouse-panels.csv",
        "boathouse-joints.csv",
        "boathouse-layout.json",
    } <= names
    data = json.loads((tmp_path / "sheets" / "boathouse-layout.json").read_text())
    assert sum(p["area"] for p in data["panels"]) == pytest.approx(40 * 24 * 304.8**2, rel=1e-6)
    assert max(p["length"] for p in data["panels"]) <= 3048.5


def test_the_same_job_gives_the_same_bytes(job: Path, tmp_path: Path) -> None:
    for folder in ("first", "second"):
        assert run("layout", str(job), "--out", str(tmp_path / folder)).exit_code == 0
    for first in sorted((tmp_path / "first").iterdir()):
        assert first.read_bytes() == (tmp_path / "second" / first.name).read_bytes(), first.name


def test_layout_of_a_drawing_in_one_go(tmp_path: Path) -> None:
    result = run("layout", str(plan(tmp_path)), "--thickness", "4 in", "--out", str(tmp_path / "o"))
    assert result.exit_code == 0, result.output
    assert "4; the longest" in result.output


def test_new_writes_a_job_that_layout_reads(tmp_path: Path) -> None:
    drawing = plan(tmp_path)
    result = run("new", str(drawing), "--thickness", "4 in")
    assert result.exit_code == 0, result.output
    assert "S-SLAB-EDGE" in result.output
    again = run("layout", str(drawing.with_suffix(".toml")), "--out", str(tmp_path / "o"))
    assert again.exit_code == 0, again.output


def test_new_never_writes_over_a_job(tmp_path: Path) -> None:
    drawing = plan(tmp_path)
    drawing.with_suffix(".toml").write_text("mine")
    assert "already" in refusal("new", str(drawing), "--thickness", "4 in")
    assert drawing.with_suffix(".toml").read_text() == "mine"


def test_check_finds_a_span_that_is_too_long(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_text(BOATHOUSE + "\n[[joint]]\npath = [[20, 0], [20, 24]]\n")
    result = run("check", str(path))
    assert result.exit_code == 1, result.output
    assert "span" in result.output


def test_rules_are_listed_and_printed() -> None:
    assert "floor" in run("rules").output
    printed = run("rules", "floor").output
    assert "ACI" in printed
    assert "15'-0\"" in printed


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('thickness = "4 in"', 'thickness = "0 in"'), "thickness"),
        (('thickness = "4 in"', 'thickness = "-4 in"'), "thickness"),
        (('thickness = "4 in"', "thickness = nan"), "thickness"),
        (('thickness = "4 in"', "thickness = inf"), "thickness"),
        (('units = "ft"', ""), "unit"),
        (("[40, 24], [0, 24]", "[0, 24], [40, 24]"), "cross"),
        (("[[0, 12], [24, 12]]", "[[0, 12], [64, 12]]"), "W1"),
        (("[40, 0], [40, 24], [0, 24]", "[0.05, 0], [0.05, 0.05], [0, 0.05]"), "slab"),
        (
            ("[40, 0], [40, 24], [0, 24]", "[400000, 0], [400000, 400000], [0, 400000]"),
            "slab",
        ),
        (
            ("[[wall]]", "[[wall]]\npath = [[1, 1], [2, 2]]\n[slab2]\n[[wall]]"),
            "slab2",
        ),
    ],
)
def test_bad_job_is_refused_in_words_and_writes_nothing(
    tmp_path: Path, change: tuple[str, str], words: str
) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(BOATHOUSE.replace(*change))
    assert words in refusal("layout", str(path), "--out", str(tmp_path / "o"))
    assert not (tmp_path / "o").exists()


def test_an_opening_across_the_edge_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(
        BOATHOUSE.replace(
            "[0, 24]]", "[0, 24]]\nopenings = [[[38, 2], [44, 2], [44, 6], [38, 6]]]", 1
        )
    )
    assert "opening" in refusal("layout", str(path))


def test_a_drawing_that_is_none_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "plan.dxf"
    for content in (b"", b"hello, this is a letter\n" * 40, b"AC1027\0\0\0"):
        path.write_bytes(content)
        assert "plan.dxf" in refusal("layout", str(path), "--thickness", "4 in")


def test_a_drawing_without_units_asks_for_them(tmp_path: Path) -> None:
    path = plan(tmp_path, units=0)
    assert "--units" in refusal("layout", str(path), "--thickness", "4 in")
    result = run(
        "layout", str(path), "--thickness", "4 in", "--units", "in", "--out", str(tmp_path / "o")
    )
    assert result.exit_code == 0, result.output


def test_a_drawing_cut_short_is_refused(tmp_path: Path) -> None:
    path = plan(tmp_path)
    text = path.read_text()
    path.write_text(text[: text.index("ENTITIES")])
    assert "plan.dxf" in refusal("layout", str(path), "--thickness", "4 in")


def test_a_layer_that_is_not_there_is_named(tmp_path: Path) -> None:
    words = refusal("layout", str(plan(tmp_path)), "--thickness", "4 in", "--walls", "A-WALLS-NEW")
    assert "A-WALLS-NEW" in words
    assert "A-WALL" in words


def test_a_drawing_without_thickness_asks_for_it(tmp_path: Path) -> None:
    assert "--thickness" in refusal("layout", str(plan(tmp_path)))


def test_paths_that_cannot_be_used_are_refused(job: Path, tmp_path: Path) -> None:
    assert "nowhere.toml" in refusal("layout", str(tmp_path / "nowhere.toml"))
    (tmp_path / "empty").mkdir()
    assert "no job file and no drawing in it" in refusal("layout", str(tmp_path / "empty"))
    taken = tmp_path / "taken"
    taken.write_text("a file, not a folder")
    assert "taken" in refusal("layout", str(job), "--out", str(taken))
    assert taken.read_text() == "a file, not a folder"


def test_main_turns_a_refusal_into_status_2(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr("sys.argv", ["kerfline", "layout", str(tmp_path / "nowhere.toml")])
    with pytest.raises(SystemExit) as stop:
        cli_main()
    assert stop.value.code == 2
    assert "nowhere.toml" in capsys.readouterr().err


def test_what_only_a_drawing_is_told_is_refused_beside_a_job_file(job: Path) -> None:
    """It would be passed over without a word otherwise."""
    told = refusal("layout", str(job), "--walls", "A-*", "--units", "m")
    assert "--walls: this is said beside a drawing" in told
    assert "--units: this is said beside a drawing" in told


def test_the_day_of_a_drawing_is_refused(tmp_path: Path) -> None:
    told = refusal("day", str(plan(tmp_path)), "--thickness", "4 in")
    assert "only a job file says something of the placement day" in told
    assert "kerfline new" in told


def test_a_screen_holds_the_mistakes_of_a_file_that_is_wrong_throughout(
    job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job.write_text(BOATHOUSE + "[[column]]\nat = [99, 99]\n" * 50)
    monkeypatch.setattr("sys.argv", ["kerfline", "layout", str(job)])
    with pytest.raises(SystemExit) as stop:
        cli_main()
    told = capsys.readouterr().err.splitlines()
    assert stop.value.code == 2
    assert len(told) == 31
    assert told[-1] == "... and 20 more"


def test_sheets_elsewhere_are_drawn_of_the_layout_that_lies_where_it_was_left(
    job, tmp_path, monkeypatch
):
    """``--out`` says where to write; the layout is found where ``kerfline layout`` left it."""
    monkeypatch.chdir(tmp_path)
    assert run("layout", str(job)).exit_code in (0, 1)
    other = tmp_path / "metric"
    result = run("sheets", str(job), "--units", "mm", "--out", str(other))
    assert result.exit_code == 0, result.output
    assert (other / "boathouse-joint-plan.pdf").is_file()


def test_every_sentence_of_a_sheet_follows_the_unit_it_is_redrawn_in(tmp_path, monkeypatch):
    """A wall too near the edge is left, and the sheet says by how much, in whatever unit is asked for."""
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "shed.toml"
    job.write_text(
        '[job]\nname = "Shed"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        "outline = [[0, 0], [30, 0], [30, 20], [0, 20]]\n"
        '[[wall]]\nid = "W7"\npath = [[0, 1.2], [30, 1.2]]\n'
    )
    run("layout", str(job))
    plan = tmp_path / "out" / "shed" / "shed-joint-plan.svg"
    assert "2'-0" in spoken(plan)
    assert run("sheets", str(job), "--units", "mm").exit_code == 0
    assert "under the least width of 610 mm" in spoken(plan)


def spoken(sheet):
    """All that is written on a sheet, its lines joined."""
    return " ".join(
        "".join(t.itertext()) for t in ElementTree.parse(sheet).iter() if t.tag.endswith("text")
    )


@pytest.fixture
def keyboard():
    """Ctrl+C as in a terminal: a run in the background is started with it turned off."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("keyboard")
def test_a_command_that_is_stopped_says_so_and_leaves_nothing(job, tmp_path, monkeypatch):
    """Ctrl+C while a file is written: status 128 + 2 as of a POSIX shell, no folder, no temporary."""

    def stopped(*_):
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr("kerfline.files.atomic._written", stopped)
    result = run("layout", str(job), "--out", str(tmp_path / "out"))
    assert result.exit_code == 130
    assert result.output.endswith("stopped; no file is left half written\n")
    assert not (tmp_path / "out").exists()
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


@pytest.mark.usefixtures("keyboard")
def test_a_stop_during_the_last_step_waits_for_it(job, tmp_path, monkeypatch):
    """Either all files are new or none is: the renames are carried through."""
    rename = Path.replace

    def stopped(self, target):
        signal.raise_signal(signal.SIGINT)
        return rename(self, target)

    monkeypatch.setattr(Path, "replace", stopped)
    result = run("layout", str(job), "--out", str(tmp_path / "out"))
    assert result.exit_code == 130
    written = sorted(p.name for p in (tmp_path / "out").iterdir())
    assert len(written) == 15
    assert [name for name in written if name.startswith(".")] == [".boathouse-files.json"]
    assert not [name for name in written if name.endswith(".part")]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["layout", "x.toml", "--effort", "x"], "--effort: 'x' is no number;"),
        (
            ["layout", "x.toml", "--effort", "-1"],
            "--effort: -1.0 is not allowed; allowed is 0.1 or more;",
        ),
        (["layout", "x.toml", "--alternatives", "99"], "99 is not allowed; allowed is 1 to 12;"),
        (["layout", "x.toml", "--out", ""], "--out: a folder's name is needed here; found '';"),
        (
            ["layout", "x.toml", "--colour"],
            "No such option",
        ),
        (["layout"], "Missing argument 'SOURCE...';"),
        (["nope"], "No such command 'nope';"),
    ],
)
def test_a_mistyped_command_is_told_in_one_sentence(typed, told, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = run(*typed)
    assert result.exit_code == 2
    (sentence,) = result.stderr.strip().splitlines()
    assert told in sentence
    assert sentence.endswith("--help lists what can be given.")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("source", "told"),
    [
        (".", ".: there is no job file and no drawing in it;"),
        ("no.toml", "no.toml: there is no such file;"),
    ],
)
def test_a_source_that_is_no_file_is_told_so(source, told, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert refusal("layout", source).startswith(told)


def test_an_outline_on_one_line_is_told_to_enclose_no_area(tmp_path):
    path = tmp_path / "flat.toml"
    path.write_text(BOATHOUSE.replace("[40, 24], [0, 24]", "[80, 0]"))
    assert "encloses no area: all its points lie on one line" in refusal("layout", str(path))


def test_a_size_is_laid_out(tmp_path):
    result = run("layout", "40 ft x 28 ft", "--thickness", "4 in", "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    assert (tmp_path / "out" / "slab-40-ft-x-28-ft-joint-plan.pdf").exists()


def test_a_size_becomes_a_job_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    legs = "right 40 ft, up 28 ft, left 12 ft, down 8 ft, left 28 ft"
    result = run("new", legs, "--thickness", "4 in")
    assert result.exit_code == 0, result.output
    job = open_job(tmp_path / "slab-40-ft-x-28-ft.toml")
    assert job.slab.outline.polygon.area == pytest.approx((40 * 28 - 28 * 8) * 304.8**2)
    assert "there is a job file already" in refusal("new", legs, "--thickness", "4 in")


def test_a_size_is_refused_as_anything_else(tmp_path):
    assert "nothing says how thick the slab is" in refusal("layout", "40 ft x 28 ft")
    thick = ("--thickness", "4 in")
    assert "has no layers" in refusal("layout", "4 m x 3 m", *thick, "--walls", "A-WALL")
    assert "too small for a slab" in refusal("layout", "4 mm x 3 mm", *thick)


def test_what_a_file_is_does_not_hang_on_its_name(tmp_path, job):
    renamed = tmp_path / "drawing.dxf"
    job.rename(renamed)
    result = run("layout", str(renamed), "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    drawing = plan(tmp_path).rename(tmp_path / "plan.toml")
    result = run("layout", str(drawing), "--thickness", "4 in", "--out", str(tmp_path / "o2"))
    assert result.exit_code == 0, result.output


def test_a_building_model_is_laid_out(tmp_path):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    writer = ModelWriter("ft")
    writer.prism("IfcSlab", rectangle(0, 0, 40, 28), -1 / 3, 0, predefined="BASESLAB")
    writer.wall((0, 14), (24, 14), 4.5 / 12, 0, 8, bearing=False)
    model = writer.save(tmp_path / "Farm shop")
    result = run("layout", str(model), "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    assert "4 in" in result.output or '4"' in result.output
    assert "says itself what each thing is" in refusal("layout", str(model), "--walls", "A-WALL")
    result = run("new", str(model), "--thickness", "5 in", "--job", str(tmp_path / "shop.toml"))
    assert result.exit_code == 0, result.output
    assert "BASESLAB" in result.output
    job = open_job(tmp_path / "shop.toml")
    assert job.slab.thickness == pytest.approx(127)
    assert [round(w.thickness, 1) for w in job.slab.walls] == [114.3]
