"""What an action of the page does to the state, without a server."""

import pytest

from kerfline.app.live import kept_outcome
from kerfline.app.open_job import open_job
from kerfline.app.working import working_of
from kerfline.errors import InputRefused
from kerfline.model.slab import JointKind
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from paged import FT, house


@pytest.fixture
def state(tmp_path):
    return working_of(kept_outcome(open_job(house(tmp_path))))


def do(state, **said):
    return apply(read_action(said), state)


def path_of(state, name):
    return next(j.path for j in state.joints if j.id == name)


def test_several_actions_are_one_step_after_the_other(state):
    steps = [{"do": "slide", "id": "J2", "by": [FT, 0]}, {"do": "slide", "id": "J2", "by": [FT, 0]}]
    assert path_of(do(state, do="many", actions=steps), "J2")[0][0] == pytest.approx(22 * FT)


def test_a_chosen_rule_set_and_thickness_are_kept(state):
    chosen = do(state, do="rules", set="parking", to_maximum=True)
    assert (chosen.rule_set, chosen.to_maximum) == ("parking", True)
    assert do(state, do="thickness", text="5").slab.thickness == pytest.approx(127)
    with pytest.raises(InputRefused, match="above zero"):
        do(state, do="thickness", text="0")


@pytest.mark.parametrize(
    ("way", "by"), [("right", (2, 0)), ("left", (-2, 0)), ("up", (0, 2)), ("down", (0, -2))]
)
def test_a_copy_goes_the_way_that_is_said(state, way, by):
    added = do(state, do="add", what="column", points=[[15 * FT, 10 * FT]])
    items = [{"what": "column", "id": added.slab.columns[0].id}]
    copied = do(added, do="repeat", items=items, text="2 ft", way=way, times=1)
    (x, y), (x1, y1) = (c.at for c in copied.slab.columns)
    assert ((x1 - x) / FT, (y1 - y) / FT) == pytest.approx(by)


def test_columns_stand_on_their_grid_from_the_slabs_lower_left(state):
    done = do(state, do="column-grid", at=["5 ft", "4 ft"], every=["10 ft", "6 ft"], times=[2, 2])
    places = [(c.at[0] / FT, c.at[1] / FT) for c in done.slab.columns]
    assert places == [pytest.approx(p) for p in [(5, 4), (15, 4), (5, 10), (15, 10)]]
    assert [c.id for c in done.slab.columns] == ["C1", "C2", "C3", "C4"]


def test_a_single_column_needs_no_spacing(state):
    done = do(state, do="column-grid", at=["5 ft", "4 ft"], every=["", ""], times=[1, 1])
    assert len(done.slab.columns) == 1


@pytest.mark.parametrize(
    ("name", "text", "moved"), [("J2", "18 ft", (-2, 0)), ("J3", "12 ft", (0, 2))]
)
def test_a_joint_is_put_at_a_written_distance_from_the_side_that_it_runs_along(
    state, name, text, moved
):
    before, after = (
        path_of(state, name)[0],
        path_of(do(state, do="place", id=name, text=text), name)[0],
    )
    assert ((after[0] - before[0]) / FT, (after[1] - before[1]) / FT) == pytest.approx(moved)


def test_a_panel_is_split_square_to_its_length_unless_turned(state):
    """Panels are 10 x 10 ft and so of no length; the split runs through the middle either way."""
    plain, turned = (do(state, do="split", id="P1", turned=t) for t in (False, True))
    (x0, y0), (x1, y1) = plain.joints[-1].path
    (a0, b0), (a1, b1) = turned.joints[-1].path
    assert len(plain.joints) == len(state.joints) + 1
    assert abs((x1 - x0) * (a1 - a0) + (y1 - y0) * (b1 - b0)) < 1.0, "square to each other"
    with pytest.raises(InputRefused, match="P99: there is no such panel"):
        do(state, do="split", id="P99")


def test_a_joint_of_another_kind_is_the_same_line(state):
    done = do(state, do="kind", id="J2", kind="construction")
    assert [j.kind for j in done.joints if j.id == "J2"] == [JointKind.CONSTRUCTION]
    assert path_of(done, "J2") == path_of(state, "J2")


def test_a_forbidden_joint_leaves_its_line(state):
    done = do(state, do="forbid", id="J2")
    (line,) = done.slab.joints
    assert (line.id, line.forbidden, line.path) == ("F1", True, path_of(state, "J2"))
    assert "J2" not in [j.id for j in done.joints]


def test_a_slab_that_makes_no_sense_is_refused_and_the_state_stays(state):
    with pytest.raises(InputRefused):
        do(state, do="add", what="opening", points=[[-FT, -FT], [FT, FT]])
    assert state.slab.openings == ()
