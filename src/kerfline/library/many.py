"""What a program can ask for of many slabs."""

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.errors import KerflineError
from kerfline.library.calls import laid_out
from kerfline.library.opening import Source, named
from kerfline.library.options import Options, wishes_of
from kerfline.library.result import Refusal, Result

if TYPE_CHECKING:
    from kerfline.app.many.line import Line

AHEAD = 32
"""Slabs that wait at a time in an executor of the user's own."""

LIMIT = 300.0
"""Seconds after which one of many is given up."""


def lay_out_many(
    sources: Iterable[Source],
    *,
    executor: Executor | None = None,
    workers: int | None = None,
    options: Options | None = None,
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
    tasks = [(source, options or Options()) for source in given]
    if executor is None:
        asked = answers(lay_out_one, tasks, workers or workers_of_this_machine())
    else:
        asked = answers_of(executor, lay_out_one, tasks, AHEAD)
    done: dict[int, Result | Refusal] = {}
    for number, answer in asked:
        done[number] = _failed(given[number], answer) if isinstance(answer, Exception) else answer
    return [done[number] for number in range(len(given))]


def lay_out_one(task: tuple[Source, Options]) -> Result | Refusal:
    """The work on one of many, in a worker; what is wrong with the slab is its answer."""
    source, options = task
    try:
        return laid_out(source, options)
    except KerflineError as refused:
        return Refusal(source=named(source), message=str(refused))


def are_many(sources: Sequence[Path]) -> bool:
    """Whether more than one file is meant: several names, a folder, or a pattern."""
    from kerfline.app.many.sources import are_many as meant

    return meant(sources)


@dataclass(frozen=True, kw_only=True)
class Summary:
    """What became of many slabs.

    Attributes:
        text: A table with a line for each, and the totals.
        files: The summary's own files.
        status: The worst exit status: 0 all clean, 1 errors among the findings, 2 a slab was refused or failed.
    """

    text: str
    files: tuple[Path, ...]
    status: int


def write_many(  # noqa: PLR0913 - each is said by name
    sources: Sequence[Path],
    folder: Path | None = None,
    *,
    command: str = "layout",
    options: Options | None = None,
    rules: Sequence[str] = (),
    depth: str | None = None,
    again: bool = False,
    workers: int | None = None,
    limit: float = LIMIT,
    tell: Callable[[int, int, str], None] = lambda _done, _of, _name: None,
) -> Summary:
    """Lays out, checks or plans the day of many slabs, writes each into a folder of its own, and sums them up.

    Args:
        sources: Files, folders and patterns.
        folder: Folder in which each has its own; ``out`` where it is None.
        command: ``layout``, ``check`` or ``day``.
        options: What is said of all of them.
        rules: For a check, rule sets to compare; the first one counts.
        depth: For a check, depth of cut noted for control joints that have none.
        again: Do those too that have not changed since.
        workers: How many are done at the same time; one a processor where it is None.
        limit: Seconds after which one is given up.
        tell: Told how many are done, of how many, and the name of the last.

    Raises:
        InputRefused: A folder or pattern holds no slab.
    """
    from kerfline.app.many.pool import workers_of_this_machine
    from kerfline.app.many.run import Many, do_many
    from kerfline.app.many.sources import sources as meant
    from kerfline.app.many.summary import NAME, summary_files, summary_text, worst
    from kerfline.app.many.work import Task
    from kerfline.files.set_record import write_set

    root, found = folder or Path("out"), meant(sources)
    said = options or Options()
    like = Task(
        command=command, source=Path(), stem="", out=root, wishes=wishes_of(said, asks=command == "check"), plans=Path(), again=again,
        review=said.review, rules=tuple(rules), depth=depth, limit=limit,
    )  # fmt: skip

    def told(done: int, line: "Line") -> None:
        tell(done, len(found), line.name)

    many = Many(like=like, workers=workers or workers_of_this_machine())
    lines = do_many(many, found, told)
    written = write_set(root, NAME, command, "", summary_files(lines)).files
    return Summary(text=summary_text(lines, written), files=written, status=worst(lines))


def _failed(source: Source, error: Exception) -> Refusal:
    """A slab whose worker came to grief."""
    return Refusal(source=named(source), message=str(error) or repr(error))
