"""Where the server listens, and that a page that is open finds it again."""

import socket

import pytest

from kerfline.errors import InputRefused
from kerfline.web.running import LOOPBACK, _as_before, listen


def test_the_server_listens_on_this_computer_only():
    with listen(0) as listener:
        assert listener.getsockname()[0] == LOOPBACK
        assert listener.getsockname()[1] > 0


@pytest.mark.parametrize("port", [-1, 65536, 10**9])
def test_a_port_that_there_is_not_is_refused(port):
    with pytest.raises(InputRefused, match="no such port"):
        listen(port)


def test_a_port_that_is_taken_is_refused_in_words():
    with socket.socket() as other:
        other.bind((LOOPBACK, 0))
        other.listen()
        with pytest.raises(InputRefused, match="port cannot be used"):
            listen(other.getsockname()[1])


def test_a_server_started_again_has_its_old_address_where_it_is_free(tmp_path):
    job = tmp_path / "job.toml"
    first, token = _as_before(job, 0)
    port = first.getsockname()[1]
    first.close()
    again, same = _as_before(job, 0)
    assert (again.getsockname()[1], same) == (port, token)

    other, fresh = _as_before(job, 0)
    assert other.getsockname()[1] != port
    assert fresh != token
    for each in (again, other):
        each.close()


def test_a_port_may_be_the_last_and_none_beyond():
    with pytest.raises(InputRefused, match="found 65536"):
        listen(65536)
    with pytest.raises(InputRefused, match="found -1"):
        listen(-1)
    listener = listen(0)
    assert listener.getsockname()[0] == LOOPBACK
    listener.close()
