"""The page's address, kept for a server that is started again; trusted only where nobody else can read it."""

import json
import os

import pytest

from kerfline.web.address import Address, address_path, keep_address, kept_address

TOKEN = "abcdefghijklmnopqrstuvwxyz-_0123"


def test_it_comes_back_as_it_was_kept(tmp_path):
    job = tmp_path / "job.toml"
    keep_address(job, Address(40001, TOKEN))

    assert kept_address(job) == Address(40001, TOKEN)
    assert address_path(job).stat().st_mode & 0o777 == 0o600


@pytest.mark.skipif(os.name != "posix", reason="modes are of POSIX")
def test_one_that_others_can_read_counts_for_nothing(tmp_path):
    job = tmp_path / "job.toml"
    keep_address(job, Address(40001, TOKEN))
    address_path(job).chmod(0o644)

    assert kept_address(job) is None


@pytest.mark.parametrize(
    "text",
    ["", "[]", '{"port": 1}', json.dumps({"port": 1, "token": "short"}),
     json.dumps({"port": 1, "token": "../" * 20})],
)  # fmt: skip
def test_nonsense_counts_for_nothing(tmp_path, text):
    path = address_path(tmp_path / "job.toml")
    path.write_text(text)
    path.chmod(0o600)

    assert kept_address(tmp_path / "job.toml") is None
