"""Work that may take long, each piece in a process of its own that can be stopped at once.

Whoever stops it frees all that it held: processor, memory and the solver inside. A process that has done
its work waits for the next piece, since starting one takes a second.
"""

import contextlib
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import TypeVar, cast

from kerfline.errors import KerflineError

Answer = TypeVar("Answer")

SAID, DONE, FAILED = "said", "done", "failed"

PATIENCE = 2.0
"""Seconds that a process has to end when it is asked to."""


class Stopped(KerflineError):
    """The work was stopped before it was done."""


@dataclass
class _Worker:
    """A process that waits for work."""

    process: BaseProcess
    line: Connection

    def end(self) -> None:
        """Ends it, whatever it is at, and frees what it held."""
        self.stop()
        self.process.join(PATIENCE)
        if self.process.is_alive():
            self.process.kill()
            self.process.join()
        self.line.close()

    def stop(self) -> None:
        """Tells it to end, with every process that it started, such as a reader of a drawing."""
        if self.process.pid:
            with contextlib.suppress(OSError, AttributeError):
                os.killpg(self.process.pid, signal.SIGKILL)
        self.process.terminate()


@dataclass
class _Piece:
    """A piece of work that is being done.

    Attributes:
        worker: Who does it.
        words: What it is at.
        stopped: Whether somebody stopped it.
    """

    worker: _Worker
    words: str = ""
    stopped: bool = False


@dataclass
class LongWork:
    """Does pieces of work by name; may be asked from several threads."""

    idle: list[_Worker] = field(default_factory=list)
    pieces: dict[str, _Piece] = field(default_factory=dict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def ask(
        self, said: Mapping[str, object], work: Callable[..., Answer], *asked: object
    ) -> Answer:
        """Does a piece of work that a page asked for: apart, where it gave it a name to be stopped by.

        Raises:
            Stopped: Somebody stopped it, or its process died.
            KerflineError: What the work raised.
        """
        name = said.get("work")
        return self.do(name, work, *asked) if isinstance(name, str) and name else work(*asked)

    def do(self, name: str, work: Callable[..., Answer], *asked: object) -> Answer:
        """Does a piece of work and waits for it.

        Args:
            name: What it can be stopped by.
            work: A function of a module; it takes ``progress`` besides, to be told in words what it is at.
            asked: What it is given, which can be pickled.

        Raises:
            Stopped: Somebody stopped it, or its process died.
            KerflineError: What the work raised.
        """
        worker = self._worker()
        piece = _Piece(worker)
        with self.lock:
            self.pieces[name] = piece
        try:
            worker.line.send((work, asked))
            answer = cast("Answer", self._answer(piece))
        except (EOFError, OSError):
            worker.end()
            message = (
                "Stopped." if piece.stopped else "The work ended before it was done. Try again."
            )
            raise Stopped(message) from None
        finally:
            with self.lock:
                self.pieces.pop(name, None)
        return answer

    def _answer(self, piece: _Piece) -> object:
        """What a piece of work comes to; its worker waits for the next one then.

        Raises:
            EOFError: Its process is gone.
        """
        while True:
            kind, what = piece.worker.line.recv()
            if kind == SAID:
                piece.words = what
                continue
            with self.lock:
                if piece.stopped:
                    raise EOFError
                self.idle.append(piece.worker)
            if kind == FAILED:
                raise what
            return what

    def stop(self, name: str) -> None:
        """Stops a piece of work; one that is done already stays done."""
        with self.lock:
            piece = self.pieces.get(name)
            if piece is None or piece.stopped or piece.worker in self.idle:
                return
            piece.stopped = True
            piece.worker.stop()

    def words(self, name: str) -> str:
        """What a piece of work is at, in words; empty where it has not said."""
        with self.lock:
            piece = self.pieces.get(name)
            return piece.words if piece else ""

    def warm(self) -> None:
        """Has a process ready before it is needed."""
        with self.lock:
            if not self.idle:
                self.idle.append(_started())

    def close(self) -> None:
        """Ends every process."""
        with self.lock:
            workers = [*self.idle, *(piece.worker for piece in self.pieces.values())]
            self.idle.clear()
        for worker in workers:
            worker.end()

    def _worker(self) -> _Worker:
        with self.lock:
            return self.idle.pop() if self.idle else _started()


def _started() -> _Worker:
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_wait_for_work, args=(theirs,), daemon=True)
    process.start()
    theirs.close()
    return _Worker(process, ours)


def _wait_for_work(line: Connection) -> None:
    """What a process does all its life: it ends when whoever started it is gone."""
    _stand_alone()
    import kerfline.app.deliver
    import kerfline.app.lay_out  # noqa: F401 - so that the first piece of work need not wait for them

    with contextlib.suppress(EOFError, OSError):
        while True:
            work, asked = line.recv()
            try:
                answer = (DONE, work(*asked, progress=lambda words: line.send((SAID, words))))
            except KerflineError as error:
                answer = (FAILED, error)
            line.send(answer)


def _stand_alone() -> None:
    """Makes this process the head of its own group, which ends whole when the server is gone.

    A key that stops the server is not for us: the server ends us. Where it is killed and cannot, we see it.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with contextlib.suppress(OSError, AttributeError):
        os.setpgid(0, 0)
    threading.Thread(target=_end_with_the_server, daemon=True).start()


def _end_with_the_server() -> None:
    server = multiprocessing.parent_process()
    if server is None:
        return
    server.join()
    with contextlib.suppress(OSError, AttributeError):
        if os.getpgrp() == os.getpid():
            os.killpg(0, signal.SIGKILL)
    os._exit(1)
