"""The demonstration job: a community workshop of our own invention."""

from collections.abc import Callable
from importlib.resources import as_file, files

from kerfline.app.day_job import DayOutcome, day_contents, day_job
from kerfline.app.deliver import contents
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.model.job import Job

JOB_FILE = "community-workshop.toml"


def demo_job() -> Job:
    """The workshop alone, without its day."""
    with as_file(files("kerfline.app") / "demo_data") as folder:
        return open_job(folder / JOB_FILE)


def demo(progress: Callable[[str], None] | None = None) -> DayOutcome:
    """Lays out the workshop and plans its placement day."""
    with as_file(files("kerfline.app") / "demo_data") as folder:
        return day_job(folder / JOB_FILE, Wishes(), progress)


def demo_contents(day: DayOutcome) -> dict[str, bytes]:
    """Every file of the demonstration by name."""
    return {**contents(day.outcome, day.plan), **day_contents(day)}
