"""The commands as a user runs them: exit status, what they print, what they write."""

from pathlib import Path

import pytest

from commands import BOATHOUSE, boathouse, refusal, run, square_plan


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


def test_check_finds_a_span_that_is_too_long(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_text(BOATHOUSE + "\n[[joint]]\npath = [[20, 0], [20, 24]]\n")
    result = run("check", str(path))
    assert result.exit_code == 1, result.output
    assert "span" in result.output


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
    path = square_plan(tmp_path, units=0)
    assert "--units" in refusal("layout", str(path), "--thickness", "4 in")
    result = run(
        "layout", str(path), "--thickness", "4 in", "--units", "in", "--out", str(tmp_path / "o")
    )
    assert result.exit_code == 0, result.output


def test_a_drawing_cut_short_is_refused(tmp_path: Path) -> None:
    path = square_plan(tmp_path)
    text = path.read_text()
    path.write_text(text[: text.index("ENTITIES")])
    assert "plan.dxf" in refusal("layout", str(path), "--thickness", "4 in")


def test_a_layer_that_is_not_there_is_named(tmp_path: Path) -> None:
    words = refusal(
        "layout", str(square_plan(tmp_path)), "--thickness", "4 in", "--walls", "A-WALLS-NEW"
    )
    assert "A-WALLS-NEW" in words
    assert "A-WALL" in words


def test_a_drawing_without_thickness_asks_for_it(tmp_path: Path) -> None:
    assert "--thickness" in refusal("layout", str(square_plan(tmp_path)))


def test_paths_that_cannot_be_used_are_refused(job: Path, tmp_path: Path) -> None:
    assert "nowhere.toml" in refusal("layout", str(tmp_path / "nowhere.toml"))
    (tmp_path / "empty").mkdir()
    assert "no job file and no drawing in it" in refusal("layout", str(tmp_path / "empty"))
    taken = tmp_path / "taken"
    taken.write_text("a file, not a folder")
    assert "taken" in refusal("layout", str(job), "--out", str(taken))
    assert taken.read_text() == "a file, not a folder"


def test_what_only_a_drawing_is_told_is_refused_beside_a_job_file(job: Path) -> None:
    """It would be passed over without a word otherwise."""
    told = refusal("layout", str(job), "--walls", "A-*", "--units", "m")
    assert "--walls: this is said beside a drawing" in told
    assert "--units: this is said beside a drawing" in told


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
    drawing = square_plan(tmp_path).rename(tmp_path / "plan.toml")
    result = run("layout", str(drawing), "--thickness", "4 in", "--out", str(tmp_path / "o2"))
    assert result.exit_code == 0, result.output
