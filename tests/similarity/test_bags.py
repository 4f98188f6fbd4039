"""Rows whose features weigh the more the better they tell targets apart."""

import numpy as np
import pytest
from scipy.stats import entropy
from sklearn.feature_extraction.text import TfidfVectorizer

from qa.similarity.bags import Bag, told, weighed

TEXTS = ["red boat", "red dog", "blue boat boat", "blue dog", "red boat", "blue fish"]
COLUMN = np.array([0, 1, 0, 1, 0, 1])


def counted() -> tuple[Bag, list[str]]:
    return Bag(str.split, TEXTS), ["red", "boat", "dog", "blue", "fish"]  # in the order in which they appear


def test_a_word_of_one_target_weighs_more_than_one_that_all_share():
    bag, words = counted()
    weight = dict(zip(words, told(bag.rows(TEXTS), COLUMN, 2), strict=True))
    assert weight["boat"] > 1.1 * weight["red"]  # both in three texts
    assert weight["fish"] > weight["red"]


def test_weights_are_rarity_times_divergence():
    """Against scikit-learn's inverse document frequency and scipy's relative entropy, feature by feature."""
    bag, words = counted()
    reference = TfidfVectorizer().fit(TEXTS)
    rarity = dict(zip(reference.get_feature_names_out(), reference.idf_, strict=True))
    for word, weight in zip(words, told(bag.rows(TEXTS), COLUMN, 2), strict=True):
        of_target = np.bincount([COLUMN[i] for i, text in enumerate(TEXTS) if word in text], minlength=2)
        share = (of_target + 12.0 * 0.5) / (of_target.sum() + 12.0)
        assert weight == pytest.approx(rarity[word] * (0.2 + entropy(share, [0.5, 0.5]) / np.log(2)), rel=1e-5)


def test_rows_have_the_length_of_their_shares_and_none_for_unknown_words():
    bag, _ = counted()
    part = bag.rows(["red boat", "green", ""])
    rows = weighed([part, part], [np.ones(5, np.float32)] * 2, [0.7, 0.3])
    assert np.asarray(rows.multiply(rows).sum(axis=1)).ravel() == pytest.approx([1, 0, 0], abs=1e-6)


def test_repeated_features_are_damped_and_weighed_ones_kept():
    bag, _ = counted()
    assert bag.rows(["boat boat"]).toarray()[0, 1] == pytest.approx(1 + np.log(2))
    assert Bag(lambda text: {text: 0.25}, ["boat"]).rows(["boat"]).toarray().tolist() == [[0.25]]
