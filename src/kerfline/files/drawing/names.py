"""What layer names say in the trade, and which layers only decorate a drawing.

The words and abbreviations are common practice.
"""

import re
from functools import cache

from kerfline.files.drawing.joint_kinds import names_joints
from kerfline.files.drawing.layers import own_name
from kerfline.files.drawing.names_abroad import STEMS, plain, speaks_of

DECOR = re.compile(
    r"""(^|[^A-Z])(ANNO|BORD|BORDER|CEIL|CLNG|DEFPOINTS|DETL|DIM|DIMS|DIMENSIONS?|ELEV|EQPM|FIXTURES?|FURN
    |FURNITURE|GRID|GRIDS|HATCH|IDEN|KEYN|LEGN|LEGEND|LABELS?|LEADER|NOTES?|NPLT|PATT|PATTERN|PLANTS?|RBAR|REBAR
    |SECT|SHEET|SYMB|SYMBOLS?|TEXT|TEXTURE|TITLE|TTLB|TOPO|TOPOGRAPHY|VIEWPORTS?|VPRT)([^A-Z]|$)|TEXT$""",
    re.VERBOSE,
)
"""Names of layers that hold text, dimensions, furniture, borders: nothing of the slab."""

OUTLINE_RANKS = (
    re.compile(r"SLAB.*(EDGE|OUTL|PERIM)|(EDGE|OUTL|PERIM).*SLAB|SOG.*(EDGE|OUTL)|FLOR.*OUTL"),
    re.compile(r"SLAB|(^|[^A-Z])SOG([^A-Z]|$)"),
    re.compile(r"FOOTPRINT|FOOT-PRINT"),
    re.compile(r"FNDN|FOUNDATION|(^|[^A-Z])FDN([^A-Z]|$)"),
    re.compile(r"OUTLINE|PERIM|(^|[^A-Z])(OUTL|EDGE|EDGES)([^A-Z]|$)"),
    re.compile(r"PLINTH|CONC|(^|[^A-Z])(FLOR|FLOOR|FLOORS)([^A-Z]|$)"),
)
"""Words for the slab's edge, the plainest first."""

SLAB = 1
"""The rank of a name that speaks of a slab in another language."""

NO_OUTLINE = re.compile(
    r"OPNG|OPENING|VOID|PIT|WALL|OVERHEAD|PROJECTION|(^|[^A-Z])(CNTR|HIDDEN|OVHD|ABOVE|STRP)([^A-Z]|$)|FLOORING"
)
"""Words that make a slab's layer something else than its edge."""

ELSEWHERE = re.compile(
    r"ROOF|PROPERTY|BOUNDARY|FURN|CASEWORK|STAIR|STRS|GLAZ|DOOR|PROJECTION|OVERHEAD|OVERHANG|CANOPY|SOFFIT"
    r"|(^|[^A-Z])(OVHD|ABOVE|EAVES?|SITE|LOT|PLOT|ROOMS?|AREAS?|WIND|WINDOWS?|BEAMS?|EQPT|CASE|ROADS?|PARKING|LAWN|KERB|CURB)([^A-Z]|$)"
)
"""Words for things whose outlines are no slab's."""

PARTS = {
    "openings": re.compile(
        r"OPNG|VOIDS?([^A-Z]|$)|SHAFT|(^|[^A-Z])HOLES?([^A-Z]|$)|(^|[^A-Z])(PITS?|SUMP|TRENCH|COURTYARD)([^A-Z]|$)"
        r"|SLAB.*OPEN|OPEN.*SLAB"
    ),
    "walls": re.compile(r"WALL|PARTN|PARTITION"),
    "columns": re.compile(
        r"(^|[^A-Z])COLS?([^A-Z]|$)|COLUMN|(^|[^A-Z])(PILLARS?|BOXOUTS?)([^A-Z]|$)"
    ),
    "penetrations": re.compile(
        r"PIPE|DRAIN|PLUMB|SLEEVE|PENETR|CONDUIT|BOLLARD"
        r"|(^|[^A-Z])(DRAN|DRN|FD|PENE?S?|PIPING|SLVS?)([^A-Z]|$)"
    ),
    "keep_outs": re.compile(r"KEEP.?OUT|NO.?SAW|TUBING|RADIANT|TENDON|HEATING"),
}
"""Words for the other parts, by the field of ``Layers`` that they belong to."""

NOT_PARTS = {
    "walls": re.compile(r"STEM|FOOT|FTNG|RETAIN|FNDN|FOUND|HEAD|CUT|OVHD|(^|[^A-Z])RET([^A-Z]|$)"),
    "columns": re.compile(r"ABLT|BOLT|FOOT|FTNG"),
    "openings": re.compile(r"DOOR|WIND|GLAZ"),
}
"""Words that make a layer something else, although the words above are in its name."""


COURT = re.compile(
    r"(^|[^A-Z])(COURT|COURTYARD|PATIO|LIGHT ?WELL|OPEN TO (THE )?SKY|INNENHOF|LICHTHOF|COUR INTERIEURE|CORTILE|BINNENPLAATS"
    r"|INNERGARD|ATRIUMGARD|DZIEDZINIEC|ДВОР)([^A-Z]|$)"
)
"""Words of a plan for what is open to the sky within a building; common practice."""


ROOM = re.compile(
    r"(^|[^A-Z])((BED|BATH|LIVING|DINING|DRAWING|SITTING|STORE|PLANT|MEETING|UTILITY|GUEST|SHOWER)? ?ROOMS?|LIVING|DINING"
    r"|KITCHEN|BATH|LOUNGE|LOBBY|HALL|OFFICE|GARAGE|STORE|STORAGE|LAUNDRY|UTILITY|PANTRY|STUDY|SHOP|WORKSHOP|TOILETS?"
    r"|CLOSET|WC|MASTER BED|ZIMMER|KUCHE|BAD|FLUR|BURO|WOHNEN|SCHLAFEN|ABSTELLRAUM|CUISINE|CHAMBRE|SEJOUR|SALON|BUREAU"
    r"|SALLE DE BAINS?|COCINA|DORMITORIO|BANO|SALA|COMEDOR|COZINHA|QUARTO|BANHEIRO|CUCINA|CAMERA|BAGNO|SOGGIORNO|KEUKEN"
    r"|SLAAPKAMER|BADKAMER|WOONKAMER|KOK|SOVRUM|BADRUM|KOKKEN|KEITTIO|MAKUUHUONE|KUCHNIA|SYPIALNIA|LAZIENKA|POKOJ|KUCHYNE"
    r"|LOZNICE|КУХНЯ|СПАЛЬНЯ|КОМНАТА|САНУЗЕЛ|MUTFAK|BANYO)([^A-Z]|$)|厨房|卧室|客厅|卫生间|台所|寝室|居間"
)
"""Words of a plan for rooms; common practice."""


def names_room(text: str) -> bool:
    """Whether a text names a room."""
    return bool(ROOM.search(plain(text)))


def names_court(text: str) -> bool:
    """Whether a text names a court."""
    return bool(COURT.search(plain(text)))


@cache
def decorates(layer: str) -> bool:
    """Whether a layer by its name holds nothing of the slab."""
    name = own_name(layer)
    return bool(DECOR.search(name.upper())) or speaks_of("decor", name)


@cache
def elsewhere(layer: str) -> bool:
    """Whether a layer's name speaks of something whose outline is no slab's: a roof, a site, a door."""
    name = own_name(layer)
    return bool(ELSEWHERE.search(name.upper())) or speaks_of("elsewhere", name)


@cache
def part_named(layer: str) -> str:
    """The field of ``Layers`` that a name speaks of, the outline apart; empty for none."""
    if decorates(layer):
        return ""
    part = _part_in_english(layer)
    if part or elsewhere(layer) or outline_rank(layer) is not None:
        return part
    return next((p for p in PARTS if p in STEMS and speaks_of(p, own_name(layer))), "")


def _part_in_english(layer: str) -> str:
    if names_joints(layer):
        return "joints"
    name = own_name(layer).upper()
    for part, words in PARTS.items():
        other = NOT_PARTS.get(part)
        if words.search(name) and not (other and other.search(name)):
            return part
    return ""


@cache
def outline_rank(layer: str) -> int | None:
    """How plainly a name speaks of the slab's edge, 0 the plainest; None where it does not."""
    name = own_name(layer).upper()
    if decorates(layer) or _part_in_english(layer) or NO_OUTLINE.search(name):
        return None
    rank = next((n for n, words in enumerate(OUTLINE_RANKS) if words.search(name)), None)
    if rank is None and speaks_of("outline", own_name(layer)):
        return SLAB
    return rank
