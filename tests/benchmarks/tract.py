"""A tract of houses laid out at once: how long, with how much processor and memory, with one worker and with two.

``PYTHONPATH=tests python tests/benchmarks/tract.py [houses]`` draws houses with the forge, one of them broken, lays them
out by the command a user would give, and prints a row for each number of workers. Times mean something on a quiet
machine only: the load beside them says whether it was one.
"""

import csv
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

import psutil

from forge.habits import HABITS
from forge.plans import plan

HOUSES = 100
ROW = "| {workers} | {houses} | {seconds:.0f} | {processor:.0f} | {memory:.0f} | {done} | {failed} | {load:.1f} |"
HEAD = (
    "| workers | houses | seconds | seconds of processor | MB at most, all processes | done | not done | load before |\n"
    "|---|---|---|---|---|---|---|---|"
)


def draw(folder: Path, houses: int) -> None:
    """Draws houses of one habit, each of its own seed, and a file that is no drawing."""
    for seed in range(houses - 1):
        drawn = HABITS[0](Random(seed), plan(Random(seed)))
        drawn.document.saveas(folder / f"house-{seed:03d}.dxf")
    (folder / "broken.dxf").write_text("  0\nSECTION\nnothing else")


def measured(plans: Path, out: Path, workers: int) -> str:
    """Lays the tract out and says what it took."""
    command = [
        sys.executable,
        "-m",
        "kerfline",
        "layout",
        plans,
        "--out",
        out,
        "--workers",
        workers,
    ]
    load = os.getloadavg()[0]
    begun = time.perf_counter()
    run = subprocess.Popen(
        [str(word) for word in [*command, "--thickness", "4 in", "--rules", "residential"]],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    most, spent = 0, {}
    while run.poll() is None:
        held = _held(run.pid)
        most = max(most, sum(memory for memory, _ in held.values()))
        spent |= {pid: processor for pid, (_, processor) in held.items()}
        time.sleep(0.1)
    seconds, processor = time.perf_counter() - begun, sum(spent.values())
    with (out / "summary.csv").open(newline="") as file:
        states = [row["state"] for row in csv.DictReader(file)]
    done = states.count("done")
    return ROW.format(
        workers=workers, houses=len(states), seconds=seconds, processor=processor, memory=most / 1e6,
        done=done, failed=len(states) - done, load=load,
    )  # fmt: skip


def _held(pid: int) -> dict[int, tuple[int, float]]:
    """For a process and all below it the bytes that it holds and the seconds of processor that it has had."""
    held = {}
    try:
        parent = psutil.Process(pid)
        for process in [parent, *parent.children(recursive=True)]:
            times = process.cpu_times()
            held[process.pid] = process.memory_info().rss, times.user + times.system
    except psutil.NoSuchProcess:
        pass
    return held


def main() -> None:
    """Prints the table."""
    houses = int(sys.argv[1]) if len(sys.argv) > 1 else HOUSES
    with tempfile.TemporaryDirectory() as folder:
        plans = Path(folder) / "plans"
        plans.mkdir()
        draw(plans, houses)
        print(HEAD)
        for workers in (1, 2):
            print(measured(plans, Path(folder) / f"out-{workers}", workers), flush=True)


if __name__ == "__main__":
    main()
