"""Ctrl+C ends a command with one line and the shell's own exit status for it, wherever it was; so does a mistyped one."""

import signal
from types import FrameType
from typing import Any

import click

from kerfline.cli.usage import usage_sentence

STOPPED = 130
"""Exit status of a command that was stopped: 128 and the number of the signal (POSIX shells)."""


class StoppableGroup(click.Group):
    """A group of commands each of which may be stopped from the keyboard."""

    def invoke(self, ctx: click.Context) -> Any:
        """Runs the command that was asked for."""
        watch = _Watch()
        try:
            return super().invoke(ctx)
        except click.UsageError as error:
            if isinstance(error, click.exceptions.NoArgsIsHelpError):
                raise
            click.echo(usage_sentence(error), err=True)
            ctx.exit(error.exit_code)
        except BaseException:  # a library that is stopped while it is loaded fails in its own way
            if not watch.stopped:
                raise
            click.echo("stopped; no file is left half written", err=True)
            ctx.exit(STOPPED)
        finally:
            watch.end()


class _Watch:
    """Notes that the user has asked to stop; leaves a signal alone that somebody else handles."""

    def __init__(self) -> None:
        self.stopped = False
        self.watching = signal.getsignal(signal.SIGINT) is signal.default_int_handler
        if self.watching:
            signal.signal(signal.SIGINT, self._stop)

    def end(self) -> None:
        if self.watching:
            signal.signal(signal.SIGINT, signal.default_int_handler)

    def _stop(self, _number: int, _frame: FrameType | None) -> None:
        self.stopped = True
        raise KeyboardInterrupt
