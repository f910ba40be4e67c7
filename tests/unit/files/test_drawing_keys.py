"""The keys of [drawing] that read a drawing again as it was read."""

from drawn_plans import plan_dxf, two_slabs
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.files.drawing_keys import Said, drawing_keys
from kerfline.units import Unit


def read(path, **said):
    heard = []
    open_job(path, Wishes(thickness="4 in", **said), heard.append)
    return heard[0]


def test_layers_that_say_it_all_are_named_with_the_file_beside_the_job(tmp_path):
    path = plan_dxf(tmp_path / "plan.dxf", layer="S-SLAB")
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    assert drawing_keys(read(path), path, jobs, Said()) == {
        "file": "../plan.dxf", "outline": ["S-SLAB"], "walls": ["A-WALL"],
    }  # fmt: skip


def test_what_the_user_said_stands_beside_the_layers(tmp_path):
    path = plan_dxf(tmp_path / "plan.dxf", layer="S-SLAB")
    keys = drawing_keys(
        read(path), path, tmp_path, Said(units=Unit.M, page=2, scale="1:50", repair="1 in")
    )
    assert (keys["units"], keys["page"], keys["scale"], keys["repair"]) == ("m", 2, "1:50", "1 in")


def test_a_slab_that_layers_alone_do_not_give_has_no_keys(tmp_path):
    """Two slabs on one layer: only the number said which."""
    path = two_slabs(tmp_path / "site.dxf")
    assert drawing_keys(read(path, slab="2"), path, tmp_path, Said()) is None
