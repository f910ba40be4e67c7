"""The placement day, as a user runs it."""

from pathlib import Path

from commands import boathouse, refusal, run, square_plan


def test_the_day_of_a_drawing_is_refused(tmp_path: Path) -> None:
    told = refusal("day", str(square_plan(tmp_path)), "--thickness", "4 in")
    assert "only a job file says something of the placement day" in told
    assert "kerfline new" in told


def test_a_day_is_written_and_read_out(tmp_path):
    result = run("day", boathouse(tmp_path), "--out", tmp_path / "out")
    assert result.exit_code == 0, result.output
    text = (tmp_path / "out" / "boathouse-day.txt").read_text()
    assert text.split("\n\nrun mark")[0] in result.output
    assert {"boathouse-day-sheet.pdf", "boathouse-day.json", "boathouse.xlsx"} <= {
        path.name for path in (tmp_path / "out").iterdir()
    }
