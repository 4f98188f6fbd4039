"""What readers' verdicts on a labelled comment teach about each ask that is understood in it."""

from pathlib import Path

import pytest

from qa.knowledge.load import load_examples, load_knowledge
from qa.pipeline import _verdicts, learn
from qa.records import Ask, Example, Understood
from qa.settings import shipped

TEXT = "Is gluten powder a must? Will it do without?"
WHOLE, HALF = Ask("purpose", 0, 24, TEXT[:24]), Ask("swap", 25, len(TEXT), TEXT[25:])


def signable(*asks, answers=(("gluten-why", "gluten-out"),), reasons=()):
    asked = (("purpose", ()),) * len(answers)
    example = Example("1", TEXT, "v", "en", ("question",), asked, (), "drafted", reasons, answers=answers)
    said = Understood("1", TEXT, "en", (("question", 0.9),), (), (), asks)
    return [one.signable for one in _verdicts(example, said)]


def test_a_piece_of_a_question_is_answered_by_what_answers_the_question():
    assert signable(WHOLE, HALF) == [("gluten-why", "gluten-out")] * 2


@pytest.mark.parametrize("reason", ["health", "no_knowledge"])
def test_where_a_person_is_wanted_nothing_answers_what_nobody_found(reason):
    assert signable(WHOLE, HALF, reasons=(reason,))[1] == ()


def test_a_comment_that_asks_nothing_is_answered_by_nothing():
    assert signable(WHOLE, answers=()) == [()]


def test_what_nobody_judged_teaches_nothing():
    assert signable(WHOLE, HALF, answers=(None,)) == []


def test_learning_tells_what_it_is_at():
    examples = load_examples(shipped("sample_comments") / "labelled" / "demo.jsonl")[0][:60]
    library, _ = load_knowledge(Path(__file__).parent / "knowledge" / "good", invented=True)
    said: list[str] = []
    models = learn(examples, library, said.append)
    assert said[0] == "what comments are"
    assert len(said) == len(set(said)) == 4
    assert models.kinds is not None
    assert models.answers.wording is not None
