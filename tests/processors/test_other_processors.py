"""The same input gives the same bytes whatever the processor, the hash seed and the number of threads.

Each process takes other kernels: those of the BLAS by ``OPENBLAS_CORETYPE``, those of numpy by
``NPY_DISABLE_CPU_FEATURES``, those of the C library's sine and logarithm by ``GLIBC_TUNABLES``. Their results
differ in the last bits.
"""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

TESTS = Path(__file__).parents[1]

WIDE = "X86_V4 AVX512_ICL"
"""What numpy finds on processors of the last years only."""

PLAIN = {
    "NPY_DISABLE_CPU_FEATURES": f"X86_V3 {WIDE}",
    "GLIBC_TUNABLES": "glibc.cpu.hwcaps=-AVX2,-FMA,-FMA4",
}
"""As on a processor of fifteen years ago."""

MACHINES = {
    "this one": {"PYTHONHASHSEED": "0"},
    "fifteen years old": {
        "OPENBLAS_CORETYPE": "Prescott",
        "OPENBLAS_NUM_THREADS": "1",
        "PYTHONHASHSEED": "1",
        **PLAIN,
    },
    "ten years old": {
        "OPENBLAS_CORETYPE": "Haswell",
        "OPENBLAS_NUM_THREADS": "2",
        "PYTHONHASHSEED": "2",
        "NPY_DISABLE_CPU_FEATURES": WIDE,
    },
    "of another maker": {
        "OPENBLAS_CORETYPE": "Zen",
        "OPENBLAS_NUM_THREADS": "1",
        "PYTHONHASHSEED": "3",
        "NPY_DISABLE_CPU_FEATURES": WIDE,
    },
    "wide": {
        "OPENBLAS_CORETYPE": "SkylakeX",
        "OPENBLAS_NUM_THREADS": "2",
        "PYTHONHASHSEED": "4",
    },
}

FEATURES = np._core._multiarray_umath.__cpu_features__


def printed(sample, machine):
    if machine == "wide" and not FEATURES.get("AVX512_SKX"):
        pytest.skip("this processor lacks the instructions")
    made = subprocess.run(
        [sys.executable, "-W", "ignore", TESTS / "processors" / "print_layouts.py", sample],
        env={
            **os.environ,
            "PYTHONPATH": os.pathsep.join([str(TESTS), *sys.path]),
            **MACHINES[machine],
        },
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr[-2000:]
    return made.stdout.splitlines()


@pytest.fixture(scope="module")
def here():
    return printed("short", "this one")


@pytest.mark.parametrize("machine", ["fifteen years old", "wide"])
def test_layouts_are_the_same_on_another_processor(here, machine):
    pytest.importorskip("geopandas")
    assert len(here) > 5
    assert printed("short", machine) == here


@pytest.mark.long
def test_footprints_and_the_demonstration_are_the_same_on_every_processor():
    pytest.importorskip("geopandas")
    first = printed("long", "this one")
    for machine in (m for m in MACHINES if m != "wide" or FEATURES.get("AVX512_SKX")):
        assert printed("long", machine) == first, machine
