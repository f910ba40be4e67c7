"""How figures lie to one another: within, on a ledge, by a plain name."""

import pytest
from shapely import box

from kerfline.files.drawing.candidates.around import (
    lies_in,
    lying_in,
    on_a_ledge,
    plainly_named,
)
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.geometry.ring import Ring


def figure(x0, y0, x1, y1, *, layers=("1",), source=Source.CLOSED):
    return Candidate(ring=Ring.of(box(x0, y0, x1, y1)), layers=layers, source=source)


OUTER = figure(0, 0, 10_000, 10_000)


@pytest.mark.parametrize(("off", "within"), [(0.0, True), (0.9, True), (1.1, False)])
def test_a_figure_lies_in_another_all_but_a_hair(off, within):
    assert lies_in(box(-off, 0, 5_000, 5_000), OUTER.polygon) is within


@pytest.mark.parametrize(("wide", "within"), [(8_990, True), (9_010, False)])
def test_what_is_nearly_as_large_does_not_lie_in_another(wide, within):
    inner = figure(0, 0, wide, 10_000)
    assert lying_in(OUTER, [OUTER, inner]) == ([inner] if within else [])


def test_a_ledge_is_one_around_walls_alone():
    edge = box(-150, -150, 10_150, 10_150)
    assert not on_a_ledge(edge, [OUTER])
    assert on_a_ledge(edge, [figure(0, 0, 10_000, 10_000, source=Source.WALLS)])


@pytest.mark.parametrize(
    ("layers", "plain"),
    [(("S-SLAB",), True), (("FNDN",), True), (("OUTLINE",), False), (("S-SLAB", "9"), False)],
)
def test_names_that_speak_of_a_slab_plainly(layers, plain):
    assert plainly_named(figure(0, 0, 9_000, 9_000, layers=layers)) is plain
