"""English texts stripped of how something was said."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import random as random_rows

from qa.similarity import everyday, meanings
from qa.similarity.plain import plain_words, runs_across, sense_pairs, senses
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


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("purchased abroad", "bought overseas"),
        ("it never came", "still waiting for it"),
        ("I want my money back", "please refund me"),
        ("top up", "reload"),
    ],
)
def test_what_means_the_same_shares_a_sense(one, other):
    assert {sense for sense in senses(one) if sense.startswith("=")} & set(senses(other))


def test_a_word_of_many_senses_says_less_for_each():
    """Squares of what a word says for its groups add up to 1; for itself it says less than a word in no group."""
    found = senses("refund")
    assert sum(value**2 for sense, value in found.items() if sense.startswith("=")) == pytest.approx(1)
    assert found["refund"] < senses("banjo")["banjo"] == 1


def test_pairs_ignore_order_and_distance_within_reach():
    assert set(sense_pairs("banjo fiddle")) == set(sense_pairs("fiddle banjo")) != set()
    assert not set(sense_pairs("banjo " + "x " * 20 + "fiddle")) & set(sense_pairs("banjo fiddle"))


def test_runs_go_across_words():
    assert "d th" in runs_across("Add the oil")
    assert runs_across("adding") == runs_across("added")


def test_no_form_is_in_two_groups():
    words = everyday._FORMS.split()
    assert sorted(set(words)) == sorted(words)
    assert all(len(line.split()) > 1 for line in everyday._FORMS.strip().splitlines())


def test_groups_of_meaning_differ_and_have_more_than_one_member():
    """After the endings are cut, too."""
    groups = [frozenset(" ".join(plain_words(member)) for member in group) for group in meanings.GROUPS]
    assert [group for group in groups if len(group) < 2] == []
    assert len(set(groups)) == len(groups)
    assert all(len(set(group)) == len(group) for group in meanings.GROUPS)


@given(st.text(max_size=80))
def test_any_text_has_words_without_spaces(text):
    assert all(word and not word.isspace() for word in plain_words(text))


def test_products_are_those_of_plain_multiplication():
    """Against numpy, with columns that many rows share and columns that few do."""
    rows = random_rows(300, 50, 0.02, format="csr", random_state=1, dtype=np.float64).tolil()
    rows[:, :10] = 0.5
    rows = rows.tocsr()
    assert Products(rows).of(rows[:7]) == pytest.approx(rows[:7].toarray() @ rows.toarray().T, abs=1e-5)
