"""What stands in a request of the page, and how a refusal is answered."""

import json
from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from kerfline.errors import InputRefused, KerflineError, Mistake, OutputRefused
from kerfline.web.draft import Conflict
from kerfline.web.long_work import Stopped

REFUSED = 422
CONFLICT = 409
NOT_WRITTEN = 507


async def said_in(request: Request) -> dict[str, Any]:
    """The JSON object in a request.

    Raises:
        InputRefused: There is none.
    """
    if request.headers.get("content-type", "").partition(";")[0] != "application/json":
        raise InputRefused(Mistake(what="the request must be JSON"))
    try:
        said = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise InputRefused(Mistake(what="the request is not JSON")) from None
    if not isinstance(said, dict):
        raise InputRefused(Mistake(what="the request must be a JSON object"))
    return said


def refusal(error: KerflineError) -> Response:
    """What the page shows when something was refused, with the status that says why."""
    if isinstance(error, Conflict):
        return JSONResponse({"conflict": str(error), "which": error.which}, CONFLICT)
    if isinstance(error, Stopped):
        return JSONResponse({"refused": [str(error)]}, REFUSED)
    if isinstance(error, InputRefused):
        return JSONResponse({"refused": [str(m) for m in error.mistakes]}, REFUSED)
    if isinstance(error, OutputRefused):
        return JSONResponse({"refused": [str(error)]}, NOT_WRITTEN)
    return PlainTextResponse(str(error), 500)
