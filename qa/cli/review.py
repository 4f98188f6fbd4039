"""`levelspoon review`: the notebook in the browser."""

from __future__ import annotations

import getpass
from collections.abc import Callable

from qa.workbench import Workbench


def review(bench: Workbench, port: int, who: str, say: Callable[[str], None], *, browser: bool = True) -> None:
    """Serve the pages of a workbench until Ctrl-C; decisions are kept under `who`, else the name of the account."""
    from qa.web.serve import serve

    serve(bench, port, who or _account(), say, browser=browser)


def _account() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError):  # an account without a name
        return ""
