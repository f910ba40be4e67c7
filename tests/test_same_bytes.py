"""The same job gives the same files, byte for byte, in every process."""

import os
import subprocess
import sys
from pathlib import Path

JOB = Path(__file__).parents[1] / "fixtures" / "boathouse" / "boathouse.toml"

RUN = "from kerfline.cli import main; main()"

SEEDS = ("0", "4", "6")
"""Hash seeds under which a set of the names of DXF classes is walked in different orders."""


def files_of(folder, seed):
    """Name and content of every file that a process with a seed of its own writes."""
    subprocess.run(
        [sys.executable, "-c", RUN, "layout", str(JOB), "--out", str(folder)],
        env={**os.environ, "PYTHONHASHSEED": seed},
        check=True,
        capture_output=True,
    )
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def test_processes_with_different_hash_seeds_write_the_same_bytes(tmp_path):
    first, *others = (files_of(tmp_path / seed, seed) for seed in SEEDS)
    assert {Path(name).suffix for name in first} >= {".dxf", ".svg", ".pdf", ".xlsx", ".json"}
    for other in others:
        assert sorted(other) == sorted(first)
        assert [name for name in first if other[name] != first[name]] == []
