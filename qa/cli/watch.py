"""Check again whenever something is saved."""

from __future__ import annotations

import time
from collections.abc import Callable

EVERY = 0.5  # seconds; a look at some five hundred files takes a hundredth of that


def watched(
    check: Callable[[], int],
    stamp: Callable[[], object],
    say: Callable[[str], None],
    wait: Callable[[float], None] = time.sleep,
) -> int:
    """Check now and whenever the stamp has changed, until Ctrl-C; how many problems the last check found.

    Args:
        check: checks, prints and counts.
        stamp: how the files stand.
        say: for words beside the result.
        wait: sleeps some seconds.
    """
    problems, seen = 0, None
    try:
        while True:
            now = stamp()
            if now != seen:
                # The stamp is taken before the check, so that a file saved meanwhile is checked again.
                seen, problems = now, check()
                say("Watching; Ctrl-C ends.")
            wait(EVERY)
    except KeyboardInterrupt:
        say("Stopped watching.")
    return problems
