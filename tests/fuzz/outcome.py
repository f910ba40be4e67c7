"""What comes of a case: a layout that the oracle agrees with, a refusal with a sentence, or a fault."""

import contextlib
import signal
import time
import traceback
import warnings
from dataclasses import dataclass

from kerfline.errors import InputRefused

PATIENCE = 40.0
"""Seconds of processor time after which a case is without end."""


@dataclass(frozen=True)
class Came:
    """What came of a case: ``layout``, ``refused``, ``crash``, ``endless``, ``silence`` or ``mumble``."""

    kind: str
    words: str = ""
    seconds: float = 0.0

    @property
    def sound(self):
        return self.kind in {"layout", "refused"}


class Endless(Exception):
    """A case went on for too long."""


@contextlib.contextmanager
def patience(seconds):
    def stop(_signal, _frame):
        raise Endless

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def outcome_of(run, case, seconds=PATIENCE):
    """Runs a case; ``run`` yields what is wrong and was not said."""
    began = time.process_time()
    try:
        with patience(seconds), warnings.catch_warnings():
            warnings.simplefilter("error")
            silent = list(run(case))
        kind, words = ("silence", "; ".join(silent)) if silent else ("layout", "")
    except InputRefused as refused:
        kind, words = _sentences(refused)
    except Endless:
        kind, words = "endless", traceback.format_exc(limit=-4)
    except Exception:
        kind, words = "crash", traceback.format_exc(limit=-5)
    return Came(kind, words, time.process_time() - began)


def _sentences(refused):
    """A refusal must be sentences that a person can act on."""
    said = [str(m) for m in refused.mistakes]
    poor = [
        s
        for s in said
        if len(s) < 12 or not s.endswith((".", "?")) or "Traceback" in s or "\n" in s
    ]
    return ("mumble", "; ".join(poor)) if poor or not said else ("refused", said[0])
