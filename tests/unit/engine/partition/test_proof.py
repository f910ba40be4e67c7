"""How far the search came: of one part, and of several together."""

from kerfline.engine.partition.proof import Proof, together
from kerfline.model.layout import Status


def test_one_part_at_its_bound_is_the_best():
    assert together([Proof(10.0, 10.0)]) == (Status.OPTIMAL, Proof(10.0, 10.0))


def test_one_part_off_its_bound_is_proven_to_within_a_gap():
    status, proof = together([Proof(10.0, 9.0)])
    assert status is Status.TIME_LIMIT
    assert not proof.closed


def test_costs_and_bounds_of_parts_add_up():
    """Parts that are searched one after the other are no proof of the whole, so the status says so."""
    assert together([Proof(10.0, 10.0), Proof(5.0, 4.0)]) == (Status.PARTS, Proof(15.0, 14.0))


def test_a_part_of_which_nothing_is_proven_spoils_the_proof():
    status, _ = together([Proof(10.0, 10.0), Proof(5.0, 0.0)])
    assert status is Status.HEURISTIC


def test_a_part_without_a_joint_needs_no_proof():
    assert together([Proof(), Proof(5.0, 5.0)])[0] is Status.PARTS
    assert together([Proof()])[0] is Status.OPTIMAL
