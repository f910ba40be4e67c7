"""A layout that somebody else made, held against rules."""

from functools import cached_property
from typing import TYPE_CHECKING

from kerfline.library.result import Result

if TYPE_CHECKING:
    from kerfline.app.mend import Mended
    from kerfline.app.outcome import Outcome
    from kerfline.checks.verdict import SetVerdict


class Checked(Result):
    """Given joints held against one rule set or several; the first one counts.

    Attributes:
        survey: What a survey found, in words; empty where there was none.
    """

    def __init__(
        self,
        outcome: "Outcome",
        rule_sets: tuple[str, ...] = (),
        *,
        survey: str = "",
        more: dict[str, bytes] | None = None,
        mended: "Mended | None" = None,
    ) -> None:
        super().__init__(outcome, command="check")
        self.survey = survey
        self._sets, self._more, self._mended = rule_sets, more or {}, mended

    @property
    def amended(self) -> Result | None:
        """The layout with the fewest joints that clear the errors, where it was asked for."""
        return Result(self._mended.after) if self._mended else None

    def amendment(self) -> str:
        """What was added to mend it and what is left; empty where no mend was asked for."""
        from kerfline.app.deliver_mend import mend_text

        return mend_text(self._mended) if self._mended else ""

    def report(self) -> str:
        """The verdict rule by rule, each with its source; rule sets side by side where there are several."""
        from kerfline.app.check_report import report

        return report(self.outcome, self._verdicts)

    def reading_text(self) -> str:
        """How the drawing was read and what was repaired, for a terminal; empty where nothing is said."""
        from kerfline.app.check_report import reading_text

        return reading_text(self.outcome.job)

    def files(self) -> dict[str, bytes]:
        """What ``write`` writes, by file name."""
        from kerfline.app.check_report import check_contents
        from kerfline.app.deliver_mend import mend_contents

        amended = mend_contents(self._mended) if self._mended else {}
        return {**check_contents(self.outcome, self._verdicts), **self._more, **amended}

    @cached_property
    def _verdicts(self) -> "tuple[SetVerdict, ...]":
        from kerfline.app.check_report import verdicts_of

        return verdicts_of(self.outcome, self._sets)
