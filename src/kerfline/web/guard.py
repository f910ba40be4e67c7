"""Who may speak to the server: this computer's own browser, from this page, with the right token.

The server holds the user's files, so it answers nobody else. The token is the first part of every
address; a page from elsewhere cannot guess it, and is turned away by its origin before that. A name
that an attacker points at this computer fails by the host.
"""

import secrets
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from kerfline.files.largest import LARGEST_PLAN

MEGABYTE = 1024 * 1024
LARGEST_BODY = 8 * MEGABYTE
"""A state of some ten thousand panels; nothing honest is larger."""
FILE_ROUTES = ("/import/look", "/tracing/bring")
"""Where whole files come in."""

POLICY = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    ]
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}


class BodyTooLarge(Exception):
    """More bytes came than the route takes."""


class Guard:
    """Middleware that lets only this page's own requests through.

    Attributes:
        app: What it guards; sees paths without the token.
        token: First part of every address.
        hosts: Values of the Host header that are this server.
    """

    def __init__(self, app: ASGIApp, token: str, hosts: tuple[str, ...]) -> None:
        self.app = app
        self.token = token
        self.hosts = hosts
        self.origins = tuple(f"http://{host}" for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answers with a refusal or hands the request on."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        sender = _with_headers(send)
        if refusal := self._refusal(scope):
            status, words = refusal
            await PlainTextResponse(words, status)(scope, receive, sender)
            return
        inner = dict(scope)
        inner["path"] = scope["path"][len(self.token) + 1 :]
        inner["raw_path"] = inner["path"].encode()
        limit = LARGEST_PLAN if inner["path"] in FILE_ROUTES else LARGEST_BODY
        await self.app(inner, _bounded(receive, limit), sender)

    def _refusal(self, scope: Scope) -> tuple[int, str] | None:
        headers = {
            name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]
        }
        if headers.get("host", "") not in self.hosts:
            return 421, "This server answers to this computer only."
        origin = headers.get("origin")
        if origin is not None and origin not in self.origins:
            return 403, "A page from elsewhere may not ask this."
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return 403, "A page from elsewhere may not ask this."
        if not self._has_token(scope["path"]):
            return 404, "Open the address that kerfline printed; it ends in a long word."
        if scope["method"] not in ("GET", "HEAD", "POST"):
            return 405, "This is not asked here."
        if scope["method"] == "POST" and origin is None:
            return 403, "Only the page itself may change anything."
        return None

    def _has_token(self, path: str) -> bool:
        first, _, _ = path.removeprefix("/").partition("/")
        return path.startswith("/" + first + "/") and secrets.compare_digest(
            first.encode(), self.token.encode()
        )


def _with_headers(send: Send) -> Send:
    async def sender(message: Message) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [
                *message.get("headers", []),
                *((k.encode(), v.encode()) for k, v in HEADERS.items()),
            ]
        await send(message)

    return sender


def _bounded(receive: Receive, limit: int) -> Callable[[], Awaitable[MutableMapping[str, Any]]]:
    """A receiver that counts the bytes of the body and stops at the limit."""
    seen = 0

    async def receiver() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > limit:
            raise BodyTooLarge
        return message

    return receiver
