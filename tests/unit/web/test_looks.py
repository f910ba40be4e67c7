"""A state is shown as it is measured; a change of it as what differs, the same as the whole would be."""

from kerfline.app.live import outcome_of
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.web.looks import Looks
from kerfline.web.on_disk import OnDisk
from kerfline.web.wire import read_state
from paged import house

MOVE = {"do": "slide", "id": "J2", "by": [100.0, 0.0]}


def shown(folder):
    """What is shown of the boathouse at first, and who shows it."""
    disk = OnDisk(house(folder), Wishes())
    looks = Looks(disk)
    return looks, looks.of_outcome(outcome_of(open_job(disk.path)))


def test_a_state_is_shown_like_the_outcome_that_it_is_of(tmp_path):
    looks, first = shown(tmp_path)
    again = looks.of_state(read_state(first["state"]))
    assert again["picture"] == first["picture"]
    assert again["at"] != first["at"]


def test_a_change_of_a_known_state_gives_what_differs(tmp_path):
    looks, first = shown(tmp_path)
    whole = looks.change({"state": first["state"], "action": MOVE})
    told = looks.change({"at": first["at"], "action": MOVE})
    assert sorted(told) == ["at", "difference"]
    assert looks.states.find(told["at"]).answer["picture"] == whole["picture"]
    assert looks.change({"at": first["at"], "action": MOVE})["at"] == told["at"]


def test_no_action_leaves_a_state_as_it_is(tmp_path):
    looks, first = shown(tmp_path)
    assert looks.change({"state": first["state"]})["picture"] == first["picture"]


def test_a_state_that_is_gone_is_said_to_be_unknown(tmp_path):
    looks, _ = shown(tmp_path)
    assert looks.change({"at": "gone", "action": MOVE}) == {"unknown": True}
