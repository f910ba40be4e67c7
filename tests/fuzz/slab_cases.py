"""Slabs that nobody would draw on purpose: spikes, hairs, things that touch, cross and cover one another.

Every case comes from the number that names it. Lengths in mm.
"""

import math
from dataclasses import dataclass, replace
from random import Random

from kerfline.files.slab_sense import check_slab
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    Column,
    Edge,
    EdgeKind,
    Fall,
    FallJoints,
    GivenJoint,
    JointKind,
    KeepOut,
    Meeting,
    Pattern,
    PatternKind,
    Penetration,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import Unit

FOOT = 304.8


@dataclass(frozen=True)
class Lot:
    """What slabs are drawn from: about how many panels at the most, which outlines, turned or not, how many things."""

    panels: tuple[float, ...]
    outlines: tuple[str, ...]
    turned: bool = True
    things: int = 8


def lot_of(number):
    """The first hundred cases and then one in forty have many panels: what is strange is strange in few too."""
    return MANY if number < 100 or number % 40 == 0 else FEW


def slab_case(number, lot=None):
    """The slab of a number."""
    lot = lot or lot_of(number)
    rng = Random(number)
    thickness = rng.choice([50.0, 88.9, 101.6, 101.6, 127.0, 152.4, 203.2, 304.8])
    span = min(30 * thickness, 15 * FOOT)
    drawn = _scaled(rng, OUTLINES[rng.choice(lot.outlines)](rng), span, lot.panels)
    outline = _placed(rng, drawn, lot.turned)
    size = _size(outline)
    some = _Somewhere(rng, outline, size, span)
    many = rng.choice([0, 1, 1, 2, 4])

    def count(counts):
        return min(rng.choice(counts), lot.things)

    return Slab(
        outline=outline,
        thickness=thickness,
        openings=tuple(some.openings(count([0, 0, 1, 2, 4]))),
        walls=tuple(some.walls(count([0, 0, 1, 3, 8]))),
        columns=tuple(some.columns(count([0, 0, 1, 2, 5]))),
        penetrations=tuple(some.penetrations(count([0, 0, 1, 4]))),
        zones=tuple(some.zones(count([0, 0, 0, 1, 2]))),
        keep_outs=tuple(some.keep_outs(count([0, 0, 0, 1, 2]))),
        edges=tuple(some.edges(count([0, 0, 1, 3]))),
        joints=tuple(some.joints(min(many, lot.things) if rng.random() < 0.4 else 0)),
        patterns=tuple(some.patterns(count([0, 0, 0, 0, 1]))),
        falls=tuple(some.falls(count([0, 0, 0, 0, 1]))),
    )


def job_case(number, effort=1.0, lot=None):
    """The job of a number; of one in eight nothing is taken out that makes no sense."""
    rng = Random(~number)
    slab = slab_case(number, lot)
    slab = slab if number % 8 == 7 else with_sense(slab)
    return Job(name=f"Case {number}", units=rng.choice(list(Unit)), slab=slab, effort=effort)


THINGS = (
    "openings", "walls", "columns", "penetrations", "zones", "keep_outs", "edges", "joints",
    "patterns", "falls",
)  # fmt: skip


def with_sense(slab):
    """A slab without the things that are refused by themselves, so that the engine sees the rest."""
    kept = replace(slab, **dict.fromkeys(THINGS, ()))
    for name in THINGS:
        for thing in getattr(slab, name):
            more = replace(kept, **{name: (*getattr(kept, name), thing)})
            kept = kept if check_slab(more) else more
    return kept


def box_ring(x0, y0, x1, y1):
    return Ring(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _rectangle(rng):
    high = rng.uniform(0.02, 1)
    return [(0, 0), (1, 0), (1, high), (0, high)]


def _trapezoid(rng):
    return [(0, 0), (1, 0), (1, rng.uniform(0.05, 1)), (0, rng.uniform(0.05, 1))]


def _square_cornered(rng):
    w, h = rng.uniform(0.1, 0.9), rng.uniform(0.1, 0.9)
    deep = rng.uniform(0.2, 1.0)
    return [(0, 0), (1, 0), (1, deep * h), (w, deep * h), (w, deep), (0, deep)]


def _u_shaped(rng):
    a, b, h = rng.uniform(0.05, 0.45), rng.uniform(0.55, 0.95), rng.uniform(0.05, 0.9)
    return [(0, 0), (1, 0), (1, 1), (b, 1), (b, h), (a, h), (a, 1), (0, 1)]


def _triangle(rng):
    return [(0, 0), (1, 0), (rng.uniform(-0.5, 1.5), rng.choice([0.005, 0.02, 0.1, 0.5, 1.0]))]


def _rhombus(rng):
    h = rng.choice([0.01, 0.05, 0.3, 0.5])
    return [(0, 0), (0.5, h), (1, 0), (0.5, -h)]


def _round(rng, least=5, most=14, low=0.6):
    count = rng.randint(least, most)
    turns = sorted(rng.uniform(0, 2 * math.pi) for _ in range(count))
    return [(r * math.cos(t), r * math.sin(t)) for t in turns for r in (rng.uniform(low, 1.0),)]


def _star(rng):
    return _round(rng, 6, 20, 0.15)


def _spiked(rng):
    """A rectangle with a spike out of a side or into it."""
    at, wide = rng.uniform(0.2, 0.8), rng.choice([1e-4, 1e-3, 0.01, 0.05])
    reach = rng.choice([-0.4, -0.1, 0.1, 0.5])
    return [
        (0, 0),
        (1, 0),
        (1, 0.6),
        (at + wide, 0.6),
        (at, 0.6 + reach),
        (at - wide, 0.6),
        (0, 0.6),
    ]


def _near_straight(rng):
    """A rectangle whose sides have corners that are none, off line by hairs."""
    points = [(0.0, 0.0), (1.0, 0.0), (1.0, 0.7), (0.0, 0.7)]
    out = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        out.append((x0, y0))
        shares = sorted(rng.uniform(0.02, 0.98) for _ in range(rng.randint(0, 4)))
        for share in shares:
            off = rng.choice([0.0, 1e-9, 1e-6, 1e-5, 1e-4, 1e-3]) * rng.choice([-1, 1])
            out.append((x0 + share * (x1 - x0) + off, y0 + share * (y1 - y0) + off))
    return out


def _comb(rng):
    teeth = rng.randint(2, 5)
    step, out = 1 / teeth, [(0, 0), (1, 0)]
    for i in reversed(range(teeth)):
        x = i * step
        out += [(x + step, 0.5), (x + 0.6 * step, 0.5), (x + 0.6 * step, 0.3), (x, 0.3)]
    return [*out[:-1], (0, 0.3)]


OUTLINES = {
    "rectangle": _rectangle,
    "trapezoid": _trapezoid,
    "corner": _square_cornered,
    "u": _u_shaped,
    "triangle": _triangle,
    "rhombus": _rhombus,
    "round": _round,
    "star": _star,
    "spiked": _spiked,
    "near straight": _near_straight,
    "comb": _comb,
}
MANY = Lot(panels=(12, 12, 40, 40, 100, 400), outlines=tuple(OUTLINES))
FEW = Lot(panels=(1, 1, 1, 2, 3, 6), outlines=tuple(OUTLINES))
PLAIN = Lot(
    panels=(0.5, 1, 1, 2, 3, 4), outlines=("rectangle", "corner", "u"), turned=False, things=1
)
"""Most cases take half a minute at the most with many panels, a second with few, a tenth if plain."""


def _scaled(rng, points, span, panels):
    """An outline between a foot and three thousand, its area within reach of a case."""
    size = FOOT * 10 ** rng.uniform(0, math.log10(3000))
    area = (
        abs(
            sum(
                a[0] * b[1] - b[0] * a[1]
                for a, b in zip(points, points[1:] + points[:1], strict=True)
            )
        )
        / 2
    )
    most = math.sqrt(rng.choice(panels) * span**2 / max(area, 1e-6))
    size = min(size, most)
    return [(x * size, y * size) for x, y in points]


def _placed(rng, points, turned):
    """Turned, moved and rounded as people draw, some sides bowed."""
    turn = math.radians(turned * rng.choice([0, 0, 0, 90, 45, 30, rng.uniform(0, 360)]))
    dx, dy = rng.choice([(0, 0), (0, 0), (1e6, -2e6), (5e8, 4e8)])
    step = rng.choice([1e-6, 1.0, 25.4, 1.5875])
    moved = [
        (
            round((x * math.cos(turn) - y * math.sin(turn)) / step) * step + dx,
            round((x * math.sin(turn) + y * math.cos(turn)) / step) * step + dy,
        )
        for x, y in points
    ]
    bulges = ()
    if rng.random() < 0.2:
        bulges = tuple(rng.choice([0, 0, 0.1, -0.1, 0.4, 1.0]) for _ in moved)
    return Ring(tuple(moved), bulges)


def _size(ring):
    xs, ys = zip(*ring.points, strict=True)
    return max(max(xs) - min(xs), max(ys) - min(ys), 1.0)


class _Somewhere:
    """Things on, across and off a slab."""

    def __init__(self, rng, outline, size, span):
        self.rng, self.outline, self.size, self.span = rng, outline, size, span
        xs, ys = zip(*outline.points, strict=True)
        self.box = (min(xs), min(ys), max(xs), max(ys))

    def spot(self):
        """Somewhere in the outline's box; at times a corner, the middle of a side, or a place used before."""
        rng, points = self.rng, self.outline.points
        kind = rng.random()
        if kind < 0.15:
            return rng.choice(points)
        if kind < 0.3:
            i = rng.randrange(len(points))
            (x0, y0), (x1, y1) = points[i - 1], points[i]
            share = rng.random()
            return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
        x0, y0, x1, y1 = self.box
        return (rng.uniform(x0, x1), rng.uniform(y0, y1))

    def area(self, share):
        """A rectangle or a lozenge of about a share of the slab's size."""
        rng = self.rng
        x, y = self.spot()
        w, h = (self.size * share * rng.uniform(0.1, 1) for _ in range(2))
        if rng.random() < 0.3:
            return Ring(((x - w, y), (x, y - h), (x + w, y), (x, y + h)))
        if rng.random() < 0.2:
            return Ring(((x - w, y), (x + w, y)), (1.0, 1.0))
        return box_ring(x - w / 2, y - h / 2, x + w / 2, y + h / 2)

    def path(self):
        rng = self.rng
        kind = rng.random()
        if kind < 0.15:
            i = rng.randrange(len(self.outline.points))
            return (self.outline.points[i - 1], self.outline.points[i])
        x, y = self.spot()
        if kind < 0.6:
            far = self.size * rng.choice([-2, -0.5, 0.01, 0.3, 1.0])
            return ((x, y), (x + far, y)) if rng.random() < 0.5 else ((x, y), (x, y + far))
        if kind < 0.8:
            return ((x, y), self.spot())
        return ((x, y), self.spot(), self.spot())

    def openings(self, count):
        made = []
        for _ in range(count):
            if made and self.rng.random() < 0.3:  # shares a side or a corner with the one before
                x0, y0, x1, y1 = made[-1].polygon.bounds
                up = self.rng.choice([0.0, y1 - y0])
                made.append(box_ring(x1, y0 + up, 2 * x1 - x0, y1 + up))
            else:
                made.append(self.area(self.rng.choice([0.001, 0.02, 0.1, 0.3])))
        return made

    def walls(self, count):
        for i in range(count):
            bearing = self.rng.random() < 0.25
            yield Wall(
                id=f"W{i + 1}",
                path=self.path(),
                thickness=self.rng.choice([50.0, 114.3, 203.2, 400.0]),
                bearing=bearing,
                strip_width=self.rng.choice([0.0, 406.4]) if bearing else 0.0,
                strip_depth=406.4 if bearing else 0.0,
                bearing_rule=self.rng.choice(list(BearingRule)),
            )

    def columns(self, count):
        last = None
        for i in range(count):
            at = self.spot()
            if last and self.rng.random() < 0.4:
                at = (last[0] + self.rng.choice([0.0, 100.0, 609.6, 862.1]), last[1])
            last = at
            yield Column(
                id=f"C{i + 1}",
                at=at,
                boxout=self.rng.choice(list(Boxout)),
                size=self.rng.choice([100.0, 609.6, 609.6, 1500.0, self.size / 2]),
                turn=self.rng.choice([0.0, 0.0, 45.0, self.rng.uniform(0, 90)]),
            )

    def penetrations(self, count):
        for i in range(count):
            yield Penetration(
                id=f"N{i + 1}",
                at=self.spot(),
                diameter=self.rng.choice([0.0, 25.0, 101.6, 600.0]),
                meeting=self.rng.choice(list(Meeting)),
            )

    def zones(self, count):
        for i in range(count):
            yield Zone(
                id=f"Z{i + 1}",
                outline=self.area(self.rng.choice([0.05, 0.3, 0.8])),
                thickness=self.rng.choice([76.2, 152.4, 304.8]),
                joint_at_border=self.rng.random() < 0.7,
            )

    def keep_outs(self, count):
        for i in range(count):
            everywhere = self.rng.random() < 0.25
            yield KeepOut(
                id=f"K{i + 1}",
                outline=Ring(self.outline.points) if everywhere else self.area(0.3),
                cover=self.rng.choice([None, 10.0, 60.0]),
            )

    def edges(self, count):
        places = sorted(
            self.rng.sample(range(len(self.outline.points)), min(count, len(self.outline.points)))
        )
        for segment in places:
            kind = self.rng.choice([k for k in EdgeKind if k is not EdgeKind.FREE])
            deep = kind is EdgeKind.TURNDOWN
            yield Edge(
                ring=0,
                segment=segment,
                kind=kind,
                depth=406.4 if deep else 0.0,
                width=304.8 if deep else 0.0,
            )

    def joints(self, count):
        for i in range(count):
            yield GivenJoint(
                id=f"G{i + 1}",
                path=self.path(),
                kind=self.rng.choice(list(JointKind)),
                forbidden=self.rng.random() < 0.25,
            )

    def patterns(self, count):
        for i in range(count):
            kind = self.rng.choice(list(PatternKind))
            along = (self.spot(), self.spot()) if kind is PatternKind.ALIGNED else None
            yield Pattern(
                id=f"T{i + 1}",
                area=self.area(0.8),
                kind=kind,
                along=along,
                spacing=self.rng.choice([None, None, self.span, self.span / 2]),
            )

    def falls(self, count):
        for i in range(count):
            to = (self.spot(),) if self.rng.random() < 0.6 else (self.spot(), self.spot())
            yield Fall(
                id=f"D{i + 1}", area=self.area(0.6), to=to, joints=self.rng.choice(list(FallJoints))
            )
