"""What known texts mean: an ask finds its answer by meaning where words fail."""

import numpy as np
import pytest

from qa.stages.match.meaning import Meaning

KNOWN = [
    ("why did my cookies spread out flat", 0),
    ("biscuits melted into one puddle in the oven", 0),
    ("cookies ran together on the tray", 0),
    ("can I freeze the cookies", 1),
    ("do biscuits keep in the freezer", 1),
    ("is it fine to put cookies in the deep freeze", 1),
    ("how many grams in a cup of sugar", 2),
    ("what does a cup of sugar weigh", 2),
    ("sugar, cups to grams", 2),
]


@pytest.fixture(scope="module")
def meaning():
    return Meaning.fit([text for text, _ in KNOWN], np.array([answer for _, answer in KNOWN]))


@pytest.mark.parametrize(
    ("asked", "answer"),
    [
        ("my chocolate chip ones went thin as a pancake", 0),
        ("will these survive a month at minus eighteen degrees", 1),
        ("I only own scales, so the weight of two hundred millilitres of the sweet stuff please", 2),
    ],
)
def test_an_ask_in_other_words_is_nearest_to_its_answer(meaning, asked, answer):
    near = meaning.of([asked]) @ meaning.rows.T
    assert KNOWN[int(near.argmax())][1] == answer


def test_texts_of_one_answer_come_closer_than_the_encoder_has_them(meaning):
    """Evening out lessens what differs within an answer, measured against what differs between answers."""
    from qa.similarity.encoder import vectors

    def parted(rows):
        near, same = rows @ rows.T, np.equal.outer([a for _, a in KNOWN], [a for _, a in KNOWN])
        return near[same & ~np.eye(len(KNOWN), dtype=bool)].mean() - near[~same].mean()

    assert parted(meaning.rows) > parted(vectors([text for text, _ in KNOWN]))


def test_rows_have_length_one(meaning):
    assert np.allclose((meaning.rows**2).sum(axis=1), 1, atol=1e-5)
