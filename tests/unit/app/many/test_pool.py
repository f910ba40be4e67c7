"""Worker processes: every task has one answer, and a worker that is killed costs its own task alone."""

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from kerfline.app.many.pool import KILLED, WorkerDied, answers, answers_of
from worked import deadly, mixed, squared


def test_every_task_has_its_answer():
    found = dict(answers(squared, range(9), 2))
    assert sorted(found) == list(range(9))
    assert isinstance(found.pop(3), ValueError)
    assert found == {n: n * n for n in range(9) if n != 3}


def test_a_worker_that_is_killed_costs_its_own_task_alone():
    found = dict(answers(deadly, range(12), 2))
    died = found.pop(4)
    assert isinstance(died, WorkerDied)
    assert str(died) == KILLED
    assert found == {n: -n for n in range(12) if n != 4}


def test_a_stop_does_not_wait_for_what_is_running():
    start = time.monotonic()
    asked = answers(mixed, [0, 1], 2)
    assert next(asked) == (0, 0)
    with pytest.raises(KeyboardInterrupt):
        asked.throw(KeyboardInterrupt)
    assert time.monotonic() - start < 60


def test_any_executor_will_do_and_few_tasks_wait_in_it():
    seen = []

    def slow(number: int) -> int:
        seen.append(number)
        return number

    with ThreadPoolExecutor(1) as threads:
        asked = answers_of(threads, slow, range(100), 3)
        next(asked)
        time.sleep(0.2)
        assert len(seen) <= 4
        assert sorted(n for n, _ in asked) == list(range(1, 100))
