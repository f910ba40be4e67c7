"""The command line: options to one call of ``app``, errors to one sentence and an exit status."""

from kerfline.cli.start import main

__all__ = ["main"]
