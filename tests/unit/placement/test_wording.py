"""Placements in a sentence."""

import pytest

from kerfline.placement.wording import are, placements


@pytest.mark.parametrize(
    ("ids", "said"),
    [
        (["1"], "Placement 1 is"),
        (["1", "2"], "Placements 1 and 2 are"),
        (["1", "2", "5"], "Placements 1, 2 and 5 are"),
    ],
)
def test_noun_and_verb_go_with_the_count(ids, said):
    assert f"{placements(ids)} {are(ids)}" == said
