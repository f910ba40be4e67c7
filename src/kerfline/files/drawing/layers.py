"""Which layers hold what: patterns, and how a layer's name meets them."""

import difflib
import fnmatch
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from kerfline.errors import Mistake
from kerfline.model.slab import JointKind
from kerfline.units import listed

BOUND = re.compile(r"\$\d+\$|\|")
"""What stands between a reference drawing's name and its layer's own."""

SHOWN = 12
"""Layers that a refusal names at most."""

BLOCK = "block:"
"""What a pattern begins with that names a block, whatever layers its references are drawn on."""

KIND_MARK = "="
"""In a joint pattern: what follows is the kind of joint, as in ``S-CJ = control``."""


@dataclass(frozen=True, kw_only=True)
class Layers:
    """Patterns of the layers that each part of the slab is drawn on.

    Wildcards ``*`` and ``?`` are allowed, case does not count, and a layer of a bound or attached
    reference drawing (``PLAN$0$A-WALL``, ``PLAN|A-WALL``) is met by its last part too. A joint pattern may
    state the kind, as in ``S-CJ = control``; one that begins with ``block:`` names a block instead of a layer.
    """

    outline: tuple[str, ...] = ()
    openings: tuple[str, ...] = ()
    walls: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()
    penetrations: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    keep_outs: tuple[str, ...] = ()


def own_name(layer: str) -> str:
    """A layer's name without the name of the reference drawing that it came with."""
    return BOUND.split(layer)[-1]


def matches(layer: str, pattern: str) -> bool:
    """Whether a layer's name, or its last part, meets a pattern."""
    wanted = pattern_of(pattern).upper()
    # Names may hold the marks of patterns themselves: brackets, equals signs.
    exact = {wanted, pattern.strip().upper()}
    return any(
        name.upper() in exact or fnmatch.fnmatchcase(name.upper(), wanted)
        for name in (layer, own_name(layer))
    )


def pattern_of(text: str) -> str:
    """The pattern without the kind of joint after it."""
    return text.split(KIND_MARK, maxsplit=1)[0].strip()


def stated_kind(text: str) -> JointKind | None:
    """The kind of joint that a pattern states; None where it states none.

    Raises:
        ValueError: What it states is no kind of joint.
    """
    if KIND_MARK not in text:
        return None
    return JointKind(text.split(KIND_MARK, 1)[1].strip().lower())


def chosen(layers: Iterable[str], patterns: Sequence[str]) -> tuple[str, ...]:
    """The layers that meet any of the patterns, sorted."""
    return tuple(sorted(n for n in layers if any(matches(n, p) for p in patterns)))


def blocks_chosen(blocks: Iterable[str], patterns: Sequence[str]) -> tuple[str, ...]:
    """The blocks that meet any of the patterns that name blocks, sorted."""
    named = [p.strip()[len(BLOCK) :] for p in patterns if names_block(p)]
    return tuple(sorted({n for n in blocks if any(matches(n, p) for p in named)}))


def names_block(pattern: str) -> bool:
    """Whether a pattern names a block."""
    return pattern.strip().lower().startswith(BLOCK)


def unmatched(
    path: Path,
    present: Sequence[str],
    wanted: Layers,
    blocks: Sequence[str] = (),
    likely: Callable[[], str] = str,
) -> list[Mistake]:
    """A mistake for each pattern that meets no layer of the drawing, or no block.

    Args:
        path: The drawing.
        present: Its layers.
        wanted: The patterns.
        blocks: Its blocks.
        likely: Gives the layers that may hold walls, columns and joints, as a clause; asked only where it is needed.
    """
    found = []
    for part in fields(wanted):
        for pattern in getattr(wanted, part.name):
            if names_block(pattern):
                if not blocks_chosen(blocks, (pattern,)):
                    found.append(_no_block(path, blocks, part.name, pattern))
            elif not chosen(present, (pattern,)):
                found.append(_not_there(path, present, part.name, pattern, likely()))
            elif part.name == "joints":
                found.extend(_no_kind(path, pattern))
    return found


def _no_kind(path: Path, pattern: str) -> list[Mistake]:
    try:
        stated_kind(pattern)
    except ValueError:
        return [
            Mistake(
                what="what follows the equals sign is not a kind of joint",
                where=f"{path}, joints",
                found=repr(pattern),
                allowed=", ".join(kind.value for kind in JointKind),
            )
        ]
    return []


def _not_there(path: Path, present: Sequence[str], part: str, pattern: str, likely: str) -> Mistake:
    may = f"; by what is drawn and named, {likely}" if likely else ""
    return Mistake(
        what=f"no layer of the drawing matches {pattern_of(pattern)!r}",
        where=f"{path}, {part}",
        found=f"the layers {listed(closest_first(pattern, present), SHOWN)}{may}",
        remedy="name one of these, wildcards allowed",
    )


def _no_block(path: Path, blocks: Sequence[str], part: str, pattern: str) -> Mistake:
    name = pattern.strip()[len(BLOCK) :]
    held = f"the blocks {listed(closest_first(name, blocks), SHOWN)}" if blocks else "no block"
    return Mistake(
        what=f"no block that is drawn matches {name!r}",
        where=f"{path}, {part}",
        found=held,
        remedy="name one of these, wildcards allowed" if blocks else "name a layer",
    )


def closest_first(pattern: str, present: Sequence[str]) -> list[str]:
    """Layer names, those most like the pattern first."""
    wanted = pattern_of(pattern).upper().strip("*")

    def unlike(name: str) -> tuple[float, str]:
        ratio = difflib.SequenceMatcher(None, wanted, own_name(name).upper()).ratio()
        return (-ratio, name)

    return sorted(present, key=unlike)
