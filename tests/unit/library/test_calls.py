"""What a program asks of one slab is what the command line gives."""

import json

import pytest
from click.testing import CliRunner

import kerfline
from boathouses import BOATHOUSE, FT, boathouse_file, laid_out, same_files
from kerfline.cli.program import kerfline as command


@pytest.fixture(scope="module")
def result():
    return laid_out()


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


@pytest.fixture(scope="module")
def with_day(tmp_path_factory):
    return boathouse_file(tmp_path_factory.mktemp("day"))


def test_a_job_with_a_day_is_parted_into_placements_as_by_the_command(with_day, tmp_path):
    CliRunner().invoke(command, ["layout", str(with_day), "--out", str(tmp_path / "command")])
    written = kerfline.lay_out(with_day).write(tmp_path / "library")
    names = same_files(written, tmp_path / "command")
    assert "boathouse-cut-sheet-placement-2.pdf" in names
    assert written.text.startswith("files")


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


def test_check_holds_what_is_given():
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    found = kerfline.check(bays)
    spans = [f for f in found.findings if f.rule == "span" and f.severity == "error"]
    assert [f.measured for f in spans] == [pytest.approx(20 * FT)]
    assert not found.clean
