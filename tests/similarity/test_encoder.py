"""The sentence encoder: what it gives does not depend on what is asked beside it."""

import numpy as np
import pytest

from qa.similarity import encoder
from qa.similarity.encoder import SIZE, vectors

TEXTS = [
    "why did my cookies spread?",
    "my biscuits came out flat",
    "how much is a cup of flour?",
    "",
    "?",
    "Swapped the butter. " * 40,
    "a question that goes on and on, with some five or six clauses, so that it is longer than a hundred characters",
]


@pytest.fixture
def forgotten(monkeypatch):
    monkeypatch.setattr(encoder, "_kept", {})


def test_rows_have_length_one_and_are_as_many_as_texts(forgotten):
    rows = vectors([*TEXTS, *TEXTS])
    assert rows.shape == (2 * len(TEXTS), SIZE)
    assert np.allclose((rows**2).sum(axis=1), 1, atol=1e-4)
    assert vectors([]).shape == (0, SIZE)


@pytest.mark.parametrize("place", range(len(TEXTS)))
def test_a_vector_does_not_depend_on_what_is_worked_out_beside_it(place, monkeypatch):
    monkeypatch.setattr(encoder, "_kept", {})
    beside = vectors(TEXTS)[place]
    monkeypatch.setattr(encoder, "_kept", {})
    assert np.array_equal(vectors([TEXTS[place]])[0], beside)


def test_two_wordings_of_one_question_are_closer_than_two_questions(forgotten):
    spread, flat, cup = vectors(TEXTS[:3])
    assert spread @ flat > max(spread @ cup, flat @ cup)


def test_no_more_is_kept_than_memory_is_for(forgotten, monkeypatch):
    monkeypatch.setattr(encoder, "_MOST_KEPT", 4)
    all_of_them = vectors(TEXTS)
    assert len(encoder._kept) <= 4
    for text, row in zip(TEXTS, all_of_them, strict=True):
        assert np.array_equal(vectors([text])[0], row)
    assert len(encoder._kept) <= 4
