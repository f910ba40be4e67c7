"""Does many slabs and sums them up."""

import hashlib
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from kerfline.app.many.line import Fate, Line
from kerfline.app.many.pool import WorkerDied, answers
from kerfline.app.many.sources import Source
from kerfline.app.many.work import Task, do


@dataclass(frozen=True, kw_only=True)
class Many:
    """What is asked of all slabs; the fields are those of a task.

    Attributes:
        like: A task as that of every slab shall be, whatever its source.
        workers: Worker processes.
    """

    like: Task
    workers: int


def do_many(
    asked: Many, found: Sequence[Source], tell: Callable[[int, Line], None] = lambda _n, _l: None
) -> tuple[Line, ...]:
    """The line of each slab, in the order given; one that fails stops no other.

    Args:
        asked: What is asked.
        found: The slabs.
        tell: Told how many are done, and the line of the one that came last.
    """
    lines: dict[int, Line] = {}
    with tempfile.TemporaryDirectory(prefix="kerfline-") as plans:
        like = replace(asked.like, plans=Path(plans))
        alike = _alike(found, lines)
        numbers = [n for n in range(len(found)) if n not in alike and n not in lines]
        tasks = [replace(like, source=found[n].path, stem=found[n].stem) for n in numbers]
        for place, answer in answers(do, tasks, min(asked.workers, max(len(tasks), 1)), _retried):
            number = numbers[place]
            lines[number] = answer if isinstance(answer, Line) else _failed(found[number], answer)
            tell(len(lines), lines[number])
    for number, first in alike.items():
        lines[number] = replace(
            lines[first],
            source=str(found[number].path),
            fate=Fate.SAME if lines[first].counts else lines[first].fate,
            words=f"the same as {found[first].path}" if lines[first].counts else lines[first].words,
        )
    return tuple(lines[number] for number in range(len(found)))


def _alike(found: Sequence[Source], lines: dict[int, Line]) -> dict[int, int]:
    """Slabs whose file has the same name and bytes as an earlier one's, by number, with that one's.

    One that would be written over another is refused in its line.
    """
    first: dict[str, int] = {}
    alike: dict[int, int] = {}
    for number, source in enumerate(found):
        earlier = first.setdefault(source.stem, number)
        if earlier == number:
            continue
        if _same_file(source.path, found[earlier].path):
            alike[number] = earlier
        else:
            lines[number] = Line(
                source=str(source.path),
                name=source.path.stem,
                fate=Fate.REFUSED,
                words=(
                    f"{source.path} and {found[earlier].path} have one name, so that the sheets of one would "
                    "be written over those of the other; give one another name under [job]"
                ),
            )
    return alike


def _same_file(one: Path, other: Path) -> bool:
    """Whether two files hold the same, and name nothing beside them that could differ."""
    try:
        first, second = one.read_bytes(), other.read_bytes()
    except OSError:
        return False
    beside = one.parent != other.parent and any(w in first for w in (b"file", b"weather"))
    return not beside and hashlib.sha256(first).digest() == hashlib.sha256(second).digest()


def _retried(task: Task) -> Task:
    """A task whose worker died: what it has written already is written again, for this run did it."""
    return replace(task, again=True)


def _failed(source: Source, error: Exception | object) -> Line:
    if isinstance(error, WorkerDied):
        words = f"{error}; lay it out by itself, or with fewer workers"
    else:
        what = " ".join(str(error).split())
        words = f"a mistake inside the program ({type(error).__name__}: {what}); please report it"
    return Line(source=str(source.path), name=source.path.stem, fate=Fate.FAILED, words=words)
