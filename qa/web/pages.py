"""Payloads to HTML: our own templates, everything escaped, no outside file."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.responses import HTMLResponse, Response

from qa.settings import shipped
from qa.web.desk import Desk

STATIC = Path(__file__).with_name("static")
SHEETS = (
    ("/", "This week"),
    ("/comment", "Comment"),
    ("/topic", "Topic"),
    ("/tips", "Tip sheet"),
    ("/kitchen", "Kitchen"),
    ("/larder", "Larder"),
    ("/sums", "Sums"),
)


def link(path: str, /, **values: Any) -> str:
    """A path with its values, whatever characters a comment's id holds.

    >>> link("/comment", id="a/b?c")
    '/comment?id=a%2Fb%3Fc'
    """
    kept = {name: value for name, value in values.items() if value not in ("", None)}
    return f"{path}?{urlencode(kept)}" if kept else path


@cache
def environment() -> Environment:
    """The pages' templates; they travel with the program, so a workbench from elsewhere brings none of its own."""
    pages = Environment(
        loader=FileSystemLoader(shipped("templates") / "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    pages.globals.update(link=link, sheets=SHEETS, ink=_ink())
    return pages


def _ink() -> str:
    """A short hash of the style sheet and the script, so that a new version is not hidden by a kept one."""
    content = b"".join(path.read_bytes() for path in sorted(STATIC.iterdir()))
    return hashlib.sha256(content).hexdigest()[:12]


def page(desk: Desk, name: str, here: str, *, status: int = 200, **values: Any) -> Response:
    """One sheet.

    Args:
        desk: for the channel's name, the last act and the form token.
        name: the template without its ending.
        here: the path of the sheet in the top edge.
        status: of the answer.
        values: what the template shows.
    """
    settings = desk.bench.settings
    known = {
        "here": here,
        "channel": settings.channel,
        "invented": settings.invented,
        "token": desk.form_token,
        "last": desk.acts[-1] if desk.acts else None,
        "who": desk.who,
        **values,
    }
    return HTMLResponse(environment().get_template(f"{name}.html.j2").render(known), status)


def fragment(name: str, **values: Any) -> str:
    """A part of a sheet, for what changes while somebody types."""
    return environment().get_template(f"{name}.html.j2").render(values)
