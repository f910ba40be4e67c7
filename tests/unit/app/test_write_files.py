"""A run's files in their folder, in place of what an earlier run of the job left there."""

from pathlib import Path

from kerfline.app.outcome import Outcome
from kerfline.app.write_files import MOST_NAMED, usual_folder, write_files, written_notes
from kerfline.files.set_record import Written
from parted import RULES
from shapes import workshop_job, workshop_layout

OUTCOME = Outcome(job=workshop_job(), rules=RULES, layout=workshop_layout(), findings=())


def test_a_job_has_a_folder_of_its_name():
    assert usual_folder(OUTCOME) == Path("out/workshop")


def test_what_a_run_no_longer_makes_goes_and_what_somebody_changed_stays(tmp_path):
    write_files(OUTCOME, tmp_path, "sheets", {"a.txt": b"1", "b.txt": b"2", "c.txt": b"3"})
    (tmp_path / "c.txt").write_bytes(b"mine")
    written = write_files(OUTCOME, tmp_path, "sheets", {"a.txt": b"4"})
    assert written.files == (tmp_path / "a.txt",)
    assert (tmp_path / "a.txt").read_bytes() == b"4"
    assert not (tmp_path / "b.txt").exists()
    assert (tmp_path / "c.txt").read_bytes() == b"mine"
    gone, left = written_notes(written)
    assert gone == "taken away, as this run no longer makes them: b.txt"
    assert left.startswith(
        "left as they are, for somebody changed them since they were written: c.txt"
    )


def names(count):
    return tuple(f"{n}.pdf" for n in range(count))


def test_a_note_names_a_few_files_and_counts_the_others():
    def note(count):
        return next(written_notes(Written(files=(), removed=names(count))))

    assert note(MOST_NAMED).endswith("0.pdf, 1.pdf, 2.pdf, 3.pdf")
    assert note(MOST_NAMED + 1).endswith("3.pdf and 1 more")
    assert list(written_notes(Written(files=()))) == []


def test_files_of_an_older_run_are_told_with_what_to_do():
    (note,) = written_notes(Written(files=(), older=("x.pdf",)))
    assert note == (
        "of an earlier run, with another run mark: x.pdf; draw them anew or take them away"
    )
