"""What comes before a layout, and what is done with one that was kept."""

from pathlib import Path

from kerfline.library.calls import Tell
from kerfline.library.day import Demonstration
from kerfline.library.opening import opened
from kerfline.library.options import Options, wishes_of
from kerfline.library.result import Result


def redraw(
    source: str | Path,
    *,
    layout: str | Path | None = None,
    folder: str | Path | None = None,
    size: str = "",
    scale: str = "",
    units: str | None = None,
    review: bool = False,
) -> Result:
    """Takes a saved layout to be drawn at another size, scale or unit, without laying out anew.

    Args:
        source: The job file.
        layout: The ``NAME-layout.json``; that in ``folder`` where it is None, else where it is usually left.
        folder: Where the layout was written.
        size: Sheet size by its trade name.
        scale: Such as ``1/8"=1'-0"`` or ``1:100``.
        units: Unit to write lengths in.
        review: Draw the findings on the joint plan.

    Raises:
        InputRefused: The job or the layout cannot be used, or they do not belong together.
    """
    from kerfline.app.day_job import plan_beside
    from kerfline.app.redraw import redraw_job, saved_layout
    from kerfline.units import Unit, parse_scale

    path = Path(source)
    job = opened(path, Options(review=review)).job
    outcome = redraw_job(
        job,
        Path(layout) if layout else saved_layout(job, path, Path(folder) if folder else None),
        size=size,
        scale=parse_scale(scale) if scale else 0.0,
        units=Unit(units) if units else None,
    )
    return Result(outcome, plan_beside(outcome, path), command="sheets")


def new_job(
    source: str | Path,
    *,
    options: Options | None = None,
    target: str | Path | None = None,
    force: bool = False,
    tell: Tell = lambda _: None,
) -> Path:
    """Reads a drawing or a size and writes the job file that it proposes.

    Args:
        source: The drawing, or a size such as ``"40 ft x 28 ft"``.
        options: What is said beside it.
        target: The job file; beside the drawing, or here for a size, where it is None.
        force: Whether a job file that is there already may be replaced.
        tell: Told what the drawing holds, in words, also where it gives no job.

    Raises:
        InputRefused: The drawing cannot be used, or the job file is there already.
        OutputRefused: The job file cannot be written.
    """
    from kerfline.app.new_job import new_job as written

    place = Path(target) if target else None
    return written(Path(source), wishes_of(options or Options()), place, force=force, tell=tell)


def demo(progress: Tell | None = None) -> Demonstration:
    """Lays out a workshop of our own invention and plans its day."""
    from kerfline.app.demo import demo as workshop

    return Demonstration(workshop(progress))


def rules_text(name: str = "", *, metric: bool = False) -> str:
    """The rule sets in a list, or every figure of one with its source.

    Args:
        name: Which one; all in a list where it is empty.
        metric: Millimetres instead of feet and inches.

    Raises:
        InputRefused: There is no such rule set.

    Example:
        >>> "floor" in rules_text()
        True
    """
    from kerfline.rules.describe import describe, listing
    from kerfline.rules.rule_set import load
    from kerfline.units import Display

    display = Display.METRIC if metric else Display.FEET_INCHES
    return describe(load(name), display) if name else listing()
