"""Ctrl+C ends a command with one line and the shell's own exit status for it, wherever it was; so does a mistyped one."""

import signal
import sys
from types import FrameType
from typing import Any

import click

from kerfline.cli.at_once import STOPPED, STOPPED_WORDS, stop_at_once
from kerfline.cli.usage import usage_sentence


class StoppableGroup(click.Group):
    """A group of commands each of which may be stopped from the keyboard."""

    def invoke(self, ctx: click.Context) -> Any:
        """Runs the command that was asked for."""
        watch = _Watch()
        try:
            watch.tidies = True
            try:
                return super().invoke(ctx)
            finally:
                watch.tidies = False
        except click.UsageError as error:
            if isinstance(error, click.exceptions.NoArgsIsHelpError):
                raise
            click.echo(usage_sentence(error), err=True)
            ctx.exit(error.exit_code)
        except BaseException:  # a library that is stopped while it is loaded fails in its own way
            watch.tidies = False
            if not watch.stopped:
                raise
            click.echo(STOPPED_WORDS, err=True)
            ctx.exit(STOPPED)
        finally:
            watch.end()


class _Watch:
    """Notes that the user has asked to stop; leaves a signal alone that somebody else handles.

    Attributes:
        stopped: Whether he has.
        tidies: Whether the command is at work, so that a stop goes through it and it tidies up.
    """

    def __init__(self) -> None:
        self.stopped = self.tidies = False
        self.before = signal.getsignal(signal.SIGINT)
        self.watching = self.before in (signal.default_int_handler, stop_at_once)
        if self.watching:
            signal.signal(signal.SIGINT, self._stop)
            sys.unraisablehook, sys.excepthook = self._unraisable, self._uncaught

    def end(self) -> None:
        if self.watching:
            signal.signal(signal.SIGINT, self.before)
            sys.unraisablehook, sys.excepthook = sys.__unraisablehook__, sys.__excepthook__

    def _stop(self, number: int, frame: FrameType | None) -> None:
        if not self.tidies:
            stop_at_once(number, frame)
        self.stopped = True
        raise KeyboardInterrupt

    @staticmethod
    def _unraisable(lost: "sys.UnraisableHookArgs") -> None:
        """Stops at once where Python could not pass a stop on, as while it was tidying up memory."""
        if issubclass(lost.exc_type, KeyboardInterrupt):
            stop_at_once(signal.SIGINT, None)
        else:
            sys.__unraisablehook__(lost)

    def _uncaught(self, *lost: Any) -> None:
        """Says nothing of a stop: a library in C that is stopped while it is loaded would print its trace."""
        if not self.stopped:
            sys.__excepthook__(*lost)
