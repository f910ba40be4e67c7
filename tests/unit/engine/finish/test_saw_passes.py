"""Pieces of joint in one line are one saw pass; those of another kind or direction are not."""

from dataclasses import replace

import pytest

from kerfline.engine.finish.saw_passes import saw_passes
from kerfline.engine.regions.region import Cut
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind


def cut(*path, reason=Reason.SPAN, **more):
    return Cut(path=tuple((float(x), float(y)) for x, y in path), reason=reason, note="", **more)


FIRST, SECOND = cut((0, 500), (1000, 500)), cut((1000, 500), (2500, 500))


def test_two_pieces_that_meet_end_to_end_are_one_pass():
    assert [c.path for c in saw_passes([SECOND, FIRST])] == [((0.0, 500.0), (2500.0, 500.0))]


def test_a_pass_takes_its_strongest_reason():
    under = replace(SECOND, reason=Reason.WALL)
    assert [c.reason for c in saw_passes([FIRST, under])] == [Reason.WALL]


@pytest.mark.parametrize(
    "other",
    [
        replace(SECOND, kind=JointKind.CONSTRUCTION),
        replace(SECOND, depth=30.0),
        cut((1000, 500), (1000, 2000)),
        cut((1001, 500), (2500, 500)),
        cut((1000, 501), (2500, 501)),
        cut((1000, 500), (2500, 502)),
    ],
    ids=["another kind", "another depth", "square", "a gap", "beside", "aslant"],
)
def test_what_differs_stays_a_pass_of_its_own(other):
    assert len(saw_passes([FIRST, other])) == 2


def test_a_slanted_line_is_joined_as_one_along_an_axis():
    pieces = [cut((0, 0), (300, 400)), cut((300, 400), (900, 1200))]
    assert [c.path for c in saw_passes(pieces)] == [((0.0, 0.0), (900.0, 1200.0))]
