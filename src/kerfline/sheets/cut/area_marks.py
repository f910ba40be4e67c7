"""How an area is told from the rest of the slab: the names of what lies beside it."""

from itertools import chain

from kerfline.geometry.faces import polygons_of
from kerfline.model.layout import Joint
from kerfline.sheets.cut.areas import CutArea
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Layer
from kerfline.sheets.plan_labels import CODES, Labeller
from kerfline.sheets.spots import Room, around, beside, inside, longest_line, middle_of


def name_others(maker: Labeller, area: CutArea) -> None:
    """Names the placements beside the shown one where there is room for it."""
    for piece in area.pieces:
        if piece.id == area.id:
            continue
        shown = polygons_of(maker.view.shape(piece.region).intersection(maker.view.window_box))
        largest = max(shown, key=lambda p: p.area, default=None)
        words = f"placement {piece.id}: not on this sheet"
        if largest is None or largest.area < text_width(words, maker.height) * maker.height:
            continue
        text = maker.text(Layer.TAG, words, words)
        spot = maker.placer.place(inside(Room(largest), text))
        if spot:
            maker.write(spot)


def _formed_name(joint: Joint) -> str:
    code = CODES[joint.kind]
    return joint.id if joint.id.startswith(code) else f"{joint.id} {code}"


def name_formed(maker: Labeller, area: CutArea) -> None:
    """Names the construction joints along the area's edge."""
    for joint in area.formed:
        line = longest_line(maker.view.clipped(joint.line))
        if line is None:
            continue
        text = maker.text(Layer.TAG, _formed_name(joint), joint.id)
        maker.put(joint.id, chain(beside(line, text), around(middle_of(line), text)))
