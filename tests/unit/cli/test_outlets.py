"""Standard output that ends quietly where nobody reads on, and says in words where it is full."""

import io
import os
from pathlib import Path

import pytest

from kerfline.cli.outlets import Outlet, patient
from kerfline.errors import OutputRefused


def test_what_is_written_comes_out_at_the_other_end():
    out, into = os.pipe()
    with os.fdopen(into, "w") as stream:
        patient(stream, "standard output").write("said\n")
        assert os.read(out, 99) == b"said\n"
    os.close(out)


def test_a_reader_that_has_read_enough_is_no_mistake():
    out, into = os.pipe()
    outlet = Outlet(into, "standard output")
    assert outlet.write(b"read") == 4
    os.close(out)
    assert outlet.write(b"to nobody") == 9
    assert outlet.lost
    assert outlet.write(b"on") == 2
    os.close(into)


FULL = Path("/dev/full")


@pytest.mark.skipif(not FULL.exists(), reason="the system has no full device")
def test_a_full_disk_is_told_once_with_what_to_do():
    with FULL.open("wb") as full:
        outlet = Outlet(full.fileno(), "standard output")
        with pytest.raises(OutputRefused) as refused:
            outlet.write(b"data")
        assert outlet.write(b"more") == 4, "said once"
    assert str(refused.value) == (
        "standard output: what there is to say cannot be written (no space left on device); make room "
        "where it goes; the files of this run are written, all of them or none."
    )


def test_a_stream_without_a_handle_stays_as_it_is():
    text = io.StringIO()
    assert patient(text, "standard output") is text
    assert patient(None, "standard output") is None


def test_an_outlet_is_what_its_handle_is():
    out, into = os.pipe()
    outlet = Outlet(into, "standard output")
    assert outlet.writable()
    assert outlet.fileno() == into
    assert not outlet.isatty()
    os.close(out)
    os.close(into)
