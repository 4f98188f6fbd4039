"""A kill at any moment loses nothing that was reported as saved; several processes can write at once."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from qa.outside.store import Store
from qa.records import Comment

READER = """
import sys
from qa.outside.store import Store
from qa.records import Comment

url, prefix, rows = sys.argv[1], sys.argv[2], int(sys.argv[3])
with Store.open(url) as store:
    comments = (Comment(f"{prefix}{n}", f"text {n}") for n in range(rows))
    store.take_in(comments, "week.csv", "t", lambda done: print(done, flush=True))
"""

EDITOR = """
import sys
from itertools import count
from qa.outside.store import Store

with Store.open(sys.argv[1]) as store:
    for n in count():
        store.change("c0", f"wording {n}", "tester", "t")
        print(n, flush=True)
"""


def run(script: str, *arguments: str) -> subprocess.Popen[str]:
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    return subprocess.Popen(
        [sys.executable, "-c", script, *arguments], stdout=subprocess.PIPE, text=True, env=environment
    )


def kill_after(process: subprocess.Popen[str], lines: int, pause: float) -> int:
    """Wait for so many reports, go on for a moment, kill; the last report that came out."""
    assert process.stdout is not None
    last = [int(process.stdout.readline()) for _ in range(lines)][-1]
    time.sleep(pause)
    process.send_signal(signal.SIGKILL)
    rest = process.stdout.read().split()
    process.stdout.close()
    assert process.wait() == -signal.SIGKILL
    return int(rest[-1]) if rest else last


@pytest.mark.parametrize("pause", [0.0, 0.013, 0.031])
def test_a_kill_while_reading_loses_nothing_reported(url: str, pause: float) -> None:
    reported = kill_after(run(READER, url, "c", "10000000"), 2, pause)
    with Store.open(url) as store:
        stored = store.count()
        assert stored >= reported
        assert stored % 2_000 == 0  # whole batches only
        rows = [Comment(f"c{n}", f"text {n}") for n in range(stored + 10)]
        count = store.take_in(rows, "week.csv", "t", None)
        assert (count.already_known, count.stored) == (stored, 10)


def test_a_kill_while_editing_keeps_every_edit_reported(url: str) -> None:
    with Store.open(url) as store:
        store.take_in([Comment("c0", "Can I use chia?")], "week.csv", "t", None)
    reported = kill_after(run(EDITOR, url), 5, 0.02)
    with Store.open(url) as store:
        wordings = [decision.text for decision in store.history("c0")]
        assert wordings[: reported + 1] == [f"wording {n}" for n in range(reported + 1)]
        assert store.entry("c0").text == wordings[-1]


def test_processes_open_and_write_at_once(empty_url: str) -> None:
    """All open an empty database at the same moment; two write the same comments, one others."""
    same = [run(READER, empty_url, "same", "6000") for _ in range(2)]
    other = run(READER, empty_url, "other", "6000")
    for process in (*same, other):
        process.communicate(timeout=120)
        assert process.returncode == 0
    with Store.open(empty_url) as store:
        assert store.count() == 12_000
        assert {c.text for c in store.comments(ids=["same5999", "other5999"])} == {"text 5999"}


def test_a_reader_goes_on_while_another_writes(url: str) -> None:
    with Store.open(url) as store, Store.open(url) as other:
        store.take_in((Comment(f"c{n}", "text") for n in range(3_000)), "week.csv", "t", None)
        seen = 0
        for entry in store.entries():
            seen += 1
            if seen % 1_000 == 1:
                other.change(entry.comment.id, "mine", "tester", "t")
        assert seen == 3_000
        assert other.count() == 3_000
