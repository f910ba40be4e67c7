"""The files that a result was written to."""

from pathlib import Path

from kerfline.files.set_record import Written as WrittenSet
from kerfline.library.written import Written


def test_the_files_are_a_tuple_in_their_order_with_words_for_a_terminal():
    files = (Path("out/a-joint-plan.pdf"), Path("out/a-joints.csv"))
    written = Written(WrittenSet(files=files, removed=("old.svg",)))
    assert written == files
    assert written.set.removed == ("old.svg",)
    assert written.text.startswith("files ")
    assert "old.svg" in written.text
