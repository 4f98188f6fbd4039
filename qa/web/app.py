"""The page as one ASGI application."""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from qa.errors import LevelspoonError, NoKnowledge, NoWorkbench, StaleDraft
from qa.web.acts import Acts
from qa.web.desk import Desk
from qa.web.guard import Guard, Secrets, TooMuch
from qa.web.pages import STATIC, page
from qa.web.routes import Sheets
from qa.web.slow import BeingWorkedOut
from qa.workbench import Workbench


class _Ink(StaticFiles):
    """The style sheet and the script, kept by the browser under an address that changes with them."""

    def file_response(self, *args: object, **kwargs: object) -> Response:
        answer = super().file_response(*args, **kwargs)  # type: ignore[arg-type]
        answer.headers["Cache-Control"] = "private, max-age=86400"
        return answer


def make_app(bench: Workbench, port: int, run: Secrets, who: str = "") -> ASGIApp:
    """The application over one workbench; `port` and `run` are what the gatekeeper goes by."""
    desk = Desk(bench, who, run.form_token)
    sheets = Sheets(desk)
    routes = [*sheets.routes(), *Acts(desk, sheets).routes(), Mount("/ink", _Ink(directory=STATIC))]

    def fault(_request: Request, wrong: Exception) -> Response:
        status = 409 if isinstance(wrong, StaleDraft) else 404 if isinstance(wrong, NoKnowledge) else 400
        words = str(getattr(wrong, "message", wrong))
        return page(desk, "fault", "", status=status, words=words, remedy=str(getattr(wrong, "remedy", "")))

    def offline(_request: Request, wrong: Exception) -> Response:
        said = str(getattr(wrong, "orig", None) or wrong).splitlines()[0]
        return page(desk, "offline", "", status=503, said=said)

    def missing(_request: Request, _wrong: Exception) -> Response:
        return page(desk, "fault", "", status=404, words="There is no such sheet.", remedy="start from This week")

    def unforeseen(_request: Request, wrong: Exception) -> Response:
        words = f"Something here is broken ({type(wrong).__name__})"
        return page(desk, "fault", "", status=500, words=words, remedy="the terminal says more; please report it")

    def not_yet(request: Request, _wrong: Exception) -> Response:
        return page(desk, "notyet", request.url.path, status=202)

    def too_much(_request: Request, _wrong: Exception) -> Response:
        return PlainTextResponse("That is more text than a form may hold.\n", 413)

    from sqlalchemy.exc import SQLAlchemyError

    handlers = {
        LevelspoonError: fault,
        NoWorkbench: offline,
        SQLAlchemyError: offline,
        OSError: offline,
        TooMuch: too_much,
        BeingWorkedOut: not_yet,
        404: missing,
        Exception: unforeseen,
    }
    return Guard(Starlette(routes=routes, exception_handlers=handlers), port, run)
