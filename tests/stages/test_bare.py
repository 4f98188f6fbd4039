"""Which questions are bare, and how much of the comment around them says what they are about."""

import pytest

from qa.records import Ask, AskType
from qa.stages.match.bare import told


def ask(type_: AskType, text: str, question: str) -> Ask:
    start = text.index(question)
    return Ask(type_, start, start + len(question), question, context=text if text != question else "")


@pytest.mark.parametrize(
    ("type_", "before", "question"),
    [
        ("went_wrong", "The scones came out flat as tiles. ", "What did I do wrong?"),
        ("went_wrong", "Lemon bars wept by morning. ", "Did I not bake them long enough?"),
        ("method", "My brownies turned to sponge. ", "What should I change"),
        ("colour", "Grey shells once more. ", "Is it the oven or the tray?"),
    ],
)
def test_a_bare_question_is_about_what_was_told_before(type_: AskType, before: str, question: str) -> None:
    assert told(ask(type_, before + question, question)) == before + question


@pytest.mark.parametrize(
    ("type_", "before", "question"),
    [
        ("storage", "Scones flat as tiles. ", "Can I freeze the dough for cinnamon rolls?"),
        ("went_wrong", "Nice kitchen! ", "Why did the custard in my quiche curdle and leave water on the pastry?"),
    ],
)
def test_a_question_that_says_its_subject_stands_by_itself(type_: AskType, before: str, question: str) -> None:
    assert told(ask(type_, before + question, question)) == question


def test_another_question_before_tells_nothing_unless_something_went_wrong() -> None:
    text = "Is this bag the plain kind? And the yolks, what for?"
    assert told(ask("purpose", text, "what for?")) == "And the yolks, what for?"
    text = "Why did the scones go flat? Is that the oven?"
    assert told(ask("went_wrong", text, "Is that the oven?")) == text


def test_a_bare_question_at_the_beginning_looks_ahead() -> None:
    text = "What happened?? The puff pastry went in frozen and came out as a brick"
    assert told(ask("went_wrong", text, "What happened??")) == text


def test_what_stands_far_before_is_left_out_at_a_sentence() -> None:
    text = "I live by the sea. " * 20 + "The shortbread crumbled. Why?"
    around = told(ask("went_wrong", text, "Why?"))
    assert around.startswith("I live by the sea.")
    assert around.endswith("The shortbread crumbled. Why?")
    assert len(around) < 230
