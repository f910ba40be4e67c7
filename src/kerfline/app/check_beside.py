"""Holds joints against what is not theirs: the plan they were cut by, and the slab next door."""

from dataclasses import dataclass, replace
from pathlib import Path

import shapely
from shapely import LineString

from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.checks.abutting import MATCHED, TIED, abutting
from kerfline.checks.as_cut import as_cut
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused, Mistake
from kerfline.files.kinds import Kind, kind_of
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import flatten_arc
from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import Edge, EdgeKind, Slab
from kerfline.rules.slab_rules import SlabRules

SHARED = 304.8
"""Edges of two slabs that run beside each other for less than this (mm, 1 ft) only touch at a corner."""


@dataclass(frozen=True, kw_only=True)
class Other:
    """Another plan or slab as far as a check needs it.

    Attributes:
        name: Its file's name.
        concrete: Where it lies, mm.
        layout: Its joints.
    """

    name: str
    concrete: Area
    layout: Layout

    @property
    def lines(self) -> list[LineString]:
        """The lines of its joints."""
        return [j.line for j in self.layout.joints]


@dataclass(frozen=True, kw_only=True)
class Beside:
    """What a layout is held against beside the rules.

    Attributes:
        plan: The plan that the joints were cut by; None where there is none.
        neighbour: The slab next door; None where there is none.
    """

    plan: Other | None = None
    neighbour: Other | None = None

    def surveyed(self, slab: Slab) -> Slab:
        """The slab as it is held: joints that stand against a plan are those found in the concrete."""
        if self.plan is None:
            return slab
        joints = (j if j.forbidden else replace(j, existing=True) for j in slab.joints)
        return replace(slab, joints=tuple(joints))

    def findings(self, job: Job, layout: Layout, rules: SlabRules) -> tuple[Finding, ...]:
        """What disagrees with the plan and with the neighbour.

        Raises:
            InputRefused: The neighbour shares no edge with the slab.
        """
        found: tuple[Finding, ...] = ()
        if self.plan:
            found += as_cut(job.slab, self.plan.layout, job.display)
        if self.neighbour:
            found += _mismatches(job, layout, self.neighbour, rules)
        return found


def other_of(path: Path, job: Job, option: str) -> Other:
    """Reads a plan or a neighbouring slab.

    Args:
        path: A layout file (``NAME-layout.json``), a drawing or a job file that gives its joints.
        job: The job that it is held against; a drawing is read in its unit where it says none.
        option: What the user wrote to name it.

    Raises:
        InputRefused: It cannot be read, or holds no joints.
    """
    other = _from_layout(path) if kind_of(path) is Kind.LAYOUT else _from_job(path, job)
    if not other.layout.joints:
        raise InputRefused(
            Mistake(
                what="there are no joints in it to hold the others against",
                where=f"{option} {path.name}",
                remedy="give a layout file, or a drawing or job file with joints",
            )
        )
    return other


def _from_layout(path: Path) -> Other:
    from kerfline.files.layout_json import read_layout_json

    read = read_layout_json(path)
    return Other(name=path.name, concrete=read.concrete, layout=read.layout)


def _from_job(path: Path, job: Job) -> Other:
    thickness = f"{job.slab.thickness} mm"
    read = open_job(path, Wishes(thickness=thickness, units=None, asks=True))
    return Other(name=path.name, concrete=read.slab.concrete, layout=given_layout(read.slab))


def _mismatches(job: Job, layout: Layout, other: Other, rules: SlabRules) -> tuple[Finding, ...]:
    """Joints that do not go on across the shared edges."""
    slab = with_shared_edges(job.slab, other)
    found = abutting(slab, layout, other.lines, rules, job.display)
    reach = other.concrete.buffer(MATCHED)
    return tuple(
        f for f in found if f.severity is not Severity.ADVICE or reach.covers(shapely.Point(f.at))
    )


def with_shared_edges(slab: Slab, other: Other) -> Slab:
    """The slab with the edges that it shares with another one tied, where it says nothing of them.

    An edge that the job calls isolated stays so: a bond breaker passes no crack on.

    Raises:
        InputRefused: They share no edge.
    """
    told = {(e.ring, e.segment): e.kind for e in slab.edges}
    near = other.concrete.buffer(MATCHED)
    shared = [
        key for key, line in _segments(slab).items() if near.intersection(line).length > SHARED
    ]
    if not shared:
        raise InputRefused(
            Mistake(
                what="that slab shares no edge with this one",
                where=other.name,
                remedy="both must be drawn in the same coordinates, edge on edge to 1 in (25 mm)",
            )
        )
    added = [
        Edge(ring=ring, segment=segment, kind=EdgeKind.CONTINUOUS)
        for ring, segment in shared
        if told.get((ring, segment), EdgeKind.FREE) is EdgeKind.FREE
    ]
    kept = [e for e in slab.edges if e.kind not in TIED or (e.ring, e.segment) in shared]
    return replace(slab, edges=(*kept, *added))


def _segments(slab: Slab) -> dict[tuple[int, int], LineString]:
    """The lines of every edge by ring and segment."""
    return {
        (number, i): LineString(
            flatten_arc(start, end, ring.bulge(i)) if ring.bulge(i) else [start, end]
        )
        for number, ring in enumerate((slab.outline, *slab.openings))
        for i, start in enumerate(ring.points)
        for end in [ring.points[(i + 1) % len(ring.points)]]
    }
