"""What takes long is worked out beside the pages, and kept for a while."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

PATIENCE = 1.5
"""Seconds a page waits for it before it says that it is being worked out."""
_KEPT_TIMES = 10
"""What took a second is kept for ten, even if something was changed meanwhile."""


class BeingWorkedOut(Exception):
    """It is not there yet; look again in a moment."""


@dataclass
class _Work:
    stamp: float
    began: float
    thread: threading.Thread | None = None
    took: float = 0.0
    value: Any = None
    fault: Exception | None = None
    ready: bool = False


@dataclass
class Slow:
    """Values by name, each made anew after the store was counted anew, but never two at once.

    >>> slow = Slow()
    >>> slow.get("sum", 1.0, lambda: 2 + 2)
    4
    """

    _works: dict[str, _Work] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def get(self, name: str, stamp: float, make: Callable[[], Any], patience: float = PATIENCE) -> Any:
        """The value; BeingWorkedOut if it takes longer than the patience given, its own fault if it failed."""
        with self._lock:
            work = self._works.get(name)
            if work is None or (work.ready and work.stamp != stamp and _is_old(work)):
                work = self._works[name] = _Work(stamp, time.monotonic())
                work.thread = threading.Thread(target=_do, args=(work, make), daemon=True)
                work.thread.start()
        assert work.thread is not None  # noqa: S101
        work.thread.join(patience)
        if not work.ready:
            raise BeingWorkedOut(name)
        if work.fault is not None:
            self._works.pop(name, None)
            raise work.fault
        return work.value


def _is_old(work: _Work) -> bool:
    return time.monotonic() - work.began >= _KEPT_TIMES * work.took


def _do(work: _Work, make: Callable[[], Any]) -> None:
    try:
        work.value = make()
    except Exception as fault:  # it is told on the page that asked for it
        work.fault = fault
    work.took = time.monotonic() - work.began
    work.ready = True
