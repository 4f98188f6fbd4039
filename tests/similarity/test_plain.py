"""English texts stripped of how something was said."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import random as random_rows

from qa.similarity import everyday
from qa.similarity.plain import meanings, plain_words, word_pairs
from qa.similarity.products import Products


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("I can't do it", "i cannot do it"),
        ("wasn't it stopped?", "wasnt it stopping?"),
        ("I’m paying", "im paid"),
        ("boxes of berries", "box of berry"),
        ("they went, it takes", "they go, it took"),
        ("planned", "plan"),
        ("12 eggs", "30 eggs"),
    ],
)
def test_forms_of_a_word_are_one_word(one, other):
    assert plain_words(one) == plain_words(other)


@pytest.mark.parametrize(("one", "other"), [("can", "cannot"), ("gas", "gases?"), ("bus", "bu"), ("glass", "glas")])
def test_other_words_stay_apart(one, other):
    assert plain_words(one) != plain_words(other)


def test_words_of_one_meaning_are_one():
    assert meanings("Why was it declined?") == meanings("reason it is refused?")[:1] + meanings("was it declined?")


def test_pairs_ignore_order_and_distance_within_reach():
    assert set(word_pairs("cold butter")) == set(word_pairs("butter cold"))
    assert not set(word_pairs("first " + "x " * 20 + "last")) & set(word_pairs("first last"))


@pytest.mark.parametrize("groups", [everyday._FORMS, everyday._MEANINGS])
def test_no_word_is_in_two_groups(groups):
    words = groups.split()
    assert sorted(set(words)) == sorted(words)
    assert all(len(line.split()) > 1 for line in groups.strip().splitlines())


@given(st.text(max_size=80))
def test_any_text_has_words_without_spaces(text):
    assert all(word and not word.isspace() for word in plain_words(text))


def test_products_are_those_of_plain_multiplication():
    """Against numpy, with columns that many rows share and columns that few do."""
    rows = random_rows(300, 50, 0.02, format="csr", random_state=1, dtype=np.float64).tolil()
    rows[:, :10] = 0.5
    rows = rows.tocsr()
    assert Products(rows).of(rows[:7]) == pytest.approx(rows[:7].toarray() @ rows.toarray().T, abs=1e-5)
