"""What is taken from a drawing can be read in another unit."""

from drawn_curves import line, said
from kerfline.files.drawing.curves import Curve, Skipped, Spot
from kerfline.geometry.paths import Path


def test_a_curve_in_another_unit_has_longer_lines_and_the_same_bulges():
    path = Path(((1.0, 2.0), (3.0, 2.0)), (0.5, 0.0), closed=True)
    curve = Curve(layer="A", kind="ARC", path=path, group=3, width=0.5, linetype="DASHED")
    scaled = curve.scaled(10.0)
    assert scaled.path == Path(((10.0, 20.0), (30.0, 20.0)), (0.5, 0.0), closed=True)
    assert scaled.width == 5.0
    assert (scaled.layer, scaled.kind, scaled.group, scaled.linetype) == ("A", "ARC", 3, "DASHED")


def test_there_and_back_is_the_same_curve():
    curve = line("A", (1.0, -2.0), (0.0, 4.0), width=0.25)
    assert curve.scaled(4.0).scaled(0.25) == curve


def test_points_and_texts_are_moved_along():
    spot = Spot(layer="A", kind="POINT", at=(2.0, -1.0), group=2)
    assert spot.scaled(25.4) == Spot(layer="A", kind="POINT", at=(50.8, -25.4), group=2)
    assert said("CJ", (2.0, 3.0)).scaled(2.0) == said("CJ", (4.0, 6.0))


def test_what_is_skipped_is_sorted_by_kind_then_layer():
    one = Skipped(kind="LINE", layer="B", why="a", count=9)
    other = Skipped(kind="LINE", layer="C", why="a", count=1)
    circle = Skipped(kind="CIRCLE", layer="Z", why="z", count=5)
    assert sorted([other, one, circle]) == [circle, one, other]
