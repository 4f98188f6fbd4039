"""Long work goes on beside the pages: once at a time, kept for a while, its fault told."""

from __future__ import annotations

import threading

import pytest

from qa.errors import LevelspoonError
from qa.web.slow import BeingWorkedOut, Slow


def test_it_is_made_once_while_it_goes_on_and_then_kept():
    gate, made = threading.Event(), []

    def make() -> str:
        made.append(1)
        gate.wait(10)
        return "sheet"

    slow = Slow()
    for _ in range(2):
        with pytest.raises(BeingWorkedOut):
            slow.get("tips", 1.0, make, patience=0.01)
    gate.set()
    assert slow.get("tips", 1.0, make, patience=10) == "sheet"
    assert slow.get("tips", 2.0, make, patience=10) == "sheet", "what took long is kept for longer than that"
    assert len(made) == 1


def test_what_is_quick_is_made_anew_after_each_count():
    values = iter("ab")
    slow = Slow()
    assert [slow.get("week", stamp, lambda: next(values)) for stamp in (1.0, 1.0)] == ["a", "a"]
    while (now := slow.get("week", 2.0, lambda: next(values))) == "a":
        pass
    assert now == "b"


def test_a_fault_is_told_and_it_is_tried_again():
    def fail() -> None:
        raise LevelspoonError("no such thing")

    slow = Slow()
    with pytest.raises(LevelspoonError, match="no such thing"):
        slow.get("owed", 1.0, fail)
    assert slow.get("owed", 1.0, lambda: "good") == "good"


def test_a_sheet_that_is_not_ready_says_so(notebook, monkeypatch):
    def not_yet(*_: object) -> None:
        raise BeingWorkedOut("owed")

    monkeypatch.setattr("qa.web.slow.Slow.get", not_yet)
    answer = notebook.client.get("/owed")
    assert answer.status_code == 202
    assert "It is being worked out" in answer.text
