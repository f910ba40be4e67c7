"""Drawings of the forge through both doors: as DXF, and as DWG by the library's own writer."""

from pathlib import Path

import pytest
from ezdxf import bbox
from ezdxf.document import Drawing

from dwg_writing import bind_references, save_dwg
from forge.habits import HABITS
from forge.measure import forged
from forge.wall_habits import regions
from kerfline.app.open_job import open_job
from kerfline.app.save_job import same_slab
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.model.job import Job

WISHES = Wishes(thickness="4 in")
TOO_FAR = "lies too far from its origin"
"""What is said of a DWG in which the library cannot read lines; the DXF of the same drawing is read."""


def read(path: Path) -> Job | str:
    """The job of a file, or what is said instead, without the name of the file."""
    try:
        return open_job(path, WISHES)
    except InputRefused as refused:
        return str(refused).replace(str(path), "").replace(path.name, "")


def furthest(document: Drawing) -> float:
    """The greatest coordinate of what is drawn, by the library's own reckoning of bounds."""
    bounds = bbox.extents(document.modelspace(), fast=True)
    return max(abs(v) for corner in (bounds.extmin, bounds.extmax) for v in corner.vec2)


def hold_both_doors_alike(seed: int, folder: Path) -> None:
    """The same job from both, or the same question; a DWG too far out is refused."""
    document = forged(seed)[1].document
    bind_references(document)
    drawn = folder / "plan.dxf"
    document.saveas(drawn)
    one, other = read(drawn), read(save_dwg(document, folder / "plan.dwg"))
    if furthest(document) > 1e8:
        assert isinstance(other, str)
        assert TOO_FAR in other
    elif isinstance(one, str) or isinstance(other, str):
        assert one == other
    else:
        assert same_slab(one.slab, other.slab)
        assert one.units is other.units


WRITTEN = [
    seed for seed in range(1, 1 + 4 * len(HABITS)) if HABITS[seed % len(HABITS)] is not regions
]
"""Drawings that the library writes: it has no way to write regions."""


@pytest.mark.parametrize("seed", WRITTEN[: len(HABITS) : 4])
def test_some_habits_through_both_doors(tmp_path, seed):
    hold_both_doors_alike(seed, tmp_path)


@pytest.mark.long
@pytest.mark.parametrize("seed", WRITTEN)
def test_every_habit_through_both_doors(tmp_path, seed):
    hold_both_doors_alike(seed, tmp_path)
