"""The placement map."""

import pytest
import shapely
from shapely import Polygon

from kerfline.sheets.day.pour_map import _inside
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Fill, Layer, Path


def test_the_map_shows_every_placement_once_with_an_arrow(sheets, plan):
    """A number in a disc and an arrow's head for each of the three placements."""
    tags = [t.text for t in sheets[0].texts if t.layer is Layer.TAG]
    names = [p.id for p in plan.placement.pours.pours]
    assert names == ["1", "2", "3"]
    large = [t for t in sheets[0].texts if t.layer is Layer.TAG and t.text in names]
    assert sorted(t.text for t in large if t.height == max(u.height for u in large)) == names
    heads = [m for m in sheets[0].marks if isinstance(m, Fill) and m.layer is Layer.SYMBOL]
    assert len(heads) >= len(names)
    assert any("yd3" in tag for tag in tags)


def test_construction_joints_are_heavy_on_the_map(sheets, plan):
    """Every construction joint has its own mark at the map's scale."""
    view = sheets[0].view
    heavy = [m for m in sheets[0].marks if isinstance(m, Path) and m.layer is Layer.CONSTRUCTION]
    drawn = shapely.union_all([shapely.LineString(m.points) for m in heavy if len(m.points) > 1])
    for line in plan.placement.pours.joints:
        assert view.shape(line.line).difference(drawn.buffer(0.1)).length < 0.5


def test_cut_numbers_stand_on_their_lines(sheets, plan):
    """Each number's box lies on the line that the table gives that number."""
    view = sheets[0].view
    small = sheets[0].paper.small
    tags = {t.text: t for t in sheets[0].texts if t.layer is Layer.TAG and t.height == small}
    found = 0
    for cut in plan.placement.cutting.cuts:
        tag = tags.get(str(cut.order))
        if tag is not None:
            found += 1
            box = shapely.Polygon(text_corners(tag)).buffer(0.5)
            assert view.shape(cut.window.sawn.line).intersects(box)
    assert found >= len(plan.placement.cutting.cuts) - 1


@pytest.mark.parametrize(
    ("corners", "spot"),
    [
        ([(0, 0), (90, 0), (90, 30), (0, 30)], (45, 15)),
        ([(0, 0), (60, 0), (60, 60), (0, 60)], (30, 30)),
    ],
)
def test_a_label_stands_in_the_middle_of_a_rectangle(corners, spot):
    """Wherever the largest circle of a long one is said to lie."""
    assert _inside(Polygon(corners)) == pytest.approx(spot)


def test_a_label_of_an_ell_stands_inside_clear_of_its_edges():
    ell = Polygon([(0, 0), (100, 0), (100, 20), (20, 20), (20, 100), (0, 100)])
    spot = shapely.Point(_inside(ell))
    assert ell.contains(spot)
    assert ell.boundary.distance(spot) > 8
