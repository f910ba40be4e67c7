"""Settings that hold for every test."""

import os
import signal

from hypothesis import HealthCheck, settings

# A shell that starts the tests in the background leaves Ctrl+C ignored, and what the tests start would inherit it.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

# Machines are shared, so no example has a deadline; the profile for checks repeats the same examples.
settings.register_profile("dev", max_examples=25, deadline=None)
settings.register_profile(
    "ci",
    max_examples=100,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile(os.environ.get("KERFLINE_HYPOTHESIS", "ci"))
