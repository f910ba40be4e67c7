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
