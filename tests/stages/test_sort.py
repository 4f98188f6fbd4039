"""Kinds: learned from whole comments, given to the sentences that show them, the same on every run."""

import pytest

from qa.records import Cleaned, Example, Kind, kinds_of
from qa.stages.sort import KindModel, learn_kinds, sort
from qa.stages.sort.signs import signs_of

SAID: tuple[tuple[Kind, str], ...] = (
    ("question", "can i use {} instead?"),
    ("question", "how much {} is that in grams?"),
    ("question", "does {} work here?"),
    ("question", "why did my {} turn grey?"),
    ("result", "I made it with {} and it came out fluffy"),
    ("result", "used {} and mine was dense but my kids ate it all"),
    ("result", "made this twice, swapped the {} and it rose well"),
    ("tip", "always weigh the {} first"),
    ("tip", "add a spoon of {} for a softer crumb"),
    ("thanks", "thank you so much for the {} recipe"),
    ("thanks", "thanks, love your {} videos"),
    ("complaint", "no grams for the {} again, so annoying"),
    ("chatter", "my cat likes {} lol"),
    ("spam", "earn 900 daily, message me on the {} channel http://pay.example"),
)
FOODS = ("oat flour", "flax", "honey", "butter", "rice", "chia", "tapioca", "sugar")


def example(voice: str, kinds: tuple[Kind, ...], text: str) -> Example:
    return Example(f"{voice}-{text}", text, voice, "en", kinds, (), (), "no_reply")


@pytest.fixture(scope="module")
def model() -> KindModel:
    examples = [example(food, (kind,), text.format(food)) for food in FOODS for kind, text in SAID]
    both = [
        example(food, ("result", "question"), f"I made it with {food} and it was good. can i freeze it?")
        for food in FOODS
    ]
    return learn_kinds([*examples, *both])


def kinds(text: str, model: KindModel) -> set[Kind]:
    (pieces,) = sort([Cleaned("1", text)], model, [""])
    return {kind for kind, _ in kinds_of(pieces)}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("can I use spelt instead?", "question"),
        ("I made it with spelt and it came out fluffy", "result"),
        ("always weigh the spelt first", "tip"),
        ("thank you so much for the spelt recipe", "thanks"),
    ],
)
def test_kinds_carry_over_to_a_word_never_seen(text: str, kind: Kind, model: KindModel) -> None:
    assert kind in kinds(text, model)


def test_a_question_after_a_result_stands_at_its_own_sentence(model: KindModel) -> None:
    (pieces,) = sort([Cleaned("1", "I made it with spelt and it was good. can i freeze it?")], model, [""])
    asks = [piece.text for piece in pieces if "question" in dict(piece.kinds)]
    assert asks == ["can i freeze it?"]
    assert {"result", "question"} <= {kind for kind, _ in kinds_of(pieces)}


def test_pieces_are_stretches_of_the_text(model: KindModel) -> None:
    text = "Loved it!Can I freeze it? P.S. how much is a stick"
    (pieces,) = sort([Cleaned("1", text)], model, [""])
    assert all(text[piece.start : piece.end] == piece.text for piece in pieces)


def test_nothing_to_sort_gives_nothing(model: KindModel) -> None:
    assert sort([], model, []) == []
    assert sort([Cleaned("1", "")], model, [""]) == [()]


def test_the_same_examples_give_the_same_model(model: KindModel) -> None:
    examples = [example(food, (kind,), text.format(food)) for food in FOODS[:3] for kind, text in SAID]
    texts = [Cleaned("1", "can i freeze the dough? mine came out grey"), Cleaned("2", "lol")]
    first, second = learn_kinds(examples), learn_kinds(examples)
    assert sort(texts, first, ["", ""]) == sort(texts, second, ["", ""])


def test_no_examples_teach_nothing() -> None:
    with pytest.raises(ValueError, match="no examples"):
        learn_kinds([])


def test_signs_hold_grammar_and_no_vocabulary() -> None:
    assert signs_of("I baked zuppa slowly") == signs_of("I whisked polka quickly") == ["<1", "i", "DID", "x", "xly"]
