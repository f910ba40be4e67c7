"""The points sheet: every point that is set out."""

from dataclasses import replace

from kerfline.model.site import ControlPoint, Site
from kerfline.placement.survey_points import survey_points
from kerfline.sheets.points_sheet import points_sheet
from kerfline.units import SiteUnit, Unit
from shapes import workshop_job, workshop_layout, workshop_slab

SITE = Site(
    control=(
        ControlPoint(name="CP1", plan=(0, 0), easting=1_000_000, northing=500_000, height=2000.0),
        ControlPoint(name="CP2", plan=(0, 10_000), easting=990_000, northing=500_000),
    ),
    unit=SiteUnit.M,
)


def drawn(site=SITE, unit=Unit.MM):
    job, layout = workshop_job(unit), workshop_layout()
    return points_sheet(job, layout, site, survey_points(job.slab, layout))


def said(sheets):
    return [text.text for sheet in sheets for text in sheet.texts]


def test_every_point_is_named_on_the_plan_and_listed_with_its_place():
    words = said(drawn())
    names = [p.name for p in survey_points(workshop_slab(), workshop_layout())]
    joined = " ".join(words)
    assert all(name in joined for name in names)
    assert "Points, metres" in words
    assert "518.288" in words, "60 ft along the plan is to the north here"


def test_northing_comes_first_unless_the_site_says_easting():
    def heads(site):
        return [w for w in said(drawn(site)) if w in ("northing", "easting")][:2]

    assert heads(SITE) == ["northing", "easting"]
    assert heads(replace(SITE, easting_first=True)) == ["easting", "northing"]


def test_the_control_has_its_heights_and_how_far_it_is_off():
    words = said(drawn())
    assert "2.000" in words
    assert "0 mm" in words


def test_what_to_do_first_and_the_level_are_said():
    joined = " ".join(said(drawn()))
    assert "Occupy one control point" in joined
    assert "1.000000, held" in joined
    assert "gives no level of the slab" in joined
    level = " ".join(said(drawn(replace(SITE, level=1500.0, scale=None))))
    assert "lies at 1.500" in level
    assert "found from the points" in level
