"""What stands on a slab is added, moved, changed and taken away."""

from dataclasses import replace

import pytest

from kerfline.app import slab_edit as edit
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, GivenJoint, PenetrationKind, Zone
from kerfline.units import MM_PER_INCH, Unit
from shapes import workshop_slab

SQUARE = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 3000.0), (0.0, 3000.0))
SLAB = replace(
    workshop_slab(),
    zones=(Zone(id="Z1", outline=Ring(SQUARE, (0.3, 0, 0, 0)), thickness=150.0),),
    joints=(GivenJoint(id="F1", path=((0, 0), (0, 900)), forbidden=True),),
)
KINDS = {"wall": "W1", "column": "C1", "penetration": "N1", "keep-out": "K1", "forbidden": "F1", "zone": "Z1"}  # fmt: skip


@pytest.mark.parametrize(("kind", "name"), KINDS.items())
def test_every_kind_is_found_and_taken_away_and_the_others_stay(kind, name):
    assert edit.find(SLAB, kind, name).id == name
    left = edit.remove(SLAB, kind, name)
    with pytest.raises(InputRefused, match=f"{name}: there is no such {kind}"):
        edit.find(left, kind, name)
    for other in set(KINDS) - {kind}:
        assert edit.things(left, other) == edit.things(SLAB, other)


@pytest.mark.parametrize(("kind", "name"), KINDS.items())
def test_what_moves_and_comes_back_is_what_it_was(kind, name):
    there = edit.move(SLAB, kind, name, (250.0, -125.0))
    assert edit.find(there, kind, name) != edit.find(SLAB, kind, name)
    back = edit.move(there, kind, name, (-250.0, 125.0))
    assert edit.find(back, kind, name) == edit.find(SLAB, kind, name)


def test_a_zone_moves_with_its_arcs():
    moved = edit.find(edit.move(SLAB, "zone", "Z1", (10, 20)), "zone", "Z1")
    assert moved.outline == Ring(tuple((x + 10, y + 20) for x, y in SQUARE), (0.3, 0, 0, 0))


@pytest.mark.parametrize(
    ("kind", "least"),
    [
        ("wall", 2),
        ("forbidden", 2),
        ("keep-out", 3),
        ("zone", 3),
        ("column", 1),
        ("penetration", 1),
    ],
)
def test_each_kind_needs_its_points_and_one_tapped_twice_counts_once(kind, least):
    points = ((9000.0, 3000.0), (12000.0, 3000.0), (12000.0, 6000.0))[:least]
    added = edit.add(SLAB, kind, points, "NEW")
    assert edit.find(added, kind, "NEW") == edit.things(added, kind)[-1]
    if least > 1:
        short = (*points[:-1], points[-2])
        with pytest.raises(InputRefused) as refused:
            edit.add(SLAB, kind, short, "NEW")
        assert f"NEW: a {kind} needs {least} different points or more; found {least - 1}" in str(
            refused.value
        )


def test_what_is_new_has_the_usual_size():
    drain = edit.find(edit.add(SLAB, "penetration", ((0, 0),), "N9"), "penetration", "N9")
    assert drain.diameter == pytest.approx(4 * MM_PER_INCH)
    assert drain.kind is PenetrationKind.DRAIN
    zone = edit.find(edit.add(SLAB, "zone", SQUARE, "Z9"), "zone", "Z9")
    assert zone.thickness == SLAB.thickness
    line = edit.find(edit.add(SLAB, "forbidden", SQUARE[:2], "F9"), "forbidden", "F9")
    assert line.forbidden


def test_names_go_on_at_the_first_number_that_nothing_has():
    assert edit.new_id(SLAB, "wall", set()) == "W4"
    assert edit.new_id(SLAB, "wall", {"W4", "W5"}) == "W6"
    assert edit.new_id(edit.remove(SLAB, "wall", "W2"), "wall", set()) == "W2"
    with pytest.raises(InputRefused, match="no such kind of thing; found moat"):
        edit.new_id(SLAB, "moat", set())


@pytest.mark.parametrize(
    ("kind", "field", "value", "is_"),
    [
        ("wall", "thickness", "6", 6 * MM_PER_INCH),
        ("wall", "strip_width", "400 mm", 400.0),
        ("column", "size", "2 ft", 609.6),
        ("penetration", "diameter", "3", 3 * MM_PER_INCH),
        ("zone", "thickness", "8", 8 * MM_PER_INCH),
        ("wall", "bearing", True, True),
        ("keep-out", "what", "  conduit ", "conduit"),
        ("column", "boxout", "circle", Boxout.CIRCLE),
        ("penetration", "kind", "post", PenetrationKind.POST),
    ],
)
def test_a_value_is_set_and_nothing_else_changes(kind, field, value, is_):
    name = KINDS[kind]
    changed = edit.set_field(SLAB, kind, name, field, value, Unit.FT)
    thing = edit.find(changed, kind, name)
    assert getattr(thing, field) == pytest.approx(is_) if isinstance(is_, float) else is_
    before = edit.find(SLAB, kind, name)
    assert replace(thing, **{field: getattr(before, field)}) == before


@pytest.mark.parametrize(
    ("kind", "field", "value"),
    [
        ("wall", "size", "6"),
        ("column", "boxout", "star"),
        ("penetration", "kind", "tree"),
        ("keep-out", "what", "  "),
        ("column", "bearing", True),
        ("wall", "thickness", False),
    ],
)
def test_a_field_or_a_word_that_there_is_not_is_refused(kind, field, value):
    with pytest.raises(InputRefused) as refused:
        edit.set_field(SLAB, kind, KINDS[kind], field, value, Unit.FT)
    assert str(refused.value).startswith(f"{kind} {field}: this cannot be set; found ")


@pytest.mark.parametrize("text", ["0", "-2 in"])
def test_a_length_is_above_zero(text):
    with pytest.raises(InputRefused):
        edit.positive_length(text, Unit.IN, "thickness")
    assert edit.positive_length("1/16 in", Unit.IN, "thickness") == pytest.approx(25.4 / 16)
