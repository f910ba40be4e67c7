"""The last working states that pages look at, so that a page need not send its own with every question.

A page that names a state which is not here any more (the server was started again, or many other
changes came between) sends the whole once more.
"""

import secrets
import threading
from collections import OrderedDict
from dataclasses import dataclass, field
from typing import Any

from kerfline.app.working import Working
from kerfline.web.picture import Shown

Data = dict[str, Any]

KEPT = 12
"""States kept; neighbouring ones share most of their parts."""

NAME_BYTES = 9


@dataclass
class State:
    """One working state and what the page was told of it.

    Attributes:
        name: Its name.
        working: The state.
        shown: Its layout, findings and picture as a changed state is measured from.
        answer: The state and its picture as the page was told.
        after: Names of the states that actions on this one gave, by the action's text.
    """

    name: str
    working: Working
    shown: Shown
    answer: Data
    after: dict[str, str] = field(default_factory=dict)


class States:
    """The last states, by name; may be asked from several threads."""

    def __init__(self) -> None:
        self.kept: OrderedDict[str, State] = OrderedDict()
        self.lock = threading.Lock()

    def keep(self, working: Working, shown: Shown, answer: Data) -> State:
        """Keeps a state under a new name."""
        state = State(secrets.token_urlsafe(NAME_BYTES), working, shown, answer)
        with self.lock:
            self.kept[state.name] = state
            while len(self.kept) > KEPT:
                self.kept.popitem(last=False)
        return state

    def last(self) -> State | None:
        """The state that was kept or asked for last; None where there is none."""
        with self.lock:
            return next(reversed(self.kept.values()), None)

    def find(self, name: object) -> State | None:
        """The state of that name, which counts as used now; None where it is gone."""
        with self.lock:
            state = self.kept.get(name) if isinstance(name, str) else None
            if state:
                self.kept.move_to_end(state.name)
            return state
