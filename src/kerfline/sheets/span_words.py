"""How the spacing that a layout is worked to is put into words, on sheets and terminal alike."""

from kerfline.geometry.tolerance import MEASURE
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display, format_length


def span_words(rules: SlabRules, thickness: float, display: Display, worked: float = 0.0) -> str:
    """The side of panels that is aimed at, and the most where a panel may pass it.

    Args:
        rules: The rules.
        thickness: Of the slab there, mm.
        display: How lengths are written.
        worked: The span (mm) that the layout was made to, where it is known.

    Returns:
        ``12'-6" a side, 15'-0" at most``, or the most alone where that is what was worked to.
    """
    span, most = worked or rules.working(thickness).span, rules.limits(thickness).span.bound
    if span > most - MEASURE:
        return f"{format_length(span, display)} a side at most"
    return f"{format_length(span, display)} a side, {format_length(most, display)} at most"
