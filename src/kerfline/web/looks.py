"""What the page is shown: a layout held against the rules, and what a change makes of it."""

import json
from dataclasses import replace
from typing import Any

from kerfline.app.live import measured
from kerfline.app.outcome import Outcome
from kerfline.app.working import Working, working_of
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.differences import difference
from kerfline.web.on_disk import OnDisk
from kerfline.web.picture import Shown, picture
from kerfline.web.states import State, States
from kerfline.web.tracing import tracing_data
from kerfline.web.wire import read_state, state_data

Data = dict[str, Any]


class Looks:
    """Shows working states, each measured from the one before, and keeps the last of them.

    Attributes:
        disk: The job on the disk, which gives what the page does not change.
        states: The last states that pages look at.
    """

    def __init__(self, disk: OnDisk) -> None:
        self.disk = disk
        self.states = States()

    def of_outcome(self, outcome: Outcome) -> Data:
        """A layout as the page is told of it, kept with what its changes are measured from."""
        working = working_of(outcome)
        answer = {"state": state_data(working), "picture": picture(outcome)}
        ground = measured(self.disk.base, working, outcome)
        shown = Shown(ground, picture(ground))
        return {**answer, "at": self.states.keep(working, shown, answer).name}

    def of_state(self, working: Working) -> Data:
        """A working state as the page is told of it."""
        state = self._measured(working, self.states.last())
        return {**state.answer, "at": state.name}

    def change(self, said: Data) -> Data:
        """Does one thing to a state, or nothing, and measures it.

        A page that names a state it was told (``at``) is told what differs from it; one that sends the
        state itself is told everything.
        """
        if "state" not in said:
            return self._changed(said)
        working = read_state(said.get("state"))
        if said.get("action") is not None:
            working = apply(read_action(said["action"]), working)
        return self.of_state(working)

    def _changed(self, said: Data) -> Data:
        """What an action changes of a state that is known here."""
        before = self.states.find(said.get("at"))
        if before is None:
            return {"unknown": True}
        action = read_action(said.get("action"))
        text = json.dumps(said["action"], sort_keys=True)
        # What was shown while the pointer moved is what is kept when it is let go.
        after = self.states.find(before.after.get(text))
        if after is None:
            after = self._measured(apply(action, before.working), before)
            before.after[text] = after.name
        return {"at": after.name, "difference": difference(before.answer, after.answer)}

    def _measured(self, working: Working, before: State | None) -> State:
        """A working state held against the rules; only what differs from another is measured anew.

        Where only what lies under the drawing changed nothing is.
        """
        was = before.shown if before else None
        if was and before and working == replace(before.working, tracing=working.tracing):
            drawn = was.picture | {"tracing": tracing_data(working.tracing)}
            shown = Shown(was.outcome, drawn)
        else:
            outcome = measured(self.disk.base, working, was.outcome if was else None)
            shown = Shown(outcome, picture(outcome, was))
        answer = {"state": state_data(working), "picture": shown.picture}
        return self.states.keep(working, shown, answer)
