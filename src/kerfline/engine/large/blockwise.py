"""Large floors: typical blocks solved once and repeated, the others solved where they differ.

The floor is never searched as a whole. Separators divide it into blocks; blocks that are alike in their
canonical orientation share one search; the commonest go first, and later ones are led to meet the joints of
those that are there already.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from kerfline.engine.effort import Effort
from kerfline.engine.finish import saw_passes
from kerfline.engine.general import lay_out_region
from kerfline.engine.large.blocks import DIGITS, Arrivals, blocks, gathered, separators
from kerfline.engine.large.crowded import uncrowded
from kerfline.engine.options import EngineOptions
from kerfline.engine.partition.on_grid import solve_exact
from kerfline.engine.partition.true_runs import TrueRun, in_concrete
from kerfline.engine.reasons import named_runs
from kerfline.engine.regions.nooks import without_nooks
from kerfline.engine.regions.orientation import canonical, reading
from kerfline.engine.regions.region import Cut, Proof, Region, RegionLayout, X, Y, together
from kerfline.engine.regions.walls import wall_shifts, walls_left
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

Path = tuple[Point, Point]

BAYS = 100.0
"""A region of more than this many squares of the span is laid out in blocks."""

PLAIN = 0.5
"""Share of a region in blocks that are plain rectangles, from which it counts as regular."""


def is_large(region: Region) -> bool:
    """Whether a region is too large to be searched as a whole."""
    return bool(region.gross.area > BAYS * region.working.span**2)


def is_regular(region: Region) -> bool:
    """Whether most of a large region lies in blocks that no edge crosses, so that blocks serve it well."""
    if not is_large(region):
        return False
    lines = (separators(region, X, region.working.span), separators(region, Y, region.working.span))
    plain = [b.gross.area for b in blocks(region, lines) if _is_box(b.gross)]
    return sum(plain) > PLAIN * region.gross.area


def _is_box(shape: Polygon) -> bool:
    return bool(shapely.box(*shape.bounds).area - shape.area < shape.area / 1e6)


def solve_large(region: Region, effort: Effort, options: EngineOptions) -> RegionLayout:
    """The layout of a large region, in its canonical orientation.

    Args:
        region: The region.
        effort: What may be spent on the whole, shared by the blocks that differ.
        options: What the user chose.
    """
    whole, region, span = region, without_nooks(region), region.working.span
    lines = (separators(region, X, span), separators(region, Y, span))
    straight, aslant = gathered(region, list(blocks(region, lines)))
    paths = _separator_paths(region, lines, [part.gross for part in aslant])
    straight, between = uncrowded(straight)
    joint_paths, proofs = _solved_blocks(straight, between, options, effort)
    paths += between
    proofs.append(_settled(paths))
    paths += joint_paths
    rest, more = _solved_pieces(aslant, paths, options, effort)
    status, proof = together([*proofs, *more])
    runs = _runs(region, paths)
    pieces = [LineString(p) for run in runs for p in run.pieces]
    pieces += [cut.line for cut in rest]
    return RegionLayout(
        cuts=(*named_runs(whole, runs), *rest),
        walls_left=walls_left(region, pieces),
        wall_shifts=wall_shifts(region, pieces),
        status=status,
        cost=proof.cost,
        bound=proof.bound,
    )


def _separator_paths(
    region: Region, lines: tuple[list[float], list[float]], left_out: Sequence[Polygon]
) -> list[Path]:
    """The separators, without what runs inside some pieces."""
    x0, y0, x1, y1 = region.gross.bounds
    return [
        *(((x, a), (x, b)) for x in lines[X] for a, b in _outside(left_out, X, x, (y0, y1))),
        *(((a, y), (b, y)) for y in lines[Y] for a, b in _outside(left_out, Y, y, (x0, x1))),
    ]


def _outside(
    shapes: Sequence[Polygon], axis: int, at: float, ends: tuple[float, float]
) -> list[tuple[float, float]]:
    """The stretches of a line across an axis that lie inside none of some shapes."""
    line = LineString([(at, e) if axis == X else (e, at) for e in ends])
    hidden = [
        part
        for shape in shapes
        for part in lines_of(line.intersection(shape))
        if shape.boundary.distance(part.interpolate(0.5, normalized=True)) > TOUCH
    ]
    rest = lines_of(line.difference(shapely.union_all(hidden))) if hidden else [line]
    return [(p.bounds[1 - axis], p.bounds[3 - axis]) for p in rest if p.length > TOUCH]


def _settled(paths: Sequence[Path]) -> Proof:
    """Joints that are settled before anything is searched cost what they cost."""
    length = sum(LineString(p).length for p in paths)
    return Proof(length, length)


def _solved_pieces(
    parts: Sequence[Region], paths: Sequence[Path], options: EngineOptions, effort: Effort
) -> tuple[list[Cut], list[Proof]]:
    """The joints inside gathered pieces, which meet those that are there already.

    They share the effort by their areas, as what each takes grows with its own. Alike ones, such as those along a
    round edge, come one after another and are laid out once.
    """
    out: list[Cut] = []
    proofs: list[Proof] = []
    known = Arrivals(paths)
    solved: dict[object, RegionLayout] = {}
    whole = sum(part.gross.area for part in parts)
    order = sorted(parts, key=lambda p: (-round(p.gross.area), p.gross.bounds))
    for number, part in enumerate(order, 1):
        options.say(f"Laying out piece {number} of {len(order)}")
        ready, move = canonical(known.on(part))
        kind = _rough_kind(ready) if _is_bare(ready) else part.gross.bounds
        if kind not in solved:
            share = effort.share(part.gross.area / whole)
            solved[kind] = lay_out_region(ready, options, share)
        found = solved[kind]
        cuts = [cut.moved(move.back) for cut in found.cuts]
        proofs.append(Proof(found.cost, found.bound))
        out.extend(cuts)
        known.add(cut.path for cut in cuts)
    return out, proofs


def _rough_kind(part: Region) -> object:
    """What must agree to the mm for two bare pieces to share a layout: ends of joints are brought onto lines at last."""
    steps = () if part.landings else _offset(part)
    return (repr(reading(part, digits=0)), steps)


def _is_bare(part: Region) -> bool:
    """Whether nothing stands on a piece, and nothing is asked of it, that its outline does not tell."""
    asked = (part.walls, part.nooks, part.columns, part.penetrations, part.zones, part.keep_outs)
    return not any((*asked, part.pinned, part.forbidden, part.patterns))


def _solved_blocks(
    parts: Sequence[Region], between: Sequence[Path], options: EngineOptions, effort: Effort
) -> tuple[list[Path], list[Proof]]:
    """The joints inside all blocks, led to meet those between the parts of crowded ones."""
    kinds = [_kind(canonical(part)[0]) for part in parts]
    common = Counter(kinds)
    order = sorted(range(len(parts)), key=lambda i: (-common[kinds[i]], i))
    share = 1 / max(1, len(common))
    solved: dict[object, tuple[list[Path], Proof]] = {}
    paths: list[Path] = []
    proofs: list[Proof] = []
    arrivals = Arrivals(between)
    for number, i in enumerate(order, 1):
        options.say(f"Laying out block {number} of {len(order)}")
        turned, move = canonical(arrivals.on(parts[i]))
        kind = _kind(turned)
        if kind not in solved:
            patience = min(effort.patience, max(effort.budget.reserve, 0.0))
            own = effort.share(share, patience=patience)
            solved[kind] = _block_paths(turned, options, own)
            own.charge()
        inside, proof = solved[kind]
        found = [(move.back(start), move.back(end)) for start, end in inside]
        arrivals.add(found)
        paths.extend(found)
        proofs.append(proof)
    return paths, proofs


def _block_paths(
    region: Region, options: EngineOptions, effort: Effort
) -> tuple[list[Path], Proof]:
    """The joints inside one block."""
    found = solve_exact(region, options.all_weights, effort)
    if found:
        cover = found.answer.cover
        proof = Proof(cover.cost, cover.bound)
        return [run.path for run in found.runs], proof
    general = lay_out_region(region, options, effort)
    paths = [(a, b) for cut in general.cuts for a, b in pairwise(cut.path)]
    return paths, Proof(general.cost, general.bound)


def _kind(region: Region) -> object:
    """What must agree for two blocks to have the same layout."""
    return (repr(reading(region)), _offset(region))


def _offset(region: Region) -> tuple[float, ...]:
    """How far a region's corner lies beyond a whole step of positions, along each axis, mm."""
    return tuple(round(b % region.step, DIGITS) % region.step for b in region.baseline)


def _runs(region: Region, paths: Iterable[Path]) -> list[TrueRun]:
    """The joints of all blocks drawn through from block to block, in concrete."""
    through = ((c.path[0], c.path[-1]) for c in saw_passes([Cut(path=p) for p in paths]))
    found = [(path, in_concrete(region.concrete, path)) for path in through]
    return [TrueRun(path=path, pieces=tuple(pieces)) for path, pieces in found if pieces]
