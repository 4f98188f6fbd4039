"""Serving the page on the loopback address until somebody stops it."""

from __future__ import annotations

import socket
import threading
import webbrowser
from collections.abc import Callable
from contextlib import suppress

from qa.errors import LevelspoonError
from qa.web.app import make_app
from qa.web.guard import Secrets
from qa.workbench import Workbench

LOOPBACK = "127.0.0.1"
DEFAULT_PORT = 8417
_TRIES = 50


def free_socket(port: int, tries: int = _TRIES) -> socket.socket:
    """A listening socket on the loopback address: the port asked for, or the next that is free."""
    for number in range(port, min(port + tries, 65_536)):
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((LOOPBACK, number))
            listener.listen(64)
        except OSError:
            listener.close()
            continue
        return listener
    raise LevelspoonError(f"no port from {port} on is free", "name another with --port N")


def serve(bench: Workbench, port: int, who: str, say: Callable[[str], None], *, browser: bool = True) -> None:
    """Serve until Ctrl-C: prints the address, opens the browser."""
    import uvicorn

    listener = free_socket(port)
    taken = listener.getsockname()[1]
    run = Secrets.fresh()
    bench.store.standing_counts()  # a store that cannot be opened is told before anything is served
    address = f"http://{LOOPBACK}:{taken}/open?key={run.key}"
    config = uvicorn.Config(
        make_app(bench, taken, run, who),
        log_level="warning",
        access_log=False,
        server_header=False,
        lifespan="off",
        timeout_graceful_shutdown=2,
        proxy_headers=False,
    )
    with suppress(KeyboardInterrupt):  # that is how a person ends it
        if taken != port:
            say(f"Port {port} is busy; this one is free.")
        say(f"The notebook lies open at {address}\nCtrl-C closes it; everything you typed is saved.")
        if browser:
            threading.Timer(0.3, webbrowser.open, [address]).start()
        uvicorn.Server(config).run(sockets=[listener])
    listener.close()
    bench.store.close()
    say("Closed.")
