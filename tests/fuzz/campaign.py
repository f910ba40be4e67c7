"""Runs many cases and tells what came of them: ``python tests/fuzz/campaign.py slabs 0 5000 --seconds 600``."""

import argparse
import json
import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from fuzz.kinds import KINDS
from fuzz.outcome import PATIENCE, outcome_of

BATCH = 8


def one(kind, patience, number):
    came = outcome_of(KINDS[kind], number, patience)
    return number, came


def campaign(kind, first, last, seconds, patience, workers, tell):
    """Tries cases until they or the time run out; returns the tally and what was unsound."""
    began, tally, bad = time.monotonic(), Counter(), []
    with ProcessPoolExecutor(workers) as pool:
        for start in range(first, last, BATCH):
            numbers = range(start, min(start + BATCH, last))
            for number, came in pool.map(partial(one, kind, patience), numbers):
                tally[came.kind] += 1
                tally["slow"] += came.seconds > 30
                if not came.sound:
                    bad.append((number, came))
                    tell(number, came)
            if time.monotonic() - began > seconds:
                break
    return tally, bad


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("kind", choices=KINDS)
    parser.add_argument("first", type=int)
    parser.add_argument("last", type=int)
    parser.add_argument("--seconds", type=float, default=600.0)
    parser.add_argument("--patience", type=float, default=PATIENCE)
    parser.add_argument("--workers", type=int, default=2)
    args = parser.parse_args()

    def tell(number, came):
        print(
            f"--- {args.kind} {number}: {came.kind} after {came.seconds:.1f} s\n{came.words}",
            flush=True,
        )

    tally, _ = campaign(
        args.kind, args.first, args.last, args.seconds, args.patience, args.workers, tell
    )
    print(json.dumps(tally))


if __name__ == "__main__":
    main()
