"""The rule on the depth of cuts."""

from collections import defaultdict
from collections.abc import Iterator

from kerfline.checks.grading import below
from kerfline.checks.measures import Measures
from kerfline.checks.sources import DEEP_SHARE, PRACTICE
from kerfline.checks.wording import listed, subject_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Joint
from kerfline.model.slab import JointKind


def depths(measures: Measures) -> Iterator[Finding]:
    """Every sawn joint is cut deep enough for the thickest concrete that it crosses."""
    words = measures.words
    for joint in _sawn(measures):
        if not joint.depth:
            continue
        thickness = measures.thickest_along(joint.line)
        grade = below(joint.depth, measures.rules.cut_limit(thickness), MEASURE)
        if grade:
            step = "allowed" if grade.error else "advised"
            depth, limit = words.depths(joint.depth, grade.limit)
            yield Finding(
                rule=Rule.DEPTH,
                severity=grade.severity,
                at=_middle(joint),
                subject=joint.id,
                measured=joint.depth,
                limit=grade.limit,
                message=f"{joint.id} at {words.place(_middle(joint))} is cut {depth} deep; "
                f"the least {step} in {words.depth(thickness)} of concrete is {limit}.",
                source=str(grade.source),
                remedy=f"Cut it {words.depth(grade.limit)} deep.",
            )


def missing_notes(measures: Measures) -> Iterator[Finding]:
    """The drawing notes how deep to cut."""
    bare = [j for j in _sawn(measures) if not j.depth]
    if bare:
        ids = [j.id for j in bare]
        thickness = measures.thickest_along(bare[0].line)
        wanted = measures.rules.cut_limit(thickness).advised
        verb = "has" if len(ids) == 1 else "have"
        yield Finding(
            rule=Rule.DEPTH,
            severity=Severity.ADVICE,
            at=_middle(bare[0]),
            subject=subject_of(ids),
            measured=None,
            limit=wanted,
            message=f"{listed(ids)} {verb} no depth of cut noted.",
            source=str(measures.rules.cut_limit(thickness).source),
            remedy=f"Note the depth: {measures.words.depth(wanted)} or more where the concrete is "
            f"{measures.words.depth(thickness)} thick.",
        )


def deep_cuts(measures: Measures) -> Iterator[Finding]:
    """A cut deeper than a third costs interlock; one as deep as the slab is no control joint."""
    groups: dict[tuple[float, float], list[Joint]] = defaultdict(list)
    for joint in _sawn(measures):
        thickness = measures.thickest_along(joint.line)
        if (
            joint.depth
            > max(DEEP_SHARE * thickness, measures.rules.cut_limit(thickness).advised) + MEASURE
        ):
            groups[joint.depth, thickness].append(joint)
    for (depth, thickness), joints in sorted(groups.items()):
        yield _deep(measures, depth, thickness, joints)


CHECKS = (depths, missing_notes, deep_cuts)


def _deep(measures: Measures, depth: float, thickness: float, joints: list[Joint]) -> Finding:
    words = measures.words
    ids = [j.id for j in joints]
    parted = depth >= thickness
    verb = "is" if len(ids) == 1 else "are"
    return Finding(
        rule=Rule.DEPTH,
        severity=Severity.ERROR if parted else Severity.ADVICE,
        at=_middle(joints[0]),
        subject=subject_of(ids),
        measured=depth,
        limit=DEEP_SHARE * thickness,
        message=f"{listed(ids)} {verb} cut {words.depth(depth)} deep, "
        + ("right through the slab." if parted else "more than a third of the slab."),
        source=str(PRACTICE),
        remedy=f"Cut {words.depth(measures.rules.cut_limit(thickness).advised)}; deeper costs interlock "
        "and gains nothing.",
    )


def _sawn(measures: Measures) -> list[Joint]:
    return [j for j in measures.joints if j.kind is JointKind.CONTROL]


def _middle(joint: Joint) -> Point:
    spot = joint.line.interpolate(0.5, normalized=True)
    return (float(spot.x), float(spot.y))
