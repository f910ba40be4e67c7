"""Where the command begins: it can be stopped in one line from here on, while its libraries are loaded too."""

import signal

from kerfline.cli.at_once import stop_at_once


def main() -> None:
    """Runs the command line."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, stop_at_once)
    from kerfline.cli.program import run

    run()
