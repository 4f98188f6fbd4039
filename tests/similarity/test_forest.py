"""A forest kept as plain numbers, against scikit-learn's own."""

import numpy as np
import pytest

from qa.similarity import forest
from qa.similarity.forest import Forest


def cases(count, seed):
    """What is so depends on three pieces of evidence together, with one case in ten told wrongly."""
    random = np.random.default_rng(seed)
    rows = random.random((count, 6)).astype(np.float32)
    right = (rows[:, 0] > 0.5) ^ ((rows[:, 1] > 0.5) & (rows[:, 2] > 0.3))
    return rows, right ^ (random.random(count) < 0.1)


def test_it_gives_what_the_library_gives():
    """Reference: scikit-learn's ExtraTreesClassifier.predict_proba with the same settings."""
    from sklearn.ensemble import ExtraTreesClassifier

    rows, right = cases(400, 1)
    others, _ = cases(150, 2)
    model = ExtraTreesClassifier(
        forest._TREES, min_samples_leaf=forest._FEWEST, max_features=forest._LOOKED_AT, random_state=forest._SEED
    ).fit(rows, right)
    assert np.allclose(Forest.fit(rows, right).of(others), model.predict_proba(others)[:, 1])


def test_it_learns_what_no_weighted_sum_can():
    grown, (rows, right) = Forest.fit(*cases(600, 3)), cases(600, 4)
    assert ((grown.of(rows) > 0.5) == right).mean() > 0.8


def test_the_same_cases_give_the_same_forest_and_a_case_does_not_depend_on_those_beside_it():
    rows, right = cases(200, 5)
    one, other = Forest.fit(rows, right), Forest.fit(rows, right)
    assert np.array_equal(one.of(rows), other.of(rows))
    assert np.array_equal(one.of(rows)[7:8], one.of(rows[7:8]))


@pytest.mark.parametrize("label", [True, False])
def test_labels_that_are_all_alike_are_refused(label):
    with pytest.raises(ValueError, match="some of each"):
        Forest.fit([[0.0], [1.0]], [label, label])
