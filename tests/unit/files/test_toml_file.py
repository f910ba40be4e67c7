"""A TOML file read, and the line of everything in it."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.toml_file import MOST_PARTS, read_toml


def read(tmp_path, data):
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    return read_toml(path, "job file")


def test_tables_and_their_lines(tmp_path):
    file = read(tmp_path, b'\xef\xbb\xbf[job]\nname = "Bay"\n')
    assert file.tables == {"job": {"name": "Bay"}}
    assert file.places.of(("job", "name")).startswith("job.toml line 2")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"[job\n", "this is not valid TOML: "),
        (b"a = 1\na = 2\n", "this is not valid TOML: "),
        (b"\xff\xfe", "this is not UTF-8 text (byte 0); save it as UTF-8"),
        (b"x = " + b"[" * 5000, "this is not valid TOML"),
        (b"a" + b".a" * (MOST_PARTS + 1) + b" = 1", "a key of it has no end"),
    ],
)
def test_what_is_no_toml_is_refused_in_words(tmp_path, data, words):
    with pytest.raises(InputRefused) as refused:
        read(tmp_path, data)
    assert words in str(refused.value)
    assert "job.toml" in str(refused.value)


def test_a_key_of_many_parts_is_read(tmp_path):
    assert read(tmp_path, b"a" + b".a" * 50 + b" = 1").tables


def test_a_number_with_many_points_is_no_key_without_end(tmp_path):
    text = ", ".join(["1.5"] * 2000)
    assert len(read(tmp_path, f"x = [{text}]".encode()).tables["x"]) == 2000


def test_a_file_that_is_not_there_and_a_folder_are_refused(tmp_path):
    with pytest.raises(InputRefused, match="there is no such job file; check the path"):
        read_toml(tmp_path / "no.toml", "job file")
    with pytest.raises(InputRefused, match=r"a folder|folder"):
        read_toml(tmp_path, "job file")
