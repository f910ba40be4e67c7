"""Words on the terminal while something takes long."""

import pytest

from kerfline.cli import progress as module
from kerfline.cli.progress import PATIENCE, progress


@pytest.mark.parametrize(
    ("seconds", "told"), [(PATIENCE, ""), (PATIENCE + 0.1, "  searching ...\n")]
)
def test_nothing_is_said_of_what_is_done_soon(monkeypatch, capsys, seconds, told):
    clock = [100.0]
    monkeypatch.setattr(module.time, "monotonic", lambda: clock[0])
    tell = progress()
    clock[0] += seconds
    tell("searching")
    assert capsys.readouterr() == ("", told)
