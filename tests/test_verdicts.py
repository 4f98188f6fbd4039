"""Which questions yes or no would answer; sentences made up here."""

import pytest

from qa.text.verdicts import asks_openly, asks_yes_or_no, begins_with_verdict, without_assent


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


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("Yes, by weight.", "By weight."),
        ("Yes. Whisk it in.", "Whisk it in."),
        ("Sure, in muffins: as much.", "In muffins: as much."),
        ("Yes, but slowly.", "Slowly."),
        ("Yes, and it was made for that.", "It was made for that."),
        ("Yes and no: it sets, but late.", "Yes and no: it sets, but late."),
        ("No, it curdles.", "No, it curdles."),
        ("Yesterday's bread is best.", "Yesterday's bread is best."),
        ("Surely some will.", "Surely some will."),
    ],
)
def test_only_the_yes_goes(text, rest):
    assert without_assent(text) == rest


def test_an_open_question_has_a_word_for_it():
    assert asks_openly("so how much for 2 eggs?")
    assert not asks_openly("is it the same")
    assert not asks_openly("flax for the egg")
