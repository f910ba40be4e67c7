"""A stop waits for a moment."""

import contextlib
import signal
import threading

import pytest

from kerfline.files.not_stopped import STOPS, not_stopped


@pytest.mark.parametrize("number", STOPS)
def test_a_stop_is_noted_and_passed_on_at_the_end(number):
    heard = []
    before = signal.signal(number, lambda *_: heard.append("stopped"))
    try:
        with not_stopped():
            signal.raise_signal(number)
            signal.raise_signal(number)
            assert heard == []
        assert heard == ["stopped"], "once"
    finally:
        signal.signal(number, before)


def test_the_handlers_are_as_they_were_also_after_a_failure():
    before = [signal.getsignal(number) for number in STOPS]
    with contextlib.suppress(ValueError), not_stopped():
        raise ValueError
    assert [signal.getsignal(number) for number in STOPS] == before


def test_in_another_thread_no_stop_arrives_and_nothing_is_changed():
    seen = []

    def work():
        with not_stopped():
            seen.append(signal.getsignal(signal.SIGINT))

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert seen == [signal.getsignal(signal.SIGINT)]
