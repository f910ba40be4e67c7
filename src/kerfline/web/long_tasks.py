"""What the page asks for that may take long; each can be done in a process of its own."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from kerfline.app.brought import Brought
from kerfline.app.file_names import file_stem
from kerfline.app.lay_out import lay_out_job
from kerfline.app.live import kept_outcome, measured, outcome_of
from kerfline.app.look_at_drawing import SeenDrawing, look_at
from kerfline.app.outcome import Outcome
from kerfline.app.take_drawing import take
from kerfline.app.working import Working
from kerfline.model.job import Job
from kerfline.web.alternatives import alternatives_data

Data = dict[str, Any]
Tell = Callable[[str], None] | None


def laid_out(job: Job, progress: Tell = None) -> Outcome:
    """The layout that the engine finds around what is pinned."""
    return replace(lay_out_job(job, progress), held=None)


def first_layout(job: Job, progress: Tell = None) -> Outcome:
    """The layout that a job begins with: kept before, or laid out now."""
    return replace(outcome_of(job, progress), held=None)


def other_layouts(job: Job, progress: Tell = None) -> list[Data]:
    """Other good layouts around what is pinned."""
    return alternatives_data(job, progress)


def seen_drawing(path: Path, brought: Brought, progress: Tell = None) -> SeenDrawing:
    """What a file holds that came in."""
    return look_at(path, brought, progress)


@dataclass(frozen=True, kw_only=True)
class Choice:
    """What the user says of a file that came in.

    Attributes:
        roles: What each layer is, by its name.
        thickness: Thickness of the slab as text.
        slab: Number of the candidate that is the slab; 0 where a layer is.
    """

    roles: Mapping[str, str]
    thickness: str
    slab: int


def taken_drawing(
    path: Path, brought: Brought, choice: Choice, base: Job, progress: Tell = None
) -> Outcome:
    """The job that a file gives which came in: with its own joints, or laid out where it has none."""
    _tell(progress, "Reading the slab")
    taken = take(path, brought, choice.roles, choice.thickness, choice.slab)
    job = replace(base, slab=taken.slab, notes=taken.notes)
    return kept_outcome(job) if taken.slab.pinned else laid_out(job, progress)


def exported(base: Job, working: Working, job_file: Path, progress: Tell = None) -> Data:
    """Writes the sheets into the folder ``out/NAME`` beside the job file."""
    from kerfline.app.day_job import plan_beside
    from kerfline.app.deliver import deliver

    _tell(progress, "Holding the layout against the rules")
    outcome = measured(base, working)
    folder = Path("out") / file_stem(outcome.job.name)
    _tell(progress, "Planning the placement day")
    plan = plan_beside(outcome, job_file)
    _tell(progress, "Drawing the sheets")
    written = deliver(outcome, job_file.parent / folder, plan)
    return {"folder": str(folder), "files": [p.name for p in written]}


def page_for_the_crew(
    base: Job, working: Working, job_file: Path, progress: Tell = None
) -> tuple[str, bytes]:
    """The page that needs no server: its name and its bytes."""
    from kerfline.app.day_job import plan_beside
    from kerfline.web.one_file import page_bytes

    _tell(progress, "Planning the placement day")
    outcome = measured(base, working)
    plan = plan_beside(outcome, job_file)
    _tell(progress, "Ordering the cuts")
    return f"{file_stem(outcome.job.name)}-page.html", page_bytes(outcome, plan)


def _tell(progress: Tell, words: str) -> None:
    if progress:
        progress(words)
