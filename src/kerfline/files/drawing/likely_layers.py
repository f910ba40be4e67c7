"""The layers that may hold walls, columns or joints, by name or else by what is drawn there, for questions and refusals."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.names import decorates, elsewhere, outline_rank, part_named
from kerfline.files.drawing.perhaps import LEAST_JOINT, MOST, SHOWN
from kerfline.files.drawing.unnamed import holds_small_figures

PARTS = ("walls", "columns", "joints")
"""The parts that are listed, as the fields of ``Layers`` are called."""


@dataclass(frozen=True, kw_only=True)
class Likely:
    """The layers that may hold a part.

    Attributes:
        layers: Their names, the likeliest first.
        named: Whether their names say so.
    """

    layers: tuple[str, ...]
    named: bool


def likely_layers(scene: Scene) -> dict[str, Likely]:
    """The layers that may hold each of ``PARTS``; a part is left out where there are none."""
    named = {p: tuple(n for n in scene.layers if part_named(n) == p) for p in PARTS}
    found = {p: Likely(layers=names, named=True) for p, names in named.items() if names}
    by_drawing = {
        "walls": scene.wall_layers,
        "columns": tuple(
            n for n in _telling_nothing(scene) if holds_small_figures(scene.drawing, n)
        ),
        "joints": tuple(_with_long_lines(scene)),
    }
    for part, names in by_drawing.items():
        if names and part not in found:
            found[part] = Likely(layers=names[:SHOWN], named=False)
    return {p: found[p] for p in PARTS if p in found}


def likely_words(likely: Mapping[str, Likely], told: Layers | None = None) -> str:
    """Them as one clause, such as ``walls on A-WALL; columns perhaps on S-3``; those that the user named are known."""
    parts = []
    for part in PARTS:
        said = getattr(told, part, ())
        if said:
            parts.append(f"{part} on {', '.join(said)}, as you say")
        elif part in likely:
            perhaps = "" if likely[part].named else " perhaps"
            parts.append(f"{part}{perhaps} on {', '.join(likely[part].layers[:SHOWN])}")
    return "; ".join(parts)


def _telling_nothing(scene: Scene) -> Iterator[str]:
    """The layers whose names say of nothing what they hold."""
    for name in scene.layers:
        if not (part_named(name) or elsewhere(name) or decorates(name)) and (
            outline_rank(name) is None and 0 < len(scene.drawing.on(name)) <= MOST
        ):
            yield name


def _with_long_lines(scene: Scene) -> list[str]:
    """The layers with straight lines that are long enough for joints, those with most first; walls' are none."""
    lengths = {}
    for name in _telling_nothing(scene):
        if name in scene.wall_layers:
            continue
        paths = [c.path for c in scene.drawing.on(name)]
        lines = [p.line.length for p in paths if not p.closed and not p.has_arcs]
        total = sum(length for length in lines if length >= LEAST_JOINT)
        if total:
            lengths[name] = total
    return sorted(lengths, key=lambda n: (-round(lengths[n]), n))
