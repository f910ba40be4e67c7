"""Plans of the forge printed to PDF: the same slab where it is taken, else asked; never wrong in silence."""

from dataclasses import replace

import pytest

from forge.habits import HABITS
from forge.measure import AGREE, forged
from forge.printing import Print, printed, where
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused

SCALES = (
    Print(scale=50.0, words="Scale 1:50"),
    Print(scale=100.0, words="Scale 1:100"),
    Print(scale=96.0, words='Scale 1/8" = 1\'-0"'),
)
TURNED = (0, 90, 180, 270)


def way(seed):
    """How the plan of a seed is printed: every scale with every turn, some cropped, some hatched."""
    how = SCALES[seed % 3]
    return replace(how, turn=TURNED[seed // 3 % 4], crop=seed % 5 == 0, hatched=seed % 2 == 1)


def verdict(seed, folder):
    """``right``, ``asked`` or ``wrong``, and why."""
    drawn, how = forged(seed)[1], way(seed)
    path = printed(drawn, folder / "plan.pdf", how)
    try:
        slab = open_job(path, Wishes(thickness="4 in")).slab
    except InputRefused as asked:
        return "asked", str(asked)
    found = slab.outline.polygon
    for one in drawn.slabs:
        true = where(drawn, how, one)
        if found.is_valid and found.symmetric_difference(true).area < AGREE * true.area:
            return "right", ""
    return "wrong", f"{found.area / 1e6:.1f} m2 for {drawn.slabs[0].area / 1e6:.1f} m2"


@pytest.mark.parametrize("seed", range(2, 2 + len(HABITS), 8))
def test_some_habits_printed(tmp_path, seed):
    habit = forged(seed)[0].__name__
    told, why = verdict(seed, tmp_path)
    assert told != "wrong", f"{habit}, seed {seed}: {why}"


@pytest.mark.long
def test_every_habit_printed_at_three_scales(tmp_path):
    told = {seed: verdict(seed, tmp_path) for seed in range(3 * len(HABITS))}
    wrong = {(s, forged(s)[0].__name__): why for s, (v, why) in told.items() if v == "wrong"}
    assert not wrong
    # Many habits mark the slab by layers, which a print has lost: then the question is right.
    assert sum(v == "right" for v, _ in told.values()) >= len(told) / 5


def test_the_strokes_of_hatched_walls_are_left_out_and_counted(tmp_path):
    drawn = forged(1)[1]
    plain, hatched = (
        verdict_notes(printed(drawn, tmp_path / f"{name}.pdf", replace(SCALES[1], hatched=on)))
        for name, on in (("plain", False), ("hatched", True))
    )
    assert not any("hatches" in note for note in plain)
    assert any("strokes of hatches left out" in note for note in hatched)


def verdict_notes(path):
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    return read_pdf(path, PageChoice(scale="1:100")).notes
