"""The HiGHS solver, set up so that it prints nothing and answers the same every time."""

from collections.abc import Mapping
from typing import Any


def silent_solver(settings: Mapping[str, str | int | float]) -> Any:  # noqa: ANN401 - highspy has few types
    """A solver that prints nothing, not even its name when it starts, on one thread.

    Args:
        settings: Options of the library beside those.
    """
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's name
            """Callbacks stay off: turning them on makes the solver print its name."""

    solver: Any = Silent()  # type: ignore[no-untyped-call] # the library's constructor
    for name, value in {"output_flag": False, "threads": 1, **settings}.items():
        solver.setOptionValue(name, value)
    return solver


class Rounds:
    """Counts the rounds of a branching search and stops it after a number: a clock would not repeat.

    A round is a pass of cuts at the root, a heuristic or a node of the tree.

    Attributes:
        most: The number of rounds after which the search stops.
        done: How many there were.
    """

    def __init__(self, solver: Any, most: int) -> None:  # noqa: ANN401 - highspy has few types
        import highspy

        self.most = most
        self.done = 0
        # The base class's own: that of ``Highs`` turns all callbacks on and prints the solver's name.
        base: Any = highspy.Highs.__base__
        base.setCallback(solver, self._count, None)
        solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)

    def _count(self, _kind: Any, _text: str, _out: Any, stop: Any, _own: Any) -> None:  # noqa: ANN401
        """Called by the solver once a round."""
        self.done += 1
        if self.done > self.most:
            stop.user_interrupt = 1
