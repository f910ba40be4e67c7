"""Starts a job from nothing: a name, a thickness, and an outline that was drawn or written."""

from kerfline.app.slab_edit import positive_length
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.units import Unit, depth_unit

LONGEST_NAME = 120


def start_job(
    name: str, units: Unit, thickness: str, *, points: tuple[Point, ...] = (), size: str = ""
) -> Job:
    """The job of a bare slab.

    Args:
        name: Name of the job.
        units: Its unit.
        thickness: As it was typed; a bare number is in inches or mm.
        points: Corners of the outline, mm, in any direction, a repeated one counting once; or ...
        size: ... its size in words, as ``files.written_size`` reads it.

    Raises:
        InputRefused: It gives no slab that makes sense.
    """
    from kerfline.files.job_build import ring
    from kerfline.files.slab_sense import check_slab
    from kerfline.files.written_size import read_size

    named = job_name(name)
    if not thickness.strip():
        raise InputRefused(
            Mistake(
                what="the slab needs a thickness", remedy='write it, such as "4 in" or "100 mm"'
            )
        )
    thick = positive_length(thickness, depth_unit(units), "thickness")
    outline = read_size(size, units).outline if size else ring([(x, y, 0.0) for x, y in points])
    slab = Slab(outline=outline, thickness=thick)
    if mistakes := check_slab(slab, display=units.display):
        raise InputRefused(*mistakes)
    return Job(name=named, units=units, slab=slab)


def job_name(text: str) -> str:
    """A job's name as it was typed.

    Raises:
        InputRefused: It is none, or too long.
    """
    if not text.strip() or len(text) > LONGEST_NAME:
        raise InputRefused(
            Mistake(what="the slab needs a name", remedy="write one, such as Garage")
        )
    return text.strip()
