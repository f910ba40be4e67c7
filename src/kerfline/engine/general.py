"""The general method, step by step: from a region of any shape to its cuts."""

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.dividing import halve, parts_of
from kerfline.engine.effort import OVERSPENT, Effort
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.lines.settled import Settled, Yielding, barred_area, settled_joints
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.patterns import patterned
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.propose import best_layout
from kerfline.engine.reasons import named
from kerfline.engine.regions.features import AskingLine, passed_of, shies_of, targets_of
from kerfline.engine.regions.region import Cut, Proof, Region, RegionLayout, overshot, together
from kerfline.engine.regions.walls import wall_shifts, walls_left
from kerfline.engine.steps import Steps
from kerfline.geometry.faces import faces, lines_of, points_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason, Status, WorkingLimits
from kerfline.model.slab import Pattern
from kerfline.units import stored_run


@dataclass(frozen=True)
class Setting:
    """What a region is laid out by.

    Attributes:
        region: The region.
        weights: What each thing is worth.
        yielding: The walls whose joints are chosen.
        effort: What may be spent on it.
        patience: How far it may be overspent in all, seconds.
        say: Tells whoever listens what is being laid out.
    """

    region: Region
    weights: Weights
    yielding: Yielding
    effort: Effort
    patience: float
    say: Callable[[str], None]


def lay_out_region(
    region: Region,
    options: EngineOptions = EngineOptions(),  # noqa: B008 frozen
    effort: Effort | None = None,
) -> RegionLayout:
    """Lays out the joints of a region of any shape.

    Every panel is within the working span; what else cannot be had is given up in the order of the
    costs in ``cost``.

    Args:
        region: The region in its own frame.
        options: What the user chose.
        effort: What may be spent; None for what the options allow the whole. Each part is carried to one
            layout in any case; other directions, bends, and the proof are left out when it is used up.

    Returns:
        Its cuts, in the region's frame.
    """
    weights = options.all_weights
    first = settled_joints(region)
    effort = effort or Effort(options.effort)
    patience = min(effort.patience, OVERSPENT)
    setting = Setting(region, weights, first.yielding, effort, patience, options.say)
    settled = list(first.cuts)
    answers: list[PieceLayout] = []
    notes: list[str] = []
    effort.patience = 0.0
    for zone in sorted(_zone_pieces(region, first), key=lambda z: _pattern_on(region, z) is None):
        pattern = _pattern_on(region, zone)
        wished = _in_pattern(setting, zone, pattern, settled) if pattern else None
        if wished is not None:
            answers.append(wished[0])
            settled += wished[0].cuts
            notes.append(wished[1])
            continue
        if pattern:
            notes.append(
                f"Pattern {pattern.id} is given up on a part of its area: no such layout was found there."
            )
        found, cuts = _in_parts(setting, zone, settled)
        answers += found
        settled += cuts
    return _assembled(setting, first, settled, answers, notes)


def _in_parts(
    setting: Setting, zone: Polygon, settled: Sequence[Cut]
) -> tuple[list[PieceLayout], list[Cut]]:
    """The layouts of the parts of a piece, and all its joints, those between the parts first."""
    parts, cuts = parts_of(_ground(setting, zone), SquareChart())
    answers: list[PieceLayout] = []
    for number, part in enumerate(parts, 1):
        if len(parts) > 1:
            setting.say(f"Laying out piece {number} of {len(parts)}")
        _be_patient(setting, part.area)
        answers.append(_laid_out(setting, part, [*settled, *cuts]))
        cuts += answers[-1].cuts
    return answers, cuts


def _be_patient(setting: Setting, area: float) -> None:
    """Lets a part overspend the effort by its share of the region, as those before it might."""
    setting.effort.wait(setting.patience * area / setting.region.concrete.area)


def _zone_pieces(region: Region, first: Settled) -> list[Polygon]:
    """The region cut along the borders of its zones and of patterns."""
    splits = (Reason.ZONE, Reason.PATTERN)
    borders = [c.line for c in first.cuts if c.reason in splits]
    return faces(region.concrete, borders) if borders else [region.concrete]


def _pattern_on(region: Region, piece: Polygon) -> Pattern | None:
    """The pattern that is wished for on a piece."""
    inner = piece.buffer(-1.0)
    return next((p for p in region.patterns if p.area.polygon.covers(inner)), None)


def _in_pattern(
    setting: Setting, piece: Polygon, pattern: Pattern, settled: Sequence[Cut]
) -> tuple[PieceLayout, str] | None:
    """A piece in its pattern, and in words what that costs against the cheapest layout."""
    lines = [c.line for c in settled]
    inside = _inside(lines, piece)
    problem = _ground(setting, piece, lines)
    with setting.effort.carrying():
        wished = patterned(problem, pattern, inside)
    if wished is None:
        return None
    plain = sum(cut.line.length for cut in _in_parts(setting, piece, settled)[1])
    length = sum(cut.line.length for cut in wished.cuts)
    more = stored_run(abs(length - plain))
    word = "more" if length >= plain else "less"
    return (
        wished,
        f"Pattern {pattern.id} takes {more} {word} joint than the cheapest layout of its area.",
    )


def _inside(lines: Sequence[LineString], part: Polygon) -> list[LineString]:
    """The parts of lines that run through a piece, not along its border."""
    return [x for _, x in _numbered_inside(lines, part)]


def _numbered_inside(
    lines: Sequence[LineString], part: Polygon
) -> Iterator[tuple[int, LineString]]:
    """The same, each with the number of its line."""
    inner = part.buffer(-TOUCH)
    for number in _near(lines, part):
        for x in lines_of(lines[number].intersection(part)):
            if x.intersects(inner):
                yield number, x


def _near(lines: Sequence[LineString], part: Polygon) -> list[int]:
    """The numbers of the lines that come within a touch of a piece."""
    shapely.prepare(part)
    found: list[int] = np.flatnonzero(
        shapely.dwithin(part, np.asarray(lines, dtype=object), TOUCH)
    ).tolist()
    return found


def _to_follow(settled: Sequence[Cut], part: Polygon) -> tuple[AskingLine, ...]:
    """Settled joints in a part, which others may run in line with; only walls are a reason to."""
    under_walls = [cut.reason is Reason.WALL for cut in settled]
    return tuple(
        AskingLine(name="", path=x, reason=Reason.WALL if under_walls[n] else Reason.SPAN)
        for n, x in _numbered_inside([cut.line for cut in settled], part)
    )


def _laid_out(setting: Setting, part: Polygon, settled: Sequence[Cut]) -> PieceLayout:
    """The best that is proposed for a part; halved where no chart gives a layout."""
    lines = [c.line for c in settled]
    problem = replace(_ground(setting, part, lines), lines=_to_follow(settled, part))
    found = best_layout(problem, _inside(lines, part))
    if found is None and not setting.effort.spent_up:
        found = _divided(setting, problem, settled)
    if found is not None:
        return found
    own = problem.firmed()[1]
    lines += [c.line for c in own]
    halves = [halve(_ground(setting, p, lines), p) for p in faces(part, _inside(lines, part))]
    return PieceLayout.joined(halves).with_cuts(own)


def _divided(setting: Setting, problem: Problem, settled: Sequence[Cut]) -> PieceLayout | None:
    """A part that is too fine to be laid out in one go, in parts of half its area; None where none divides it."""
    parts, cuts = parts_of(problem, SquareChart(), problem.concrete.area / 2)
    if len(parts) == 1:
        return None
    known = [*settled, *cuts]
    answers: list[PieceLayout] = []
    for part in parts:
        answers.append(_laid_out(setting, part, known))
        known += answers[-1].cuts
    whole = replace(PieceLayout.joined(answers), bound=0.0)  # other divisions may be better
    return whole.with_cuts(cuts)


def _ground(setting: Setting, part: Polygon, settled: Sequence[LineString] = ()) -> Problem:
    """What bears on the joints of a part: its own limits, and the joints that arrive at its border."""
    region, weights = setting.region, setting.weights
    lines = [settled[n] for n in _near(settled, part)]
    rim = part.boundary.buffer(TOUCH)
    shared = [*(x.intersection(rim) for x in lines), *_sides_with(part, region.landings)]
    border = shapely.union_all(shared) if shared else None
    outside = [_arrives(line, part) for line in lines]
    x, y = region.baseline
    plain = Problem(
        concrete=part,
        limits=limits_at(region, part),
        advised=region.advised,
        stretch=region.stretch,
        weights=weights,
        targets=targets_of(region, weights),
        shies=shies_of(region, weights),
        passed=passed_of(region, weights),
        barred=barred_area(region),
        border=border,
        landings=(*region.landings, *(p for found in outside for p in found)),
        steps=None if region.landings else (Steps(x, region.step), Steps(y, region.step)),
        effort=setting.effort,
    )
    return setting.yielding.on(plain)


def _sides_with(part: Polygon, landings: Sequence[Point]) -> list[LineString]:
    """The sides of a part on which joints of a neighbouring region arrive."""
    if not landings:
        return []
    spots = shapely.MultiPoint(landings)
    sides = [LineString(pair) for pair in itertools.pairwise(part.exterior.coords)]
    return [side for side in sides if side.distance(spots) <= TOUCH]


def _arrives(line: LineString, part: Polygon) -> list[Point]:
    """Ends and turns of a joint on the border of a part that it does not enter, nor runs along."""
    if line.intersection(part.buffer(-TOUCH)).length:
        return []
    border = part.boundary
    arriving = [
        pair
        for pair in itertools.pairwise(points_of(line))
        if LineString(pair).intersection(border.buffer(TOUCH)).length <= 10 * TOUCH
    ]
    ends = sorted({end for pair in arriving for end in pair})
    return [p for p in ends if border.distance(shapely.Point(p)) <= TOUCH]


def limits_at(region: Region, piece: Polygon) -> WorkingLimits:
    """The limits on a piece: those of the strictest zone that it lies in by more than a touch."""
    here = [z.working for z in region.zones if z.area.intersection(piece).area > piece.area / 100]
    covered = any(z.area.covers(piece.buffer(-1.0)) for z in region.zones)
    return min(here if covered else [*here, region.working], key=lambda w: w.span)


def _assembled(
    setting: Setting,
    first: Settled,
    settled: Sequence[Cut],
    answers: Sequence[PieceLayout],
    notes: Sequence[str],
) -> RegionLayout:
    status, proof = together(Proof(a.cost, a.bound) for a in answers)
    if setting.effort.cut and status is Status.OPTIMAL:
        status = Status.TIME_LIMIT
    joints = [c.line for c in settled]
    chosen = replace(setting.region, walls=setting.yielding.walls)
    reasoned = named(setting.region, settled)
    return RegionLayout(
        cuts=tuple(replace(c, path=overshot(c.path)) for c in reasoned),
        walls_left={**first.walls_left, **walls_left(chosen, joints)},
        wall_shifts={**first.wall_shifts, **wall_shifts(chosen, joints)},
        status=status,
        cost=proof.cost,
        bound=proof.bound,
        notes=tuple(notes),
    )
