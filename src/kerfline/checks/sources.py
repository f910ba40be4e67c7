"""Where the rules come from that no rule set has a figure for, and the checks' own figures."""

from collections.abc import Mapping

from kerfline.model.finding import Rule
from kerfline.rules.limits import Source

PRACTICE = Source(publication="common practice", known="practice")

SHAPE = PRACTICE
"""No L-shaped, T-shaped or hooked panels: said wherever joints are taught, numbered nowhere."""

UFC_TEXT = "2005, text of 1987"
"""The edition of UFC 3-320-06A, which is TM 5-809-12 under a new cover."""

CORNER = Source(
    publication="ACI 360R",
    section="Fig. A7.3.3, a conceptual detail; no code asks for the bars",
    known="quoted",
)
UFC_FLOORS = Source(
    publication="UFC 3-320-06A",
    edition=UFC_TEXT,
    section="par. 5-4",
    page="https://buildingcriteria1.tpub.com/ufc_3_320_06a/ufc_3_320_06a0034.htm",
)
CONTINUITY = UFC_FLOORS
COLUMN = Source(publication="ACI 302", edition="1969, later editions exist", known="quoted")
CASTINGS = Source(publication="SUDAS Design Manual", section="5G-3")
LINE_LOAD = Source(
    publication="UFC 3-320-06A",
    edition=UFC_TEXT,
    section="Table 3-2, read as a joint being an edge",
    page="https://buildingcriteria1.tpub.com/ufc_3_320_06a/ufc_3_320_06a0014.htm",
)
ON_PLANNED_LINE = Source(
    publication="UFGS 02753",
    section="3.8.3",
    page="https://ufgscriteriadocreport.tpub.com/02753/027530069.htm",
)
AS_CUT = Source(publication="ACI 117", section="table reproduced in UFGS 03700", known="quoted")
MISMATCH = Source(publication="UFC 3-260-02", edition="2001", section="mismatched joints")
DEPTH_TOLERANCE = Source(
    publication="ACI 117", edition="2010", section="depth of saw cuts", known="memory"
)

YES_OR_NO: Mapping[Rule, Source] = {
    Rule.SHAPE: SHAPE,
    Rule.CORNER: CORNER,
    Rule.FREE_END: CONTINUITY,
    Rule.TEE_END: CONTINUITY,
    Rule.WALL: PRACTICE,
    Rule.BEARING_WALL: LINE_LOAD,
    Rule.COLUMN: COLUMN,
    Rule.PENETRATION: CASTINGS,
    Rule.KEEP_OUT: PRACTICE,
    Rule.EDGE: PRACTICE,
}
"""The rules that ask yes or no, and where they come from; the others have figures in the rule set."""

DEEP_SHARE = 1 / 3
"""A cut deeper than this share of the thickness costs interlock and gains nothing (common practice)."""

OFF_PLAN = 19.05
"""How far a joint may lie off its planned place, sideways (mm, 3/4 in): ``AS_CUT``."""
