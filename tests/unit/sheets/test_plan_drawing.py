"""How often each plan of a set is drawn: what no larger part changes is drawn once."""

from collections import Counter

from shapely import Point

from kerfline.model.job import SheetChoice
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import LeftOut
from kerfline.sheets.plan_sheets import plan_sheets
from shapes import workshop_job, workshop_layout


def drawings(crowded, always=()):
    """How often each part of each plan was drawn, by its title and number; the scales; what the plan of the whole
    names of larger parts, with their sheets; the sheets.

    Args:
        crowded: Panels whose numbers find no room on the plan of the whole.
        always: Those that find none on the larger ones either.
    """
    job = workshop_job(sheet=SheetChoice(size="letter", scale=96.0))
    layout = workshop_layout()
    hearts = {p.id: p.polygon.representative_point() for p in layout.panels}
    seen, scales, told = Counter(), {}, {}

    def draw(_, plan):
        seen[plan.title, plan.part] += 1
        scales.setdefault(plan.title, []).append(plan.view.scale)
        larger = plan.title != "Plan"
        told.update({part.name: sheet for part, sheet in plan.again})
        box = plan.view.window_box
        at = [hearts[p] for p in (always if larger else crowded)]
        here = [(p.x, p.y) for p in at if plan.region is None or plan.region.covers(p)]
        left = [p for p in here if box.covers(Point(plan.view.to_paper(p)))]
        return LeftOut(tags=["P"] * len(left), places=left)

    sheets = plan_sheets(
        job, layout, (), Kind(name="plan", title="Plan"), draw=draw, write=lambda *_: []
    )
    return seen, scales, told, sheets


def corners():
    """The panels at the lower left and the upper right of the workshop."""
    panels = sorted(workshop_layout().panels, key=lambda p: sum(p.polygon.centroid.coords[0]))
    return panels[0].id, panels[-1].id


def numbers(sheets):
    """The number of the first sheet of each title."""
    return {s.title: s.number for s in reversed(sheets)}


def test_a_plan_with_room_is_drawn_once():
    seen, _, told, sheets = drawings([])
    assert set(seen.values()) == {1}
    assert told == {}
    assert len(seen) == len(sheets) > 2


def test_only_the_sheets_that_show_a_larger_part_are_drawn_again_to_say_so():
    first, _ = corners()
    seen, _, told, sheets = drawings([first])
    whole = {part: n for (title, part), n in seen.items() if title == "Plan"}
    assert whole[0] == 2
    assert min(whole.values()) == 1
    assert told == {"part drawn larger": numbers(sheets)["Plan, part drawn larger"]}
    assert seen["Plan, part drawn larger", 0] == 1


def test_a_larger_part_whose_numbers_have_room_stays_while_another_is_tried_larger():
    first, last = corners()
    seen, scales, told, sheets = drawings([first, last], always=[first])
    assert seen["Plan, part 2 drawn larger", 0] == 1
    assert len(set(scales["Plan, part 1 drawn larger"])) > 1
    assert told == {
        name: numbers(sheets)[f"Plan, {name}"]
        for name in ("part 1 drawn larger", "part 2 drawn larger")
    }


def test_what_has_no_number_on_any_sheet_is_told():
    first, _ = corners()
    everywhere = " ".join(t.text for s in drawings([first], always=[first])[-1] for t in s.texts)
    assert "Names not on the plan" in everywhere
    assert "No sheet has room for the names of P." in everywhere
    found = " ".join(t.text for s in drawings([first])[-1] for t in s.texts)
    assert "Names not on the plan" not in found
