"""kerfline for programs: lay out or check a slab, and have the result as plain data.

Everything public stands in ``__all__`` here and may be imported from ``kerfline`` itself; these names stay. Lengths
come in as text with a unit (``"4 in"``) or as numbers in the slab's own unit, and go out as millimetres.

    >>> import kerfline
    >>> shed = kerfline.Slab([(0, 0), (24, 0), (24, 16), (0, 16)], units="ft")
    >>> result = kerfline.lay_out(shed, thickness="4 in")
    >>> result.clean, len(result.panels)
    (True, 6)
    >>> max(panel.length for panel in result.panels) <= 10 * 304.8
    True
"""

from kerfline.errors import InputRefused, KerflineError, OutputRefused
from kerfline.library.calls import Options, check, lay_out, lay_out_many
from kerfline.library.parts import Finding, Joint, Panel
from kerfline.library.result import Refusal, Result
from kerfline.library.slab import Slab

__all__ = [
    "Finding",
    "InputRefused",
    "Joint",
    "KerflineError",
    "Options",
    "OutputRefused",
    "Panel",
    "Refusal",
    "Result",
    "Slab",
    "check",
    "lay_out",
    "lay_out_many",
]
