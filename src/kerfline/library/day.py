"""A layout and the day on which it is placed and cut."""

import json
from typing import TYPE_CHECKING, Any

from kerfline.library.result import Result

if TYPE_CHECKING:
    from kerfline.app.day_job import DayOutcome


class Day(Result):
    """A placement day: concrete, placements, saw windows, order of the cuts, take-off."""

    def __init__(self, planned: "DayOutcome", command: str = "day") -> None:
        super().__init__(planned.outcome, planned.plan, command=command)
        self._planned = planned

    def text(self) -> str:
        """The day as a foreman reads it."""
        from kerfline.sheets.day.text import day_text

        return day_text(self._planned.plan, self.outcome.job.display)

    def to_dict(self) -> dict[str, Any]:
        """Everything as ``NAME-day.json`` has it, schema ``kerfline-day/1``."""
        from kerfline.app.run_mark import marked
        from kerfline.files.day_record import day_json

        data: dict[str, Any] = json.loads(day_json(marked(self.outcome).job, self._planned.plan))
        return data

    def files(self) -> dict[str, bytes]:
        """What ``write`` writes, by file name."""
        from kerfline.app.day_job import day_contents

        return day_contents(self._planned)


class Demonstration(Day):
    """The invented workshop with its day: all files of both."""

    def __init__(self, planned: "DayOutcome") -> None:
        super().__init__(planned, "demo")

    def files(self) -> dict[str, bytes]:
        """What ``write`` writes, by file name."""
        from kerfline.app.demo import demo_contents

        return demo_contents(self._planned)
