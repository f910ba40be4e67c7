"""What comes before a layout, and what is done with one that was kept."""

import pytest

import kerfline
from boathouses import FT, boathouse_file


@pytest.fixture(scope="module")
def with_day(tmp_path_factory):
    return boathouse_file(tmp_path_factory.mktemp("day"))


def test_a_saved_layout_is_drawn_on_other_paper(with_day, tmp_path):
    laid_out = kerfline.lay_out(with_day)
    laid_out.write(tmp_path)
    drawn = kerfline.redraw(with_day, folder=tmp_path, size="a3")
    assert drawn.command == "sheets"
    assert [j.path for j in drawn.joints] == [j.path for j in laid_out.joints]
    assert drawn.svg() != laid_out.svg()


def test_a_job_file_is_written_from_a_size(tmp_path):
    told = []
    path = kerfline.new_job(
        "40 ft x 24 ft", options=kerfline.Options(thickness="4 in"), target=tmp_path / "a.toml", tell=told.append,
    )  # fmt: skip
    assert kerfline.lay_out(path).concrete.area == pytest.approx(40 * 24 * FT**2)
    assert "no walls" in told[0]


def test_a_scale_and_a_unit_are_said_as_on_the_command_line(with_day, tmp_path):
    kerfline.lay_out(with_day).write(tmp_path)
    drawn = kerfline.redraw(with_day, folder=tmp_path, scale="1:100", units="mm", review=True)
    job = drawn.outcome.job
    assert (job.sheet.scale, job.units.value, job.sheet.review) == (100, "mm", True)


def test_rule_sets_are_listed_or_printed_in_either_unit():
    assert "floor" in kerfline.rules_text()
    assert "15'-0\"" in kerfline.rules_text("floor")
    assert "4572 mm" in kerfline.rules_text("floor", metric=True)


def test_a_job_file_is_replaced_only_where_it_is_said(tmp_path):
    options = kerfline.Options(thickness="4 in")
    target = tmp_path / "a.toml"
    target.write_text("mine")
    with pytest.raises(kerfline.InputRefused, match="already"):
        kerfline.new_job("40 ft x 24 ft", options=options, target=target)
    assert target.read_text() == "mine"
    kerfline.new_job("40 ft x 24 ft", options=options, target=target, force=True)
    assert kerfline.lay_out(target).clean
