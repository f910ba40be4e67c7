"""Curves that run on into one another."""

from kerfline.geometry.smooth import smooth_chains, split_at_corners


def test_curves_that_run_on_are_one_chain_past_a_crossing():
    ((line, members),) = [
        chain
        for chain in smooth_chains(
            [((0, 0), (100, 0)), ((200, 3), (100, 0)), ((100, -80), (100, 0))]
        )
        if len(chain[1]) > 1
    ]
    assert members == (0, 1)
    assert line == ((0, 0), (100, 0), (200, 3))


def test_corners_are_not_run_through():
    assert len(smooth_chains([((0, 0), (100, 0)), ((100, 0), (150, 50))])) == 2


def test_a_line_is_split_at_its_corners_only():
    bent = ((0, 0), (100, 0), (200, 5), (200, 100))
    assert split_at_corners(bent) == [bent[:3], bent[2:]]
