"""Which questions yes or no would answer; sentences made up here."""

import pytest

from qa.text.verdicts import asks_yes_or_no, begins_with_verdict


@pytest.mark.parametrize(
    "question",
    [
        "can i swap the honey for maple",
        "Hi! Love this. Could you make it in a bundt tin?",
        "I only have salted butter, is that fine?",
        "do they freeze",
        "so would a glass dish work",
        "wondering if I could halve the sugar",
        "does it matter or not",
        "hey will this rise without the acid",
    ],
)
def test_yes_or_no_would_answer_it(question):
    assert asks_yes_or_no(question)


@pytest.mark.parametrize(
    "question",
    [
        "what can i swap the honey for",
        "Why use a metal tin and not silicone?",
        "how long do they keep",
        "which tin should I use",
        "substitute for ricotta",
        "Is that fan or conventional?",
        "do I chill it first or bake at once",
        "straight times three, or does the baking powder scale otherwise?",
        "What is the difference between a tart and a pie?",
        "I have no scales, how many grams are in a cup",
        "",
    ],
)
def test_yes_or_no_would_not_answer_it(question):
    assert not asks_yes_or_no(question)


@pytest.mark.parametrize(
    ("text", "verdict"),
    [
        ("Yes, weight for weight.", True),
        ("No: it curdles.", True),
        ("It works, with a small change.", True),
        ("Partly. Less of it sets as firmly.", True),
        ("You can, by weight.", True),
        ("Go ahead, weight for weight.", True),
        ("Not quite: it is finer.", True),
        ("Nothing much changes.", False),
        ("Noodles want a stiff dough.", False),
        ("It is the batch, not your baking.", False),
        ("For cakes, melt it first.", False),
        ("Notes on the tin come first.", False),
        ("\n  Yes.", True),
    ],
)
def test_a_verdict_is_told_from_its_first_words(text, verdict):
    assert begins_with_verdict(text) is verdict
