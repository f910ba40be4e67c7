"""Reads what the forge draws and says what came of it: right, asked, or wrong in silence.

``python tests/forge/measure.py [first seed] [count]`` prints the table of DEVELOPERS.md, ``... corpus`` its rows on
plans that nobody here drew.
"""

import sys
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from random import Random

from shapely import Polygon

from forge.drawn import Drawn, Habit
from forge.habits import HABITS, court, several_buildings, tiled_terrace
from forge.plans import of_floor, of_footprint, plan
from forge.wall_habits import open_hall
from kerfline.errors import InputRefused
from kerfline.files.drawing import SlabOpen, SlabParts, drawing_of, reading
from kerfline.files.drawing.opened import Drawing

AGREE = 0.02
"""The slab is right where what differs is under this share of it."""

COUNT = 2

GIVEN = [h for h in HABITS if h not in (court, open_hall, several_buildings, tiled_terrace)]
"""The habits that draw the plan that they are given and no other."""

UNSEEN = 4
"""Every fourth seed is kept unseen while the reading is tuned."""


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of reading one drawing.

    Attributes:
        verdict: ``right``, ``asked`` or ``wrong``.
        walls: Length of inner wall that was found over what is drawn; None where nothing was read.
        openings: Area of openings over what is drawn; None where none is drawn or nothing was read.
        why: What went wrong or was asked.
    """

    verdict: str
    walls: float | None = None
    openings: float | None = None
    why: str = ""


def outcome(drawn: Drawn) -> Outcome:
    """Reads a drawing and holds it against its truth."""
    drawing = drawing_of(drawn.document, Path("forge.dxf"))
    try:
        read = reading(drawing)
    except SlabOpen as asked:
        held = [any(_same(c.floor, s) for c in asked.candidates) for s in drawn.slabs]
        verdict = "right" if drawn.asks and all(held) else "asked"
        return Outcome(verdict=verdict, why=str(asked).splitlines()[0])
    except InputRefused as refused:
        unit = "unit" in str(refused)
        verdict = "right" if drawn.asks and unit and len(drawn.slabs) == 1 else "asked"
        return Outcome(verdict=verdict, why=str(refused))
    return _read(drawn, read.drawing, read.parts)


def _read(drawn: Drawn, drawing: Drawing, parts: SlabParts) -> Outcome:
    outline = parts.outline.polygon if parts.outline else Polygon()
    meant = next((s for s in drawn.slabs if _same(outline, Polygon(s.exterior))), None)
    right = meant is not None and abs(drawing.factor / drawn.unit - 1) < 1e-5
    walls = sum(w.line.length for w in parts.walls) / drawn.walls if drawn.walls else None
    opened = sum(o.polygon.area for o in parts.openings)
    true = drawn.openings + sum(Polygon(r).area for r in (meant.interiors if meant else ()))
    openings = opened / true if true else None
    wrong_holes = opened > 0 if not true else abs(opened / true - 1) > AGREE
    if not right:
        why = f"{outline.area / 1e6:.0f} m2 in {drawing.unit_name} for {drawn.slabs[0].area / 1e6:.0f} m2"
        return Outcome(verdict="wrong", why=why)
    if drawn.corners not in (None, found := len(outline.exterior.coords) - 1):
        why = f"an edge of {found} corners for one of {drawn.corners}"
        return Outcome(verdict="wrong", why=why)
    if drawn.asks and len(drawn.slabs) > 1:
        return Outcome(verdict="wrong", why="one of several slabs taken without a question")
    if wrong_holes:
        why = f"openings of {opened / 1e6:.1f} m2 for {true / 1e6:.1f} m2"
        return Outcome(verdict="wrong", walls=walls, openings=openings, why=why)
    return Outcome(verdict="right", walls=walls, openings=openings)


def _same(one: Polygon, other: Polygon) -> bool:
    return bool(one.is_valid and one.symmetric_difference(other).area < AGREE * other.area)


def forged(seed: int) -> tuple[Habit, Drawn]:
    """The drawing of a seed."""
    random = Random(seed)
    habit = HABITS[seed % len(HABITS)]
    return habit, habit(random, plan(random))


def told(seeds: Iterable[int]) -> dict[str, list[tuple[int, Outcome]]]:
    """The outcomes of seeds by habit."""
    found: dict[str, list[tuple[int, Outcome]]] = {h.__name__: [] for h in HABITS}
    for seed in seeds:
        habit, drawn = forged(seed)
        found[habit.__name__].append((seed, outcome(drawn)))
    return found


def corpus() -> dict[str, list[tuple[int, Outcome]]]:
    """The outcomes of the floors of ``eppy`` and the footprints of ``momepy``, each in the next habit in turn."""
    from corpus.floors import floors
    from corpus.footprints import footprints

    plans = {
        "floors of eppy": [
            of_floor(outline, [(w, 115.0) for w in walls], Random(1))
            for _, outline, walls in floors()
        ],
        "footprints of momepy": [of_footprint(outline, Random(1)) for _, outline in footprints()],
    }
    # A floor is drawn in every habit, there being few.
    drawn = {
        "floors of eppy": [(n, p, h) for n, p in enumerate(plans["floors of eppy"]) for h in GIVEN],
        "footprints of momepy": [
            (n, p, GIVEN[n % len(GIVEN)]) for n, p in enumerate(plans["footprints of momepy"])
        ],
    }
    return {
        name: [(n, outcome(habit(Random(n), plan))) for n, plan, habit in each]
        for name, each in drawn.items()
    }


def table(found: dict[str, list[tuple[int, Outcome]]]) -> str:
    """The table of DEVELOPERS.md: by habit, then the seeds that were seen while tuning and those that were not."""
    lines = [
        "| habit | drawings | right | asked | wrong in silence | length of inner walls found |",
        "|---|---|---|---|---|---|",
    ]
    lines += [_row(h.replace("_", " "), [o for _, o in rows]) for h, rows in found.items()]
    every = [pair for rows in found.values() for pair in rows]
    lines.append(_row("seen while tuning", [o for seed, o in every if seed % UNSEEN]))
    lines.append(_row("unseen", [o for seed, o in every if not seed % UNSEEN]))
    return "\n".join(lines)


def _row(name: str, outcomes: list[Outcome]) -> str:
    counts = Counter(o.verdict for o in outcomes)
    total = max(len(outcomes), 1)
    shares = " | ".join(f"{counts[v] / total:.0%}" for v in ("right", "asked", "wrong"))
    walls = [o.walls for o in outcomes if o.walls is not None]
    found = f"{sum(walls) / len(walls):.0%}" if walls else ""
    return f"| {name} | {len(outcomes)} | {shares} | {found} |"


def main() -> None:
    """Prints the table, and what was asked or wrong on standard error."""
    if sys.argv[1:] == ["corpus"]:
        for name, rows in corpus().items():
            print(_row(name, [o for _, o in rows]))
            for number, o in rows:
                if o.verdict != "right":
                    print(name, number, o.verdict, o.why[:200], file=sys.stderr)
        return
    first, count = (int(a) for a in sys.argv[1:3]) if len(sys.argv) > COUNT else (0, 1000)
    found = told(range(first, first + count))
    print(table(found))
    for habit, rows in found.items():
        for seed, o in rows:
            if o.verdict != "right":
                print(habit, seed, o.verdict, o.why[:200], file=sys.stderr)


if __name__ == "__main__":
    main()
