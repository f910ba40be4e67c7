"""Runs many cases and tells what came of them: ``python tests/fuzz/campaign.py slabs 0 5000 --log slabs.jsonl``.

The cases run one after another in a process of their own, which is killed where a case goes on without end:
a solver that never comes back is counted and passed over. A line is written for each case, so that a campaign
can be stopped and taken up again.
"""

import argparse
import json
import multiprocessing
import sys
import time
from collections import Counter
from dataclasses import asdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from fuzz.kinds import KINDS
from fuzz.outcome import PATIENCE, Came, outcome_of

GRACE = 10.0
"""Seconds of processor time that a case may overrun its patience before its process is killed."""

IDLE = 300.0
"""Seconds by the clock after which a case that uses no processor is taken to be without end."""


def serve(kind, patience, pipe):
    """What the process for the cases does: a number in, what came of it out."""
    while True:
        number = pipe.recv()
        _allow(patience + GRACE)
        pipe.send(outcome_of(KINDS[kind], number, patience))


def _allow(seconds):
    """Lets the system end this process after so much more processor time, even within a library."""
    import resource

    used = resource.getrusage(resource.RUSAGE_SELF)
    limit = int(used.ru_utime + used.ru_stime + seconds) + 1
    resource.setrlimit(resource.RLIMIT_CPU, (limit, resource.RLIM_INFINITY))


class Runner:
    """Runs cases of a kind in a process that is started anew where one had to be ended."""

    def __init__(self, kind, patience):
        self.kind, self.patience, self.process = kind, patience, None

    def came_of(self, number):
        if self.process is None:
            self._start()
        began = time.monotonic()
        self.pipe.send(number)
        try:
            if self.pipe.poll(self.patience + IDLE):
                return self.pipe.recv()
            words = f"no answer within {self.patience + IDLE:.0f} s"
        except EOFError:
            self.process.join()
            words = f"its process ended with {self.process.exitcode}"
        self.end()
        return Came("endless", words, time.monotonic() - began)

    def _start(self):
        self.pipe, theirs = multiprocessing.Pipe()
        self.process = multiprocessing.Process(
            target=serve, args=(self.kind, self.patience, theirs), daemon=True
        )
        self.process.start()
        theirs.close()

    def end(self):
        if self.process is not None:
            self.process.kill()
            self.process.join()
            self.process = None


def campaign(kind, numbers, seconds, patience, tell):
    """Tries cases until they or the time run out; returns the tally."""
    began, tally, runner = time.monotonic(), Counter(), Runner(kind, patience)
    for number in numbers:
        if time.monotonic() - began > seconds:
            break
        came = runner.came_of(number)
        tally[came.kind] += 1
        tally["slow"] += came.seconds > 30
        tell(number, came)
    runner.end()
    return tally


def _done(log):
    if log is None or not log.exists():
        return set()
    return {json.loads(line)["number"] for line in log.read_text().splitlines()}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("kind", choices=KINDS)
    parser.add_argument("first", type=int)
    parser.add_argument("last", type=int)
    parser.add_argument("--seconds", type=float, default=600.0)
    parser.add_argument("--patience", type=float, default=PATIENCE)
    parser.add_argument(
        "--log", type=Path, help="a line for each case; those in it are not run again"
    )
    args = parser.parse_args()
    done = _done(args.log)

    def tell(number, came):
        if args.log is not None:
            with args.log.open("a") as log:
                log.write(json.dumps({"number": number, **asdict(came)}) + "\n")
        if not came.sound:
            print(
                f"--- {args.kind} {number}: {came.kind}, {came.seconds:.1f} s\n{came.words}",
                flush=True,
            )

    numbers = (n for n in range(args.first, args.last) if n not in done)
    print(json.dumps(campaign(args.kind, numbers, args.seconds, args.patience, tell)))


if __name__ == "__main__":
    main()
