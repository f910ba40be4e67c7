"""What kind of joint a layer holds, from the trade's words and abbreviations in its name.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.layers import chosen, own_name, stated_kind
from kerfline.model.slab import JointKind

WORDS = {
    JointKind.CONTROL: ("CONTROL", "CONTRACTION", "SAWCUT", "SAWN"),
    JointKind.CONSTRUCTION: ("CONSTRUCTION", "CONSTJ", "COLDJ"),
    JointKind.ISOLATION: ("ISOLATION", "EXPANSION"),
}
"""Words that say the kind wherever they stand in a name."""

CODES = {
    JointKind.CONTROL: {"CTLJ", "CTRL", "CTL", "CTRJ", "SAW", "SAWS", "SC", "SCJ", "TOOLED"},
    JointKind.CONSTRUCTION: {"CNTJ", "CNST", "CONST", "CONSTR", "CSJ", "POUR"},
    JointKind.ISOLATION: {"ISOL", "ISO", "ISOJ", "EXP", "EXPN", "EXPJ", "EJ", "IJ"},
}
"""Abbreviations that say the kind where they stand by themselves."""

EITHER = re.compile(r"(^|[^A-Z])C[._ -]?JS?([^A-Z]|$)")
"""CJ: construction joint in some offices, control joint in others."""

KIND = r"(CONTROL|CONTRACTION|CONSTRUCTION)"

LEGEND = re.compile(
    rf"\bC\.?\s?J\.?\s*(?:[=:,;(–-]|\bIS\b|\bDENOTES\b|\bINDICATES\b)?\s*(?:[A-Z/&.'-]+[ \t]+){{0,4}}?{KIND}\b"
    rf"|\b{KIND}\s+J(?:OIN)?TS?\.?\s*[(\[=:–-]\s*[\"']?C\.?\s?J\b"
)
"""A legend that says what CJ means on this drawing: ``CJ: SAW CUT CONTROL JOINT``, ``CONTROL JOINT (CJ)``."""

BARE = re.compile(r"\s*C\.?\s?J\.?\s*[=:–-]?\s*")
"""The abbreviation by itself, as in the left column of a legend."""

MEANING = re.compile(rf"\s*(?:[=:–-]\s*)?(?:[A-Z/&.'-]+[ \t]+){{0,3}}?{KIND}\s+J(?:OIN)?TS?\b")
"""What it means, as in the right column."""

SLANT = 0.1
"""Two texts stand side by side where the one lies above the other by under this share of the distance."""

JOINT = re.compile(r"(^|[^A-Z])(JNTS?|JOINTS?|JTS?)([^A-Z]|$)|JOINT")


def kind_in(name: str) -> JointKind | None:
    """The kind that a layer's name says; None where it says none, or two."""
    text = own_name(name).upper()
    tokens = set(re.split(r"[^A-Z]+", text))
    found = {
        kind for kind in JointKind if any(w in text for w in WORDS[kind]) or tokens & CODES[kind]
    }
    return found.pop() if len(found) == 1 else None


def is_ambiguous(name: str) -> bool:
    """Whether a layer's name says CJ and nothing that makes it clear."""
    return kind_in(name) is None and bool(EITHER.search(own_name(name).upper()))


def names_joints(name: str) -> bool:
    """Whether a layer's name speaks of joints at all."""
    text = own_name(name).upper()
    tokens = set(re.split(r"[^A-Z]+", text))
    plain = {"CTLJ", "CNTJ", "CTRJ", "SCJ", "CSJ", "ISOJ", "EXPJ", "EJ", "IJ", "SAW", "SAWS"}
    return bool(JOINT.search(text) or tokens & plain or "SAWCUT" in text or is_ambiguous(name))


def meaning_of_cj(labels: Iterable[Label]) -> JointKind | None:
    """What the drawing's own legend says that CJ means; None where it says nothing, or both."""
    every = list(labels)
    words = [w for t in every for pair in LEGEND.findall(t.text.upper()) for w in pair if w]
    words += _in_columns(every)
    kinds = {
        JointKind.CONSTRUCTION if word == "CONSTRUCTION" else JointKind.CONTROL for word in words
    }
    return kinds.pop() if len(kinds) == 1 else None


def _in_columns(labels: Sequence[Label]) -> list[str]:
    """What the texts beside a bare CJ say, as in a legend of two columns."""
    bare = [t for t in labels if BARE.fullmatch(t.text.upper())]
    said = [(t, m[1]) for t in labels if (m := MEANING.match(t.text.upper()))]
    found = []
    for label in bare:
        right = [(t.at[0] - label.at[0], abs(t.at[1] - label.at[1]), word) for t, word in said]
        level = [(dx, word) for dx, dy, word in right if dx > 0 and dy <= SLANT * dx]
        if level:
            found.append(min(level)[1])
    return found


def kinds_of(
    path: Path,
    layers: Sequence[str],
    labels: Iterable[Label],
    patterns: Sequence[str],
    shown: Mapping[str, JointKind] = MappingProxyType({}),
) -> tuple[list[tuple[JointKind | None, list[str]]], list[str]]:
    """The layers that hold each kind of joint.

    Args:
        path: The drawing, for the question.
        layers: Its layers.
        labels: Its texts, a legend perhaps among them.
        patterns: Patterns of the joints' layers, some with the kind that the user states.
        shown: The kind that a legend shows for all of a layer.

    Returns:
        Each kind with its layers, None for those whose names do not say it; and notes on what CJ means.

    Raises:
        InputRefused: A layer says CJ, neither the drawing's legend nor the user says what that means.
    """
    legend = meaning_of_cj(labels)
    kinds: dict[JointKind | None, list[str]] = {}
    notes, questions = [], []
    for layer in chosen(layers, patterns):
        kind = _told(layer, patterns) or kind_in(layer)
        if kind is None and layer in shown:
            kind = shown[layer]
            notes.append(f"{layer}: {kind.value} joints, as the drawing's own legend shows.")
        if kind is None and is_ambiguous(layer):
            if legend is None:
                questions.append(question(path, layer))
                continue
            kind = legend
            notes.append(f"{layer}: CJ is {legend.value} joint, as the drawing's own legend says.")
        kinds.setdefault(kind, []).append(layer)
    if questions:
        raise InputRefused(*questions)
    return [(kind, kinds[kind]) for kind in (*JointKind, None) if kind in kinds], notes


def question(path: Path, layer: str) -> Mistake:
    """The question what CJ means on a layer."""
    return Mistake(
        what="CJ means construction joint in some offices and control joint in others",
        where=f"{path}, layer {layer}",
        remedy=f'say which it is, as in joints = ["{layer} = control"] or ["{layer} = construction"]',
    )


def _told(layer: str, patterns: Sequence[str]) -> JointKind | None:
    """The kind that the user states with a pattern of this layer."""
    stated = [stated_kind(p) for p in patterns if chosen((layer,), (p,))]
    return next((kind for kind in stated if kind), None)
