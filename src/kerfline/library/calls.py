"""What a program can ask for."""

from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.errors import KerflineError
from kerfline.library.result import Refusal, Result
from kerfline.library.slab import Slab, job_of

if TYPE_CHECKING:
    from kerfline.model.job import Job

Source = str | Path | Slab
"""A job file, a drawing, a size as text (``"40 ft x 28 ft"``), or a slab."""

AHEAD = 32
"""Slabs that wait at a time in an executor of the user's own."""


@dataclass(frozen=True, kw_only=True)
class Options:
    """What may be said of a slab beside its source; None leaves it to the source."""

    thickness: str | None = None
    units: str | None = None
    rules: str | None = None
    to_maximum: bool = False
    effort: float | None = None
    layers: Mapping[str, Sequence[str]] | None = None


def lay_out(
    source: Source,
    *,
    thickness: str | None = None,
    units: str | None = None,
    rules: str | None = None,
    to_maximum: bool = False,
    effort: float | None = None,
    layers: Mapping[str, Sequence[str]] | None = None,
) -> Result:
    """Places the joints of a slab and holds them against its rules.

    Args:
        source: A job file, a drawing, a size as text, or a ``Slab``.
        thickness: Such as ``"4 in"``; needed where the source does not say.
        units: Unit of a drawing that does not say its own: ``ft``, ``in``, ``m`` or ``mm``.
        rules: Name of a rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        effort: Seconds of a plain machine, counted in steps, to prove the layout the best.
        layers: For a drawing, its layers by what they hold: ``{"walls": ["A-WALL*"]}``.

    Raises:
        InputRefused: The source cannot be used; every mistake is listed.

    Example:
        >>> result = lay_out("20 ft x 10 ft", thickness="4 in")
        >>> [(joint.id, joint.kind) for joint in result.joints]
        [('J1', 'control')]
        >>> result.joints[0].line.length == 10 * 304.8
        True
    """
    options = Options(
        thickness=thickness, units=units, rules=rules, to_maximum=to_maximum, effort=effort, layers=layers,
    )  # fmt: skip
    return _laid_out(source, options)


def check(
    source: Source,
    *,
    thickness: str | None = None,
    units: str | None = None,
    rules: str | None = None,
    layers: Mapping[str, Sequence[str]] | None = None,
) -> Result:
    """Holds the joints that a slab gives against its rules.

    Args:
        source: A job file or a drawing with joints, or a ``Slab`` that gives them.
        thickness: As for ``lay_out``.
        units: As for ``lay_out``.
        rules: As for ``lay_out``.
        layers: As for ``lay_out``.

    Raises:
        InputRefused: The source cannot be used, or gives no joints.

    Example:
        >>> bay = Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
        >>> sorted({finding.rule for finding in check(bay).findings if finding.severity == "error"})
        ['aspect', 'span']
    """
    from kerfline.app.check import check_job

    options = Options(thickness=thickness, units=units, rules=rules, layers=layers)
    return Result(check_job(_job(source, options)), "check")


def lay_out_many(
    sources: Iterable[Source],
    *,
    executor: Executor | None = None,
    workers: int | None = None,
    options: Options = Options(),
) -> list[Result | Refusal]:
    """Lays many slabs out at the same time, in the order given; one that fails stops no other.

    Args:
        sources: Job files, drawings, sizes or slabs.
        executor: Any of ``concurrent.futures``, such as a cluster's; worker processes of this machine where it is
            None. A script that uses those guards its own start with ``if __name__ == "__main__":``.
        workers: How many worker processes; one a processor where it is None.
        options: What is said of all of them.

    Returns:
        A ``Result`` for each slab, or a ``Refusal`` with the reason.

    Example:
        >>> from concurrent.futures import ThreadPoolExecutor
        >>> with ThreadPoolExecutor(2) as threads:
        ...     sizes = ["20 ft x 10 ft", "nonsense.toml"]
        ...     done = lay_out_many(sizes, executor=threads, options=Options(thickness="4 in"))
        >>> [one.clean for one in done]
        [True, False]
    """
    from kerfline.app.many.pool import answers, answers_of, workers_of_this_machine

    given = list(sources)
    tasks = [(source, options) for source in given]
    if executor is None:
        asked = answers(lay_out_one, tasks, workers or workers_of_this_machine())
    else:
        asked = answers_of(executor, lay_out_one, tasks, AHEAD)
    done: dict[int, Result | Refusal] = {}
    for number, answer in asked:
        done[number] = _failed(given[number], answer) if isinstance(answer, Exception) else answer
    return [done[number] for number in range(len(given))]


def _failed(source: Source, error: Exception) -> Refusal:
    """A slab whose worker came to grief."""
    return Refusal(source=_named(source), message=str(error) or repr(error))


def lay_out_one(task: tuple[Source, Options]) -> Result | Refusal:
    """The work on one of many, in a worker; what is wrong with the slab is its answer."""
    source, options = task
    try:
        return _laid_out(source, options)
    except KerflineError as refused:
        return Refusal(source=_named(source), message=str(refused))


def _laid_out(source: Source, options: Options) -> Result:
    from kerfline.app.live import outcome_of

    return Result(outcome_of(_job(source, options)))


def _job(source: Source, options: Options) -> "Job":
    from kerfline.app.open_job import open_job
    from kerfline.app.wishes import Wishes
    from kerfline.units import Unit

    if isinstance(source, Slab):
        job = job_of(source, options.thickness)
        rules = replace(
            job.rules,
            name=options.rules or job.rules.name,
            to_maximum=options.to_maximum or job.rules.to_maximum,
        )
        return replace(job, rules=rules, effort=options.effort or job.effort)
    wishes = Wishes(
        thickness=options.thickness,
        units=Unit(options.units) if options.units else None,
        rules=options.rules,
        to_maximum=options.to_maximum,
        effort=options.effort,
        layers=tuple((kind, tuple(names)) for kind, names in (options.layers or {}).items()),
        asks=True,
    )
    return open_job(Path(source), wishes)


def _named(source: Source) -> str:
    return source.name if isinstance(source, Slab) else str(source)
