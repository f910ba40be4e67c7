"""What the user says beside a file."""

import pytest

from kerfline.app.wishes import Wishes, thickness_of
from kerfline.errors import InputRefused
from kerfline.units import Unit


def test_a_thickness_is_in_the_unit_that_it_says_or_in_that_of_the_job():
    assert thickness_of(Wishes(thickness="4 in"), Unit.M) == pytest.approx(101.6)
    assert thickness_of(Wishes(thickness="120"), Unit.MM) == pytest.approx(120)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "nothing says how thick the slab is; give --thickness"),
        ("0 in", "--thickness: the thickness must be more than nothing; found 0 in"),
        ("thick", "--thickness"),
    ],
)
def test_none_and_nothing_are_refused_with_what_to_write(text, words):
    with pytest.raises(InputRefused) as refused:
        thickness_of(Wishes(thickness=text), Unit.FT)
    assert str(refused.value).startswith(words)
