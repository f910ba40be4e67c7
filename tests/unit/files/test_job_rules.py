"""The rules that a job file chooses."""

import pytest

from kerfline.files.job_rules import ChosenRules, chosen_rules
from kerfline.files.toml_file import read_toml
from kerfline.units import Unit


def chosen(tmp_path, text, shared=None):
    path = tmp_path / "job.toml"
    path.write_text(text)
    if shared is not None:
        (tmp_path / "office.toml").write_text(shared)
    return chosen_rules(read_toml(path, "job file"), path, Unit.FT)


def test_a_job_that_chooses_nothing_changes_nothing(tmp_path):
    assert chosen(tmp_path, "") == ChosenRules({})


def test_of_two_changes_that_meet_the_jobs_own_holds(tmp_path):
    found = chosen(
        tmp_path, '[rules]\nfile = "office.toml"\n[rules.overrides.aspect]\nmaximum = 1.4\n',
        "[aspect]\nmaximum = 1.3\nadvised = 1.2\n",
    )  # fmt: skip
    assert found.mistakes == ()
    assert found.overrides == {"aspect": {"maximum": 1.4, "advised": 1.2}}


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ('[rules]\nset = "moat"\n', "job.toml line 2", "moat"),
        ('[cut]\nmethod = "axe"\n', "job.toml line 2", "axe"),
        ("[rules.overrides]\nmoat = 3\n", "job.toml line 2", "moat"),
        ('[rules]\nfile = "nowhere.toml"\n', "", "there is no such file of rules"),
    ],
)
def test_a_choice_that_there_is_not_is_told_at_its_line(tmp_path, text, place, words):
    (mistake, *_) = chosen(tmp_path, text).mistakes
    assert str(mistake).startswith(place)
    assert words in str(mistake)


def test_a_mistake_in_the_shared_file_names_that_file(tmp_path):
    (mistake, *_) = chosen(
        tmp_path, '[rules]\nfile = "office.toml"\n', "[aspect]\nmoat = 3\n"
    ).mistakes
    assert str(mistake).startswith("office.toml")


def test_values_of_a_wrong_kind_are_left_to_the_check_of_kinds(tmp_path):
    assert chosen(tmp_path, "[rules]\nset = 3\n") == ChosenRules({})
