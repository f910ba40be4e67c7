"""The work on one slab of many, as a worker process does it: read, lay out or check, write, and one line."""

import faulthandler
import hashlib
import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from importlib.metadata import version
from pathlib import Path
from types import FrameType

from kerfline.app.check import check_job, with_depth
from kerfline.app.check_report import check_contents, verdicts_of
from kerfline.app.day import plan_day
from kerfline.app.day_job import DayOutcome, day_beside, day_contents, plan_beside
from kerfline.app.deliver import contents
from kerfline.app.live import outcome_of
from kerfline.app.many.line import Fate, Line, line_data, line_of, read_line
from kerfline.app.open_job import open_job
from kerfline.app.outcome import Outcome
from kerfline.app.wishes import Wishes
from kerfline.app.write_files import write_files
from kerfline.errors import KerflineError
from kerfline.files.day_file import read_day
from kerfline.files.job_text import job_text
from kerfline.files.set_record import Run, run_before
from kerfline.model.day import DayInput
from kerfline.model.job import Job, SheetChoice

GRACE = 60.0
"""Seconds beyond the limit in which a solver that does not listen may still end by itself."""


@dataclass(frozen=True, kw_only=True)
class Task:
    """One slab and what is asked of it.

    Attributes:
        command: ``layout``, ``check`` or ``day``.
        source: Its file.
        stem: Its name as it stands in file names.
        out: Folder of all; the slab's own folder in it is called by its name.
        wishes: What was said beside the file.
        plans: Folder of the layouts found so far, by plan; shared by the workers.
        limit: Seconds after which it is given up.
        again: Do it though nothing has changed.
        review: Joint plans for review, with the findings.
        rules: Rule sets of a check, the first one that of the job.
        depth: Depth of cut noted for joints that have none, for a check.
    """

    command: str
    source: Path
    stem: str
    out: Path
    wishes: Wishes
    plans: Path
    limit: float
    again: bool = False
    review: bool = False
    rules: tuple[str, ...] = ()
    depth: str | None = None


class TooLong(Exception):
    """The time for a slab is over."""


def do(task: Task) -> Line:
    """Does a task; what is wrong with its slab is told in its line."""
    plain = Line(source=str(task.source), name=task.source.stem)
    try:
        with _limited(task.limit):
            return _do(task)
    except KerflineError as refused:
        first, *more = str(refused).splitlines()
        words = f"{first} ({len(more)} more)" if more else first
        return replace(plain, fate=Fate.REFUSED, words=words)
    except TooLong:
        words = f"not done after {task.limit:g} seconds; lay it out by itself, or raise --limit"
        return replace(plain, fate=Fate.FAILED, words=words)
    except MemoryError:
        return replace(plain, fate=Fate.FAILED, words="there is not enough memory for it")


def _do(task: Task) -> Line:
    job = _asked(task)
    day = _day(task, job)
    digest = _digest(task, job, day)
    folder = task.out / task.stem
    before = None if task.again else run_before(folder, task.stem, task.command)
    if before and before.source == digest:
        with suppress(TypeError):
            return replace(read_line(before.line), source=str(task.source))
    outcome, files = MAKERS[task.command](task, job)
    line = replace(line_of(outcome, str(task.source)), folder=str(folder), files=len(files))
    write_files(outcome, folder, task.command, files, Run(source=digest, line=line_data(line)))
    return line


def _asked(task: Task) -> Job:
    job = open_job(task.source, task.wishes)
    job = with_depth(job, task.depth)
    return job.for_review() if task.review else job


def _day(task: Task, job: Job) -> DayInput | None:
    """What is known of the placement day, which is part of what the sheets are made from."""
    return read_day(job, task.source) if task.command == "day" else day_beside(job, task.source)


def _layout(task: Task, job: Job) -> tuple[Outcome, dict[str, bytes]]:
    outcome = _found(task, job)
    return outcome, contents(outcome, plan_beside(outcome, task.source))


def _check(task: Task, job: Job) -> tuple[Outcome, dict[str, bytes]]:
    outcome = check_job(job)
    return outcome, check_contents(outcome, verdicts_of(outcome, task.rules))


def _placed(task: Task, job: Job) -> tuple[Outcome, dict[str, bytes]]:
    day = read_day(job, task.source)
    outcome = _found(task, job)
    plan = plan_day(job.slab, outcome.layout, outcome.rules, day, job.display, job=job.name)
    return outcome, day_contents(DayOutcome(outcome=outcome, plan=plan))


MAKERS: Mapping[str, Callable[[Task, Job], tuple[Outcome, dict[str, bytes]]]] = {
    "layout": _layout,
    "check": _check,
    "day": _placed,
}


def _found(task: Task, job: Job) -> Outcome:
    """The layout of a job: that of an equal plan which another worker laid out before, else its own."""
    path = task.plans / f"{_plan(job)}.layout"
    with suppress(OSError, EOFError):
        found: Outcome = pickle.loads(path.read_bytes())  # written by this very run
        return replace(found, job=job)
    outcome = outcome_of(job)
    part = path.with_suffix(f".{os.getpid()}")
    part.write_bytes(pickle.dumps(outcome))
    part.replace(path)
    return outcome


def _plan(job: Job) -> str:
    """What makes two plans equal: all that a layout hangs on, whatever they are called."""
    plain = replace(job, name="", sheet=SheetChoice(), notes=(), reading=())
    return hashlib.sha256(job_text(plain).encode()).hexdigest()


def _digest(task: Task, job: Job, day: DayInput | None) -> str:
    """What makes a run the same as the one before: the job, the day, what was asked, the program."""
    said = (task.command, task.review, task.rules, task.depth, job.notes, job.sheet, day)
    text = f"{version('kerfline')}\n{job_text(job)}\n{said!r}"
    return hashlib.sha256(text.encode()).hexdigest()


@contextmanager
def _limited(seconds: float) -> Iterator[None]:
    """Gives up after so many seconds; a solver that does not listen then ends the process a while later.

    Only in the main thread of a process, and where the system has an alarm.
    """
    main = threading.current_thread() is threading.main_thread()
    if not main or not hasattr(signal, "setitimer"):
        yield
        return
    before = signal.signal(signal.SIGALRM, _over)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    with open(os.devnull, "w") as nowhere:  # noqa: PTH123 - a handle that the watchdog keeps
        faulthandler.dump_traceback_later(seconds + GRACE, exit=True, file=nowhere)
        try:
            yield
        finally:
            faulthandler.cancel_dump_traceback_later()
            signal.setitimer(signal.ITIMER_REAL, 0)
            signal.signal(signal.SIGALRM, before)


def _over(_number: int, _frame: FrameType | None) -> None:
    raise TooLong
