"""What stands on a slab asks for few lines, however finely its curves are drawn."""

from kerfline.engine.lines.features import Rank, features
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Zone
from unit.engine.plans import RULES, box, feet, in_feet, slab

ROUND = Ring(feet((10, 10), (20, 10)), (1.0, 1.0))


def asked(*zones):
    """The places in feet that zones of a floor of 40 x 30 ft ask for, by axis."""
    floor = slab(box(40, 30), zones=zones)
    region = placed_region(floor, RULES, EngineOptions(), gross=floor.gross, angle=0.0).region
    found = [f for f in features(region) if f.rank is Rank.ZONE]
    return [sorted({in_feet(f.at) for f in found if f.axis == axis}) for axis in (0, 1)]


def test_a_square_zone_asks_for_its_four_edges():
    assert asked(Zone(id="Z1", outline=box(8, 6, 10, 4), thickness=150.0)) == [[10, 18], [4, 10]]


def test_a_slanting_zone_asks_for_its_corners_too():
    outline = Ring(feet((10, 4), (18, 4), (15, 10), (10, 10)))
    assert asked(Zone(id="Z1", outline=outline, thickness=150.0)) == [[10, 15, 18], [4, 10]]


def test_a_round_zone_asks_for_few_lines_not_for_one_at_each_chord_of_its_arc():
    across, up = asked(Zone(id="Z1", outline=ROUND, thickness=150.0, joint_at_border=False))
    assert len(across) <= 10
    assert len(up) <= 10
    for places, low, high in ((across, 10, 20), (up, 5, 15)):
        assert abs(places[0] - low) <= 0.5
        assert abs(places[-1] - high) <= 0.5
