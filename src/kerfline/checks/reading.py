"""What the rules read of a panel and of a place where joints meet: the one place that knows.

These rules are held against one thing at a time, so that after a change only those things are looked at
again that are not the same object as before, or that read something which is not. All other rules are
held against the whole, every time: slower, never wrong.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np

from kerfline.checks import angles, ends, panels, shapes
from kerfline.checks.angles import arcs_of
from kerfline.checks.changed_lines import GONE
from kerfline.checks.closing import ClosedPanel
from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE, Node
from kerfline.model.finding import Finding

T = TypeVar("T")


@dataclass(frozen=True)
class Found(Generic[T]):
    """What was found of each thing.

    Attributes:
        measures: What it was found on.
        by: For each thing its findings.
    """

    measures: Measures
    by: Mapping[T, tuple[Finding, ...]]

    @property
    def all(self) -> Iterator[Finding]:
        """Every finding."""
        return (finding for found in self.by.values() for finding in found)


@dataclass(frozen=True)
class Reading(Generic[T]):
    """A family of rules that are held against one thing at a time.

    Attributes:
        things: What they are held against; a thing that nothing changed is the same object as before.
        find: What they find of one.
        context: What they read besides the thing and what is near it.
        beside: The things that read something near them which has changed: the measures before, those now,
            and the things that are new.
    """

    things: Callable[[Measures], Sequence[T]]
    find: Callable[[Measures, T], Iterable[Finding]]
    context: Callable[[Measures], object]
    beside: Callable[[Measures, Measures, Sequence[T]], Iterable[T]]

    def found(self, measures: Measures, before: Found[T] | None = None) -> Found[T]:
        """What is found of each thing, taken from before where nothing that is read has changed."""
        things = self.things(measures)
        known = dict(before.by) if before and self._alike(before.measures, measures) else {}
        if before and known:
            fresh = [thing for thing in things if thing not in known]
            for thing in self.beside(before.measures, measures, fresh):
                known.pop(thing, None)
        return Found(
            measures,
            {t: known[t] if t in known else tuple(self.find(measures, t)) for t in things},
        )

    def _alike(self, one: Measures, two: Measures) -> bool:
        return (one.rules, one.words) == (two.rules, two.words) and (
            self.context(one) == self.context(two)
        )


def _of_panel(measures: Measures, panel: ClosedPanel) -> Iterator[Finding]:
    limits = measures.limits_in(panel)
    for rule in (*panels.PANEL_CHECKS, *shapes.PANEL_CHECKS):
        yield from rule(measures, panel, limits)


def _panel_context(measures: Measures) -> object:
    """Thickness and zones give the limits; cuts are asked over keep-outs; boxouts are left to columns."""
    slab = measures.slab
    return slab.thickness, slab.zones, slab.keep_outs, slab.columns


def _neighbours(_: Measures, now: Measures, fresh: Sequence[ClosedPanel]) -> Iterator[ClosedPanel]:
    """A panel is held against those that it touches, for whether it is cut too narrow.

    The joints near it are read too; where one of them changed, the panel was cut anew.
    """
    asked = np.array([panel.polygon for panel in fresh], dtype=object)
    for index in np.unique(now.panel_tree.query(asked, "intersects")[1]).tolist():
        yield now.panels[index]


PANELS = Reading(
    things=lambda measures: measures.panels,
    find=_of_panel,
    context=_panel_context,
    beside=_neighbours,
)
"""The rules on panels."""


def _of_node(measures: Measures, node: Node) -> Iterator[Finding]:
    for rule in (*angles.NODE_CHECKS, *ends.NODE_CHECKS):
        yield from rule(measures, node)


def _node_context(measures: Measures) -> object:
    """Arcs of edges and boxouts give tangents, though their chords are the same concrete; thickness the limits."""
    return measures.slab.thickness, tuple(arcs_of(measures.slab))


def _of_other_joints(before: Measures, now: Measures, _: Sequence[Node]) -> Iterator[Node]:
    """A node reads what its joints are called and of what kind they are."""
    moved = now.parted.since(before.parted).moved.tolist()
    was = {n: (j.id, j.kind) for n, j in zip(moved, before.joints, strict=True) if n != GONE}
    other = {n for n, j in enumerate(now.joints) if was.get(n) != (j.id, j.kind)}
    if other:
        for node in now.net.nodes:
            if any(arm.joint != EDGE and arm.joint in other for arm in node.arms):
                yield node


NODES = Reading(
    things=lambda measures: measures.net.nodes,
    find=_of_node,
    context=_node_context,
    beside=_of_other_joints,
)
"""The rules on places where joints meet joints or edges."""
