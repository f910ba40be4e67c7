"""Runs a reader of foreign files in a process of its own, so that no file can stop or fill this one."""

import os
import subprocess
import sys
from collections.abc import Sequence

MEMORY = 1_000_000_000
"""Bytes of memory that such a process may take, where the system can hold it to that."""

ALONE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
"""A thread for each processor would lay claim to that many more stacks."""


class Overrun(Exception):
    """The process took too long, took too much memory, or died."""


def run_apart(
    module: str, arguments: Sequence[str], seconds: float, *, given: bytes = b""
) -> bytes:
    """What a module of ours writes when it is run by itself.

    Args:
        module: Its name; it is run as a program, and calls ``bound`` first of all.
        arguments: What it is given.
        seconds: How long it may take.
        given: What it reads from its input.

    Raises:
        Overrun: It took too long, took too much memory, or died.
    """
    # A module of this package, run by this Python; nothing of the foreign file is in the command but its name.
    command = [sys.executable, "-m", module, *arguments]
    try:
        done = subprocess.run(
            command,
            input=given,
            capture_output=True,
            timeout=seconds,
            check=False,
            env={**os.environ, **ALONE},
        )
    except subprocess.TimeoutExpired:
        raise Overrun from None
    if done.returncode:
        raise Overrun
    return done.stdout


def bound() -> None:
    """Holds this process to its memory; a system that knows no such bound goes without."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
