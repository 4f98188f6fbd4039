"""Nearness in meaning: a kernel, the same for a text whatever is asked beside it."""

import numpy as np
import pytest

from qa.similarity.sense import Sense

TEXTS = ["can I use oil instead?", "thank you so much!", "my cake sank", "always weigh the flour", "lol my cat", ""]


@pytest.fixture(scope="module")
def sense() -> Sense:
    return Sense.fit(TEXTS)


def test_nearness_is_a_kernel(sense: Sense) -> None:
    kernel = sense.nearness(TEXTS)
    assert kernel == pytest.approx(kernel.T)
    assert np.linalg.eigvalsh(kernel).min() > -1e-6
    assert kernel.argmax(axis=1).tolist() == list(range(len(TEXTS)))


def test_scores_sum_what_the_known_texts_weigh(sense: Sense) -> None:
    weights = np.arange(12.0).reshape(6, 2)
    new = ["may I swap the butter for oil", "many thanks", *(f"cake number {n}" for n in range(1_200))]
    together = sense.scores(new, weights)
    assert together == pytest.approx(sense.nearness(new) @ weights)
    assert np.vstack([sense.scores([text], weights) for text in new[:3]]) == pytest.approx(together[:3], abs=1e-12)


def test_nothing_has_no_scores(sense: Sense) -> None:
    assert sense.scores([], np.ones((6, 2))).shape == (0, 2)
