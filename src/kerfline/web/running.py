"""Starts the server on this computer's own address and opens the browser."""

import contextlib
import gc
import secrets
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.library.options import Options, wishes_of
from kerfline.web.address import Address, keep_address, kept_address

LOOPBACK = "127.0.0.1"
TOKEN_BYTES = 24
LARGEST_PORT = 65535
PATIENCE = 2
"""Seconds that an open request may still take when the server is stopped."""


def serve(
    path: Path | None,
    port: int = 0,
    *,
    open_browser: bool = True,
    options: Options = Options(),  # noqa: B008 - frozen
    tell: Callable[[str], None] = print,
) -> None:
    """Serves a job until it is interrupted.

    Args:
        path: A job file, a drawing, a building model or a size; None begins with an empty board.
        port: Port on the loopback address; 0 takes a free one.
        open_browser: Whether to open the page in the user's browser.
        options: What the user said beside a drawing, a building model or a size.
        tell: Told how a drawing was read, the address and what to do.

    Raises:
        InputRefused: There is no such file, or the port is taken.
    """
    import uvicorn

    from kerfline.web.desk import Desk
    from kerfline.web.server import make_app

    desk = Desk(path, wishes_of(options))
    for words in desk.disk.told():
        tell(f"read      {words}")
    listener, token = _as_before(desk.disk.job_file, port) if path else _anew(port)
    host = f"{LOOPBACK}:{listener.getsockname()[1]}"
    app = make_app(desk, token, (host, host.replace(LOOPBACK, "localhost")))
    address = f"http://{host}/{token}/"
    tell(f"{path.name if path else 'An empty slab'} is open at {address}")
    tell("Only this computer can reach it. Stop with Ctrl+C.")
    if open_browser:
        webbrowser.open(address)
    spare_the_collector()
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        ws="none",
        lifespan="off",
        timeout_graceful_shutdown=PATIENCE,
    )
    desk.works.warm()
    try:
        with contextlib.suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listener])
    finally:
        desk.works.close()


def spare_the_collector() -> None:
    """Lets the collector of cycles pass over what is there for good, and look less often.

    A floor of thousands of panels makes some hundred thousand short-lived parts with every change, hardly any
    of them in cycles; looking through all of them again and again took a third of the time.
    """
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)


def _as_before(job_file: Path, port: int) -> tuple[socket.socket, str]:
    """A socket and a token: those of the page that is perhaps still open, else new ones."""
    kept = kept_address(job_file)
    if kept is not None and port in (0, kept.port):
        with contextlib.suppress(InputRefused):
            return listen(kept.port), kept.token
    listener, token = _anew(port)
    keep_address(job_file, Address(listener.getsockname()[1], token))
    return listener, token


def _anew(port: int) -> tuple[socket.socket, str]:
    return listen(port), secrets.token_urlsafe(TOKEN_BYTES)


def listen(port: int) -> socket.socket:
    """A socket on the loopback address only.

    Raises:
        InputRefused: The port is taken or not one.
    """
    if not 0 <= port <= LARGEST_PORT:
        raise InputRefused(
            Mistake(
                what="there is no such port", where="--port", found=str(port), allowed="0 to 65535"
            )
        )
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((LOOPBACK, port))
        # The address is told at once, so whoever comes early must find the line open.
        listener.listen()
    except OSError as error:
        listener.close()
        raise InputRefused(
            Mistake(
                what=f"the port cannot be used ({error.strerror})",
                where="--port",
                found=str(port),
                remedy="leave --port out to take a free one",
            )
        ) from None
    return listener
