"""The demonstration, as a user runs it."""

from commands import run


def test_the_workshop_is_written_where_it_is_asked_for(tmp_path):
    result = run("demo", "--out", tmp_path / "workshop")
    assert result.exit_code == 0, result.output
    names = {path.name for path in (tmp_path / "workshop").iterdir()}
    assert {"community-workshop-joint-plan.pdf", "community-workshop-day.txt"} <= names
    assert "Community workshop" in result.output
