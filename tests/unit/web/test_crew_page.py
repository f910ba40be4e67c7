"""The crew's page of a layout as a file."""

import kerfline
from kerfline.app.day_job import plan_beside
from kerfline.web.crew_page import CrewPage
from kerfline.web.one_file import page_bytes
from paged import house


def test_it_is_one_page_named_after_the_job_and_nothing_else_is_written(tmp_path):
    path = house(tmp_path)
    laid_out = kerfline.lay_out(path)
    page = CrewPage(laid_out)
    ((name, data),) = page.files().items()
    assert name == "boathouse-page.html"
    assert data == page_bytes(laid_out.outcome, plan_beside(laid_out.outcome, path))
    assert [p.name for p in page.write(tmp_path / "out")] == [name]
