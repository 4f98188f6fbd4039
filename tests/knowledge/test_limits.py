"""What is left to people, on comments in many voices: who eats, what happened to the thing, who has the say.

The cases are invented; what must go to a person follows the usual warnings of food authorities, which knowledge/ gives,
and the house rule that no one's body, item or law is judged from afar.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from qa.knowledge import limits
from qa.records import Piece
from qa.stages.extract.dangers import asks, unsafe_tips, worries
from qa.text.sentences import pieces_of

CASES = [
    tuple(line.split("\t"))
    for line in (Path(__file__).parents[1] / "cases" / "limits.tsv").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def pieces(text: str) -> list[Piece]:
    return [Piece(start, end, text[start:end]) for start, end in pieces_of(text)]


def reasons(text: str) -> set[str]:
    """Why the questions of a comment are for a person."""
    parts = [piece.text for piece in pieces(text)]
    questions = [part for part in parts if asks(part)] or parts
    told = {
        "health": lambda s: limits.health_asked(s, text) or limits.allergy_asked(s, text),
        "unsafe": lambda s: limits.hazard_asked(s, text),
        "legal": limits.legal_asked,
        "maker": limits.maker_asked,
    }
    return {reason for reason, asked in told.items() if any(asked(question) for question in questions)}


def of(*kinds: str) -> list[str]:
    return [text for kind, text in CASES if kind in kinds]


@pytest.mark.parametrize(
    ("reason", "text"), [case for case in CASES if case[0] in {"health", "unsafe", "legal", "maker"}]
)
def test_what_only_a_person_may_judge_is_told(reason: str, text: str) -> None:
    assert reason in reasons(text)


@pytest.mark.parametrize("text", of("free"))
def test_a_baking_question_is_not_kept_back_for_a_word(text: str) -> None:
    assert reasons(text) == set()
    assert unsafe_tips(text, pieces(text), ()) == ()


@pytest.mark.parametrize("text", of("tip"))
def test_an_unsafe_tip_is_held(text: str) -> None:
    assert unsafe_tips(text, pieces(text), ())


@pytest.mark.parametrize("text", of("chatter"))
def test_warnings_jokes_and_stories_recommend_nothing(text: str) -> None:
    assert unsafe_tips(text, pieces(text), ()) == ()


def test_there_are_cases_of_every_sort() -> None:
    assert {kind for kind, _ in CASES} == {"health", "unsafe", "legal", "maker", "tip", "free", "chatter"}
    assert len(CASES) > 300


@pytest.mark.parametrize(
    "text",
    ["will this push my blood sugar up", "our pug wolfed down the raisin loaf", "left the custard out, still ok"],
)
def test_a_worry_without_a_question_mark_is_heard(text: str) -> None:
    assert worries(pieces(text), text)


def test_what_is_already_a_question_is_no_further_worry() -> None:
    text = "will this push my blood sugar up"
    assert worries([Piece(0, len(text), text, (("question", 0.9),))], text) == []
