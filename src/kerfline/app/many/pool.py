"""Work on many things in worker processes, of which some may die; answers as they come.

The processes are those of ``concurrent.futures``. What this module adds: no more tasks wait in them than
they need, a worker that is killed costs only the task it was at, and a stop ends them at once.
"""

import contextlib
import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from multiprocessing.process import BaseProcess
from types import FrameType
from typing import TypeVar

Task = TypeVar("Task")
Answer = TypeVar("Answer")

AHEAD = 2
"""Tasks that wait in the pool for each worker, so that none is idle and memory stays bounded."""

TASKS_OF_A_WORKER = 50
"""After so many the workers make place for fresh ones, so that what their libraries keep is given back.
(The pool's own ``max_tasks_per_child`` may wait for ever in the Pythons before 3.12.)"""

PATIENCE = 3.0
"""Seconds that a worker has to tidy up when all is stopped."""

KILLED = "its worker was killed from outside, as a system that is short of memory does"


class WorkerDied(Exception):
    """A worker process ended while it was at a task, twice."""


def workers_of_this_machine() -> int:
    """Processors that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def answers(
    work: Callable[[Task], Answer],
    tasks: Sequence[Task],
    workers: int,
    retried: Callable[[Task], Task] = lambda task: task,
) -> Iterator[tuple[int, Answer | Exception]]:
    """Does all tasks and gives each answer with the number of its task, as they come.

    Args:
        work: A function of a module, which a worker can import.
        tasks: What it is asked, each of which can be pickled.
        workers: Processes at the same time.
        retried: A task as it is tried again after its worker died, when some of its work may be done.

    Yields:
        The task's number and its answer, or the exception that it ended in; ``WorkerDied`` where its
        worker was killed, and killed again when the task was tried by itself.
    """
    left = dict(enumerate(tasks))
    while left:
        running: dict[Future[Answer], int] = {}
        try:
            with _pool(workers) as pool:
                some = dict(islice(left.items(), TASKS_OF_A_WORKER * workers))
                for number, answer in _as_they_come(pool, work, some, running, AHEAD * workers):
                    del left[number]
                    yield number, answer
        except BrokenProcessPool:
            for number in sorted(running.values()):
                yield number, _alone(work, retried(left.pop(number)))


def answers_of(
    executor: Executor, work: Callable[[Task], Answer], tasks: Sequence[Task], ahead: int
) -> Iterator[tuple[int, Answer | Exception]]:
    """The same with an executor of the user's own, such as a cluster's."""
    yield from _as_they_come(executor, work, dict(enumerate(tasks)), {}, ahead)


def _as_they_come(
    pool: Executor,
    work: Callable[[Task], Answer],
    tasks: dict[int, Task],
    running: "dict[Future[Answer], int]",
    ahead: int,
) -> Iterator[tuple[int, Answer | Exception]]:
    """Keeps a bounded number of tasks in the pool.

    Raises:
        BrokenProcessPool: A worker died; ``running`` holds what was in the pool then.
    """
    waiting = iter(tasks.items())
    while True:
        for number, task in waiting:
            running[pool.submit(work, task)] = number
            if len(running) >= ahead:
                break
        if not running:
            return
        done, _ = wait(running, return_when=FIRST_COMPLETED)
        for future in sorted(done, key=lambda f: running[f]):
            try:
                answer: Answer | Exception = future.result()
            except BrokenProcessPool:
                raise
            except Exception as error:
                answer = error
            yield running.pop(future), answer


def _alone(work: Callable[[Task], Answer], task: Task) -> Answer | Exception:
    """One task in a worker of its own: whether it was this one that its worker died of."""
    with _pool(1) as pool:
        try:
            return pool.submit(work, task).result()
        except BrokenProcessPool:
            return WorkerDied(KILLED)
        except Exception as error:
            return error


@contextlib.contextmanager
def _pool(workers: int) -> Iterator[ProcessPoolExecutor]:
    """Worker processes that a stop ends at once; they leave Ctrl+C to the process that asked."""
    ways = multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("forkserver" if "forkserver" in ways else "spawn")
    before = set(multiprocessing.active_children())
    pool = ProcessPoolExecutor(
        workers,
        mp_context=context,
        initializer=_leave_stops,
    )
    try:
        yield pool
    except BaseException:
        _end(set(multiprocessing.active_children()) - before)
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _end(children: set[BaseProcess]) -> None:
    """Ends worker processes: what they have begun to write is tidied up; one that does not listen is killed."""
    for child in children:
        child.terminate()
    for child in children:
        child.join(PATIENCE)
        if child.is_alive():
            child.kill()
            child.join()


def _leave_stops() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _stop)


def _stop(_number: int, _frame: FrameType | None) -> None:
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    raise SystemExit
