"""The routes: each turns a request into one call of the desk and its answer into JSON."""

import asyncio
from collections.abc import Awaitable, Callable
from functools import partial
from importlib.resources import files
from typing import Any, TypeVar
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from kerfline.errors import KerflineError
from kerfline.web.desk import Desk
from kerfline.web.guard import BodyTooLarge, Guard
from kerfline.web.said import refusal, said_in
from kerfline.web.tracing_routes import tracing_routes

TOO_LARGE = 413

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
}

LISTEN = 0.25
"""How often (s) it is asked whether somebody still waits for long work."""

Answer = dict[str, Any]
Told = TypeVar("Told")
Ask = Callable[[dict[str, Any]], Answer]


def make_app(desk: Desk, token: str, hosts: tuple[str, ...]) -> Guard:
    """The whole server, guarded.

    Args:
        desk: What answers.
        token: First part of every address.
        hosts: Values of the Host header that are this server, such as ``127.0.0.1:8000``.
    """
    asks: dict[str, Ask] = {
        "open": desk.open,
        "change": desk.looks.change,
        "complete": desk.complete,
        "alternatives": desk.alternatives,
        "draft": desk.keeping.keep_draft,
        "discard": desk.discard,
        "begin": desk.begin,
        "walk": desk.walk,
        "ping": desk.keeping.ping,
        "progress": desk.progress,
        "stop": desk.stop,
        "resume": desk.keeping.resume,
        "save": desk.keeping.save,
        "save-as": desk.save_as,
        "export": desk.export,
        "import/take": desk.incoming.take,
        "import/look-again": desk.incoming.look_again,
        "import/leave": desk.incoming.leave,
    }
    routes = [
        Route("/", _static("index.html", static_files()["index.html"])),
        *(Route(f"/{name}", _static(name, body)) for name, body in static_files().items()),
        *(Route(f"/{name}", _json(desk, ask), methods=["POST"]) for name, ask in asks.items()),
        *tracing_routes(desk.tracings, desk.disk),
        Route("/import/look", _look(desk), methods=["POST"]),
        Route("/one-file", _one_file(desk), methods=["POST"]),
    ]
    app = Starlette(routes=routes, exception_handlers={BodyTooLarge: _too_large})
    return Guard(app, token, hosts)


async def _too_large(_: Request, __: Exception) -> Response:
    return JSONResponse({"refused": ["This is too large to be taken in."]}, TOO_LARGE)


def static_files() -> dict[str, bytes]:
    """The page's own files by name; read once, so that no request names a path on the disk."""
    folder = files("kerfline.web") / "static"
    return {
        entry.name: entry.read_bytes()
        for entry in sorted(folder.iterdir(), key=lambda e: e.name)
        if "." + entry.name.rpartition(".")[2] in TYPES
    }


def _static(name: str, body: bytes) -> Callable[[Request], Awaitable[Response]]:
    kind = TYPES["." + name.rpartition(".")[2]]

    async def endpoint(_: Request) -> Response:
        return Response(body, media_type=kind)

    return endpoint


def _json(desk: Desk, ask: Ask) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        try:
            said = await said_in(request)
            return JSONResponse(await _asked(desk, request, said, partial(ask, said)))
        except KerflineError as error:
            return refusal(error)

    return endpoint


async def _asked(
    desk: Desk, request: Request, said: dict[str, Any], ask: Callable[[], Told]
) -> Told:
    """What the desk answers; long work is stopped where nobody waits for its answer any more."""
    answer = asyncio.ensure_future(run_in_threadpool(ask))
    while "work" in said and not answer.done():
        await asyncio.wait({answer}, timeout=LISTEN)
        if await request.is_disconnected():
            desk.stop(said)
    return await answer


def _look(desk: Desk) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        body, said = await request.body(), dict(request.query_params)
        try:
            look = partial(desk.incoming.look, body, said)
            return JSONResponse(await _asked(desk, request, said, look))
        except KerflineError as error:
            return refusal(error)

    return endpoint


def _one_file(desk: Desk) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        try:
            said = await said_in(request)
            name, body = await _asked(desk, request, said, partial(desk.one_file, said))
        except KerflineError as error:
            return refusal(error)
        return Response(
            body,
            media_type="application/octet-stream",
            headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"},
        )

    return endpoint
