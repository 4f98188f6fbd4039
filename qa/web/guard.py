"""The gatekeeper: only this machine's browser, only with this run's token, only bodies of a bearable size."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
LARGEST_BODY = 256 * 1024
"""Bytes of a form; a reply has a few hundred."""
_READING = frozenset({"GET", "HEAD"})


@dataclass(frozen=True, slots=True)
class Secrets:
    """What one run knows and nobody else: the key of the printed address, and the token in every form."""

    key: str

    @classmethod
    def fresh(cls) -> Secrets:
        """New ones for a run."""
        return cls(secrets.token_urlsafe(24))

    @property
    def form_token(self) -> str:
        """Told apart from the key, so that a page that is saved or printed does not open the door."""
        return hmac.new(self.key.encode(), b"form", hashlib.sha256).hexdigest()


class Guard:
    """Middleware that refuses before anything else runs.

    Host: only the loopback names with our port. Origin: of every request that may change something. Cookie: the run's
    key, set by opening the printed address. The form token is checked where the form is read.
    """

    def __init__(self, app: ASGIApp, port: int, run: Secrets) -> None:
        self._app = app
        self._hosts = frozenset(f"{name}:{port}" for name in ("127.0.0.1", "localhost", "[::1]"))
        self._origins = frozenset(f"http://{host}" for host in self._hosts)
        self._cookie = f"levelspoon-{port}"
        self._run = run

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or say why not."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        answer = self._refusal(scope) or self._opening(scope) or self._locked(scope)
        if answer is not None:
            await answer(scope, receive, _sealed(send))
            return
        await self._app(scope, _bounded(receive), _sealed(send))

    def _refusal(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        if headers.get("host", "") not in self._hosts:
            return _no("This page answers on the loopback address alone.", 403)
        if scope["method"] in _READING:
            return None
        if headers.get("origin", "") not in self._origins:
            return _no("This form does not come from the notebook's own pages.", 403)
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > LARGEST_BODY:
            return _no("That is more text than a form may hold.", 413)
        return None

    def _opening(self, scope: Scope) -> Response | None:
        """The printed address: it sets the cookie and goes on to the first sheet."""
        if scope["path"] != "/open" or scope["method"] != "GET":
            return None
        given = parse_qs(scope["query_string"].decode("latin-1")).get("key", [""])[0]
        if not _same([given], self._run.key):
            return _no("This key is not of this run. Open the address that was printed last.", 403)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(self._cookie, self._run.key, httponly=True, samesite="strict", path="/")
        return answer

    def _locked(self, scope: Scope) -> Response | None:
        if scope["path"].startswith("/ink/"):
            return None  # the style sheet and the script hold nothing of anybody
        held = (_cookie(value, self._cookie) for value in Headers(scope=scope).getlist("cookie"))
        if _same(held, self._run.key):
            return None
        return _no("The notebook is closed. Open the address that `levelspoon review` printed.", 403)


def _cookie(header: str, name: str) -> str:
    try:
        found = SimpleCookie(header).get(name)
    except CookieError:
        return ""
    return found.value if found else ""


def _same(given: Iterable[str], key: str) -> bool:
    return any(hmac.compare_digest(one.encode(), key.encode()) for one in given)


def _no(words: str, status: int) -> Response:
    return PlainTextResponse(f"{words}\n", status)


class TooMuch(Exception):
    """A body that goes on beyond its bounds."""


def _bounded(receive: Receive) -> Receive:
    """A body without a stated length is counted as it comes."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > LARGEST_BODY:
            raise TooMuch
        return message

    return counted


def _sealed(send: Send) -> Send:
    """Every answer carries the policy; only the style sheet and the script may be kept by the browser."""

    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return with_headers
