"""The demonstration job: a community workshop of our own invention."""

from importlib.resources import as_file, files

from kerfline.app.open_job import open_job
from kerfline.model.job import Job

JOB_FILE = "community-workshop.toml"


def demo_job() -> Job:
    """The job that ``kerfline demo`` lays out."""
    with as_file(files("kerfline.app") / "demo_data") as folder:
        return open_job(folder / JOB_FILE)
