"""The rule on keep-outs: no saw reaches what lies below, and no joint lies where none may."""

from collections.abc import Iterator

import shapely

from kerfline.checks.measures import Measures
from kerfline.checks.sources import DEPTH_TOLERANCE, PRACTICE
from kerfline.checks.wording import Wording
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Joint
from kerfline.model.slab import JointKind, KeepOut
from kerfline.rules.cover import DEPTH_TOLERANCE as DEEPER
from kerfline.rules.cover import SPARE_COVER, Clearance, clearance

ALONG = 50.0
"""A joint that shares less than this (mm) with a forbidden line crosses it."""

LOCATE = "locate what is buried before any cut"


def keep_outs(measures: Measures) -> Iterator[Finding]:
    """No saw cut reaches what lies in a keep-out."""
    for keep_out in measures.slab.keep_outs:
        whole = keep_out.outline.polygon
        area = whole.buffer(-TOUCH) or whole
        for index in measures.joints_near(area):
            joint = measures.joints[index]
            inside = joint.line.intersection(area)
            if inside.length > 2 * TOUCH:
                longest = max(lines_of(inside), key=lambda part: part.length)
                spot = longest.interpolate(0.5, normalized=True)
                yield from _entering(measures, keep_out, joint, (float(spot.x), float(spot.y)))


def forbidden_lines(measures: Measures) -> Iterator[Finding]:
    """No joint lies along a line that the user forbids."""
    for line in measures.slab.forbidden:
        strip = shapely.LineString(line.path).buffer(2 * TOUCH, cap_style="flat", quad_segs=1)
        for index in measures.joints_near(strip):
            joint = measures.joints[index]
            shared = joint.line.intersection(strip)
            if shared.length > ALONG:
                spot = shared.representative_point()
                at = (float(spot.x), float(spot.y))
                yield Finding(
                    rule=Rule.KEEP_OUT,
                    severity=Severity.ERROR,
                    at=at,
                    subject=joint.id,
                    measured=float(shared.length),
                    limit=0.0,
                    message=f"{joint.id} lies along {line.id}, where the job allows no joint, for "
                    f"{measures.words.length(shared.length)} at {measures.words.place(at)}.",
                    source="the job",
                    remedy="Move the joint off that line.",
                )


CHECKS = (keep_outs, forbidden_lines)


def _entering(measures: Measures, keep_out: KeepOut, joint: Joint, at: Point) -> Iterator[Finding]:
    words = measures.words
    where = f"{joint.id} enters {keep_out.id} ({keep_out.what}) at {words.place(at)}"
    if joint.kind is not JointKind.CONTROL:
        yield _finding(
            keep_out,
            joint,
            at,
            Severity.WARNING,
            None,
            f"{where}; it is formed, not sawn.",
            "Carry what lies there across the joint in a sleeve.",
        )
        return
    if keep_out.cover is None:
        yield _finding(
            keep_out,
            joint,
            at,
            Severity.ERROR,
            None,
            f"{where}, where no cover is known and no saw may go.",
            f"Move the joint, or {LOCATE} and give the cover over it.",
        )
        return
    depth = joint.depth or measures.rules.cut_depth(measures.thickest_along(joint.line))
    spare = keep_out.cover - depth
    stands = clearance(keep_out.cover, depth)
    if stands is not Clearance.CLEAR:
        severity = Severity.ERROR if stands is Clearance.STRIKES else Severity.WARNING
        yield _finding(
            keep_out,
            joint,
            at,
            severity,
            spare,
            f"{where}; a cut {words.depth(depth)} deep under {words.depth(keep_out.cover)} of "
            f"cover {_left(spare, words, strikes=stands is Clearance.STRIKES)}.",
            f"Move the joint, tool it shallower, and {LOCATE}.",
        )


def _left(spare: float, words: Wording, *, strikes: bool) -> str:
    """What a cut leaves over an item, in words."""
    if spare < 0:
        return "reaches it"
    less = f", less than the {words.depth(DEEPER)} that it may go too deep" if strikes else ""
    return f"leaves {words.depth(spare)}{less}"


def _finding(
    keep_out: KeepOut,
    joint: Joint,
    at: Point,
    severity: Severity,
    spare: float | None,
    message: str,
    remedy: str,
) -> Finding:
    return Finding(
        rule=Rule.KEEP_OUT,
        severity=severity,
        at=at,
        subject=f"{joint.id} in {keep_out.id}",
        measured=spare,
        limit=SPARE_COVER if spare is not None else None,
        message=message,
        source=str(PRACTICE if spare is None else DEPTH_TOLERANCE),
        remedy=remedy,
    )
