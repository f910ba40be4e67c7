"""kerfline lays out, checks and draws the control joints of a concrete slab on ground.

For programs: ``kerfline.lay_out``, ``kerfline.check``, ``kerfline.lay_out_many`` and ``kerfline.Slab``; all public names
stand in ``__all__``, and are loaded when they are first used.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kerfline.library import (
        Checked,
        Day,
        Finding,
        InputRefused,
        Joint,
        KerflineError,
        Options,
        OutputRefused,
        Panel,
        Refusal,
        Result,
        Slab,
        Summary,
        Written,
        check,
        demo,
        lay_out,
        lay_out_many,
        new_job,
        plan_day,
        redraw,
        rules_text,
        slabs_of,
        write_many,
    )

    __version__: str

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
    "__version__",
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


def __getattr__(name: str) -> object:
    """A public name, loaded when it is first used."""
    if name == "__version__":
        from importlib.metadata import version

        return version("kerfline")
    if name in __all__:
        from kerfline import library

        return getattr(library, name)
    raise AttributeError(f"module 'kerfline' has no attribute {name!r}")


def __dir__() -> list[str]:
    """The public names."""
    return sorted({*globals(), *__all__})
