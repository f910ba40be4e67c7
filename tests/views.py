"""A view of a slab on paper, and boards and labellers, for tests of what is drawn."""

from kerfline.model.job import SheetChoice
from kerfline.sheets.marks import Board, Fill, Path, Text
from kerfline.sheets.placer import Placer
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import Labeller, LeftOut, hard_lines
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.view import View
from kerfline.units import Display
from shapes import workshop_job, workshop_layout

WINDOW = (0.0, 0.0, 400.0, 300.0)


def view(scale=100.0, turn=0.0, window=WINDOW, **more):
    return View(
        scale=scale,
        turn=turn,
        world=(0.0, 0.0),
        at=(50.0, 50.0),
        window=window,
        own=window,
        room=window,
        **more,
    )


def board_of(*marks):
    return Board(list(marks))


def texts(board):
    """What is written on a board, in drawing order."""
    return [mark.text for mark in board if isinstance(mark, Text)]


def paths(board, layer=None):
    return [m for m in board if isinstance(m, Path) and layer in (None, m.layer)]


def fills(board):
    return [m for m in board if isinstance(m, Fill)]


def plans_of(job, layout, findings=(), **kind):
    """The plan of each part as a set of sheets draws it, with the sheets."""
    seen = []

    def draw(_, plan):
        seen.append(plan)
        return LeftOut()

    named = Kind(name="plan", title="Plan", **kind)
    sheets = plan_sheets(job, layout, findings, named, draw=draw, write=lambda *_: [])
    return seen, sheets


def workshop_plan(**choice):
    """The plan of the workshop, on one sheet where nothing else is asked for."""
    job = workshop_job(sheet=SheetChoice(**choice))
    return plans_of(job, workshop_layout())[0]


def maker_on(
    board, scale=100.0, height=2.5, frame=(0.0, 0.0, 400.0, 300.0), display=Display.FEET_INCHES
):
    """A labeller on a board of A3 size whose lines no label may cross."""
    seen = view(scale)
    placer = Placer(frame, hard_lines(board), (), frame)
    return Labeller(board, placer, seen, height, display)
