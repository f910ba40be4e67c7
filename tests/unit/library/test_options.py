"""What may be said of a slab beside its source."""

import pytest

import kerfline
from kerfline.app.wishes import Wishes
from kerfline.library.options import DRAWN_IN, Options, wishes_of
from kerfline.units import Unit


def test_a_unit_that_there_is_not_is_refused():
    with pytest.raises(kerfline.InputRefused, match="cubit"):
        kerfline.lay_out("40 x 24", thickness="4 in", units="cubit")


def test_what_is_said_is_what_the_reading_takes():
    said = Options(
        thickness="4 in", units="ft", layers={"walls": ["A", "B"]}, page=2, scale="1:50", slab="1", repair="1 in",
    )  # fmt: skip
    wishes = wishes_of(said, asks=True)
    assert (wishes.units, wishes.drawn_in) == (Unit.FT, "")
    assert wishes.layers == (("walls", ("A", "B")),)
    assert (wishes.thickness, wishes.page, wishes.scale) == ("4 in", 2, "1:50")
    assert (wishes.slab, wishes.repair, wishes.asks) == ("1", "1 in", True)
    assert wishes_of(Options()) == Wishes()


@pytest.mark.parametrize("unit", DRAWN_IN)
def test_a_unit_of_drawings_alone_is_no_unit_of_a_job(unit):
    wishes = wishes_of(Options(units=unit))
    assert (wishes.units, wishes.drawn_in) == (None, unit)


def test_every_field_but_the_review_is_heard():
    """A field that the reading does not know would be said in vain."""
    known = set(Wishes.__dataclass_fields__) | {"review"}
    assert set(Options.__dataclass_fields__) <= known
