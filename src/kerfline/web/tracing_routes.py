"""The routes of the picture under the drawing: brought, looked at, laid on an empty board, shown."""

from collections.abc import Awaitable, Callable

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from kerfline.errors import InputRefused, KerflineError, Mistake
from kerfline.files.job_values import is_plain_name
from kerfline.files.tracing.ground import media_type
from kerfline.units import Unit
from kerfline.web.on_disk import OnDisk
from kerfline.web.said import refusal, said_in
from kerfline.web.tracing import Tracings, lay_on_empty

Endpoint = Callable[[Request], Awaitable[Response]]


def tracing_routes(tracings: Tracings, disk: OnDisk) -> list[Route]:
    """The routes."""

    async def bring(request: Request) -> Response:
        data, name = await request.body(), request.query_params.get("name", "")
        return JSONResponse(await run_in_threadpool(tracings.bring, data, name[:200]))

    async def look(request: Request) -> Response:
        said = await said_in(request)
        file, page, folder = said.get("file"), said.get("page"), disk.job_file.parent
        if not isinstance(file, str) or not is_plain_name(file) or not isinstance(page, int):
            raise InputRefused(Mistake(what="say which page of which file"))
        return JSONResponse(await run_in_threadpool(tracings.look, file, page, folder))

    async def lay(request: Request) -> Response:
        said = await said_in(request)
        units = said.get("units")
        unit = Unit(str(units)) if units in tuple(Unit) else Unit.FT
        return JSONResponse(await run_in_threadpool(lay_on_empty, said, unit))

    async def picture(request: Request) -> Response:
        named, folder = request.query_params.get("of", ""), disk.job_file.parent
        shown = await run_in_threadpool(tracings.picture, named, folder)
        return Response(shown, media_type=media_type(shown))

    return [
        Route("/tracing/bring", _refusing(bring), methods=["POST"]),
        Route("/tracing/look", _refusing(look), methods=["POST"]),
        Route("/tracing/lay", _refusing(lay), methods=["POST"]),
        Route("/tracing/picture", _refusing(picture)),
    ]


def _refusing(answer: Endpoint) -> Endpoint:
    """An endpoint that says in plain words what it refuses."""

    async def endpoint(request: Request) -> Response:
        try:
            return await answer(request)
        except KerflineError as error:
            return refusal(error)

    return endpoint
