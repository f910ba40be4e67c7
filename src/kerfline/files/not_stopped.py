"""Lets a stop from the keyboard or the system wait for a moment."""

import contextlib
import signal
import threading
from collections.abc import Iterator

STOPS = (signal.SIGINT, signal.SIGTERM)


@contextlib.contextmanager
def not_stopped() -> Iterator[None]:
    """Notes a stop (Ctrl+C, SIGTERM) and passes it on at the end.

    The handlers are changed, since a mask holds for one thread alone and the system gives the signal to
    any other, such as those of the solver. Outside the main thread no stop arrives.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    noted: list[int] = []
    before = {number: signal.getsignal(number) for number in STOPS}
    try:
        for number, handler in before.items():
            if handler is not None:  # one that Python did not set cannot be put back
                signal.signal(number, lambda arrived, _frame: noted.append(arrived))
        yield
    finally:
        for number, handler in before.items():
            if handler is not None:
                signal.signal(number, handler)
        for stop in noted[:1]:
            signal.raise_signal(stop)
