"""What the sheets say in words."""

from dataclasses import replace

import pytest

from checked import rules
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Edge, EdgeKind, Wall, Zone
from kerfline.sheets.baselines import baselines
from kerfline.sheets.notes import CAUTIONS, plan_notes
from kerfline.sheets.ties import Ties
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout, workshop_slab

LAYOUT = workshop_layout()
BASE = baselines(workshop_slab())


def notes(job, layout=LAYOUT, base=BASE):
    return plan_notes(job, layout, rules(), base, Ties())


def test_measuring_comes_first_and_names_its_corner_and_unit():
    first = notes(workshop_job())[0]
    assert first.startswith("Measure every offset from corner A.")
    assert "feet and inches" in first
    metric = notes(workshop_job(Unit.MM))
    assert "millimetres" in metric[0]
    assert any("moved up to 150 mm" in note for note in metric)


def test_a_slab_without_a_corner_there_is_measured_from_where_the_baselines_meet():
    assert (
        "point A, where both baselines meet"
        in notes(workshop_job(), base=replace(BASE, corner=False))[0]
    )


def test_the_cut_has_its_depth_its_saw_and_its_source():
    """A quarter of 4 in with a conventional saw (common practice)."""
    (cut,) = [n for n in notes(workshop_job()) if n.startswith("Cut control joints")]
    assert '1" deep (conventional saw, 4" slab; source: common practice)' in cut
    bare = replace(LAYOUT, joints=())
    assert not [n for n in notes(workshop_job(), bare) if "Cut control" in n or "may be moved" in n]


def test_a_mended_plan_says_what_it_was_mended_for():
    made = [n for n in notes(workshop_job()) if n.startswith('Slab 4" thick.')]
    mended = [
        n for n in notes(workshop_job(), replace(LAYOUT, added=frozenset())) if n.startswith("Slab")
    ]
    assert "Laid out for panels of 10'-0\" a side" in made[0]
    assert "Mended for panels of" in mended[0]


def test_zones_strips_and_turned_edges_are_told_with_their_sizes():
    slab = replace(
        workshop_slab(),
        zones=(Zone(id="Z1", outline=Ring(((0, 0), (900, 0), (900, 900))), thickness=152.4),),
        walls=(Wall(id="W9", path=((0, 0), (900, 0)), strip_width=304.8, strip_depth=203.2),),
        edges=tuple(
            Edge(ring=0, segment=n, kind=EdgeKind.TURNDOWN, width=304.8, depth=457.2)
            for n in (0, 1)
        ),
    )
    said = notes(replace(workshop_job(), slab=slab))
    assert any(
        n.startswith('Z1 is 6" thick: panels of ') and n.endswith('cuts 1 1/2" deep.') for n in said
    )
    assert 'W9 stands on a thickened strip 12" wide, 8" deep in all.' in said
    assert said.count('Turned-down edge 12" wide, 18" deep in all.') == 1, "two alike are told once"


@pytest.mark.parametrize(("off", "told"), [(1.4, False), (9.0, True)])
def test_an_edge_that_was_surveyed_is_said_to_lie_off_its_dimensions(off, told):
    points = list(workshop_slab().outline.points)
    points[2] = (points[2][0], points[2][1] + off)
    slab = replace(workshop_slab(), outline=Ring(tuple(points)))
    said = notes(replace(workshop_job(), slab=slab))
    assert any("drawn as given" in n for n in said) is told


def test_the_cautions_name_dust_burns_and_what_lies_hidden():
    said = " ".join(CAUTIONS)
    for word in ("silica", "respirator", "gloves", "buried services", "licensed", "local codes"):
        assert word in said
