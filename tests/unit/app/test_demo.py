"""The demonstration job and its day."""

from kerfline.app.demo import JOB_FILE, demo, demo_contents, demo_job


def test_the_job_alone_is_the_one_that_is_laid_out():
    """Laid out by the command the workshop keeps its slab; nothing in it is an error."""
    job, heard = demo_job(), []
    day = demo(heard.append)
    assert day.outcome.job.slab == job.slab
    assert day.outcome.job.name == job.name
    assert day.outcome.clean
    assert heard
    stem = JOB_FILE.removesuffix(".toml")
    names = set(demo_contents(day))
    assert all(name.startswith(stem) for name in names)
    assert {f"{stem}-joint-plan.pdf", f"{stem}-day-sheet.pdf", f"{stem}-layout.json"} <= names
