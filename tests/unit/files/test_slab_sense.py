"""Whether a slab makes sense."""

from hypothesis import given

from kerfline.files.slab_sense import check_slab
from strategies import slabs, turned_slabs


@given(slabs())
def test_slabs_by_construction_make_sense(slab):
    assert check_slab(slab) == []


@given(turned_slabs())
def test_a_slab_makes_sense_at_any_angle(slab):
    assert check_slab(slab) == []
