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
from kerfline.library.calls import check, lay_out, plan_day
from kerfline.library.checked import Checked
from kerfline.library.day import Day
from kerfline.library.many import Summary, lay_out_many, write_many
from kerfline.library.opening import slabs_of
from kerfline.library.options import Options
from kerfline.library.parts import Finding, Joint, Panel
from kerfline.library.result import Refusal, Result
from kerfline.library.slab import Slab
from kerfline.library.starts import demo, new_job, redraw, rules_text
from kerfline.library.written import Written

__all__ = [
    "Checked",
    "Day",
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
    "Summary",
    "Written",
    "check",
    "demo",
    "lay_out",
    "lay_out_many",
    "new_job",
    "plan_day",
    "redraw",
    "rules_text",
    "slabs_of",
    "write_many",
]
