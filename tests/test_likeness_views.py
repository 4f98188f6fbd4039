"""What is applied without scikit-learn is what scikit-learn fitted."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import hstack
from sklearn.feature_extraction.text import TfidfVectorizer
from sklearn.linear_model import LogisticRegression

from qa.similarity.odds import Odds
from qa.similarity.views import Views, letter_runs, words_and_pairs

TEXTS = ["why flat? flat bread", "chia or flax", "", "flax flax flax egg", "can I use chia for the egg"]


@given(st.lists(st.one_of(st.sampled_from(TEXTS), st.text(max_size=20)), max_size=6))
def test_rows_are_those_of_the_reference_library(texts):
    parts = ((words_and_pairs, 0.5), (letter_runs, 0.7))
    ours = Views(*parts).fit(TEXTS).rows(texts).toarray()
    if not texts:
        assert ours.shape[0] == 0
        return
    reference = [
        TfidfVectorizer(analyzer=view, sublinear_tf=True, dtype=np.float32).fit(TEXTS).transform(texts) * weight
        for view, weight in parts
    ]
    assert ours == pytest.approx(hstack(reference).toarray(), abs=1e-6)


def test_odds_are_those_of_the_reference_library():
    draw = np.random.default_rng(7)
    evidence = draw.normal(size=(200, 3))
    labels = evidence @ [2.0, -1.0, 0.0] + draw.normal(size=200) > 0.3
    reference = LogisticRegression(C=10.0, max_iter=3000, random_state=20260302).fit(evidence, labels)
    assert Odds.fit(evidence, labels, 10.0).of(evidence) == pytest.approx(reference.predict_proba(evidence)[:, 1])


@pytest.mark.parametrize("always", [True, False])
def test_what_was_always_so_is_certain(always):
    assert bool(Odds.fit([[0.0], [1.0]], [always, always], 1.0).of([[5.0]])[0] > 0.5) is always
