"""What a program can ask for of one slab."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kerfline.library.checked import Checked
from kerfline.library.day import Day
from kerfline.library.opening import Opened, Source, opened
from kerfline.library.options import Options, wishes_of
from kerfline.library.result import Result

if TYPE_CHECKING:
    from kerfline.app.check_beside import Beside
    from kerfline.app.outcome import Outcome
    from kerfline.model.job import Job

Tell = Callable[[str], None]
"""Told in words what is being done."""


def lay_out(  # noqa: PLR0913 - each is said by name
    source: Source,
    *,
    thickness: str | None = None,
    units: str | None = None,
    rules: str | None = None,
    to_maximum: bool = False,
    effort: float | None = None,
    layers: Mapping[str, Sequence[str]] | None = None,
    options: Options | None = None,
    alternatives: int = 1,
    progress: Tell | None = None,
) -> Result:
    """Places the joints of a slab and holds them against its rules.

    A layout that was kept in the job file from the page is taken as it was kept.

    Args:
        source: A job file, a drawing, a size as text, or a ``Slab``.
        thickness: Such as ``"4 in"``; needed where the source does not say.
        units: Unit of a drawing that does not say its own: ``ft``, ``in``, ``m`` or ``mm``.
        rules: Name of a rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        effort: Seconds of a plain machine, counted in steps, to prove the layout the best.
        layers: For a drawing, its layers by what they hold: ``{"walls": ["A-WALL*"]}``.
        options: All that may be said at once; what is named above goes first.
        alternatives: How many good layouts that differ are wanted.
        progress: Told in words what the engine is at.

    Raises:
        InputRefused: The source or its placement day cannot be used; every mistake is listed.

    Example:
        >>> result = lay_out("20 ft x 10 ft", thickness="4 in")
        >>> [(joint.id, joint.kind) for joint in result.joints]
        [('J1', 'control')]
        >>> result.joints[0].line.length == 10 * 304.8
        True
    """
    said = _said(
        options, thickness=thickness, units=units, rules=rules, to_maximum=to_maximum, effort=effort, layers=layers,
    )  # fmt: skip
    return _laid_out(opened(source, said), alternatives, progress)


def check(  # noqa: PLR0913 - each is said by name
    source: Source,
    *,
    thickness: str | None = None,
    units: str | None = None,
    rules: str | Sequence[str] | None = None,
    layers: Mapping[str, Sequence[str]] | None = None,
    options: Options | None = None,
    depth: str | None = None,
    plan: str | Path | None = None,
    beside: str | Path | None = None,
    survey: str | Path | None = None,
    folder: str | Path | None = None,
    mend: bool = False,
    progress: Tell | None = None,
) -> Checked:
    """Holds the joints that a slab gives against its rules.

    Args:
        source: A job file or a drawing with joints, or a ``Slab`` that gives them.
        thickness: As for ``lay_out``.
        units: As for ``lay_out``.
        rules: Name of a rule set, or several to compare; the first one counts.
        layers: As for ``lay_out``.
        options: As for ``lay_out``.
        depth: Depth of cut noted for control joints that have none.
        plan: The plan that the joints were cut by.
        beside: The slab next door, in the same coordinates.
        survey: Points measured on site, for a job with ``[site]``.
        folder: For a survey of a job without joints, where its layout was written.
        mend: Add the fewest joints that clear the errors.
        progress: Told in words what the engine is at, while it mends.

    Raises:
        InputRefused: The source cannot be used, or gives no joints.

    Example:
        >>> from kerfline import Slab
        >>> bay = Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
        >>> sorted({finding.rule for finding in check(bay).findings if finding.severity == "error"})
        ['aspect', 'span']
    """
    from kerfline.app.check import with_depth
    from kerfline.app.mend import mend as mended_of
    from kerfline.app.survey import survey_text, with_survey

    sets = (rules,) if isinstance(rules, str) else tuple(rules or ())
    first = sets[0] if sets else None
    said = _said(options, thickness=thickness, units=units, rules=first, layers=layers)
    read = opened(source, said, asks=True)
    job = with_depth(read.job, depth)
    words, more = "", dict[str, bytes]()
    if survey is None:
        outcome = _held(job, plan, beside)
    else:
        outcome = _set_out(read, job, plan, beside, folder)
        outcome, found, more = with_survey(outcome, Path(survey))
        words = survey_text(found, job.display)
    mended = mended_of(outcome, progress) if mend else None
    return Checked(outcome, sets, survey=words, more=more, mended=mended)


def plan_day(
    source: str | Path,
    *,
    thickness: str | None = None,
    rules: str | None = None,
    to_maximum: bool = False,
    options: Options | None = None,
    progress: Tell | None = None,
) -> Day:
    """Lays out what a job file gives and works its placement day out.

    Args:
        source: A job file; its ``[day]`` tables say what is known of the day.
        thickness: As for ``lay_out``.
        rules: As for ``lay_out``.
        to_maximum: As for ``lay_out``.
        options: As for ``lay_out``.
        progress: Told in words what the engine is at.

    Raises:
        InputRefused: The job or its day cannot be used.
    """
    from kerfline.app.day_job import day_job

    said = _said(options, thickness=thickness, rules=rules, to_maximum=to_maximum)
    return Day(day_job(Path(source), wishes_of(said), progress))


def laid_out(source: Source, options: Options) -> Result:
    """The same as ``lay_out`` for one of many."""
    return _laid_out(opened(source, options), 1, None)


def _laid_out(read: Opened, alternatives: int, progress: Tell | None) -> Result:
    from kerfline.app.alternatives import choices
    from kerfline.app.day_job import day_beside, plan_beside
    from kerfline.app.live import outcome_of

    if read.path:
        day_beside(read.job, read.path)  # a day that cannot be used is refused before the search
    found = choices(read.job, alternatives, progress) if alternatives > 1 else ()
    outcome = found[0].outcome if found else outcome_of(read.job, progress)
    plan = plan_beside(outcome, read.path) if read.path else None
    return Result(outcome, plan, readings=read.readings, choices=found, wanted=alternatives)


def _said(options: Options | None, **named: Any) -> Options:  # noqa: ANN401 - fields of Options
    """The options with what was named beside them."""
    return replace(options or Options(), **{name: value for name, value in named.items() if value})


def _held(job: "Job", plan: str | Path | None, beside: str | Path | None) -> "Outcome":
    from kerfline.app.check import check_job

    return check_job(job, _others(job, plan, beside))


def _set_out(
    read: Opened,
    job: "Job",
    plan: str | Path | None,
    beside: str | Path | None,
    folder: str | Path | None,
) -> "Outcome":
    """What a survey is held against: the job's own joints, else its layout."""
    from kerfline.app.survey import planned

    if job.slab.pinned or read.path is None:
        return _held(job, plan, beside)
    return planned(job, Path(plan) if plan else None, read.path, Path(folder) if folder else None)


def _others(job: "Job", plan: str | Path | None, beside: str | Path | None) -> "Beside":
    """The plan and the slab next door that the user named."""
    from kerfline.app.check_beside import Beside, other_of

    return Beside(
        plan=other_of(Path(plan), job, "--plan") if plan else None,
        neighbour=other_of(Path(beside), job, "--beside") if beside else None,
    )
