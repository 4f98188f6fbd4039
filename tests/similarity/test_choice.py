"""The conditional logit is checked against statsmodels on the same cases, and where nothing can be learned."""

import numpy as np
import pytest
from statsmodels.discrete.conditional_models import ConditionalLogit

from qa.similarity.choice import fit_choice


def drawn(cases: int, candidates: int) -> tuple[np.ndarray, np.ndarray]:
    """Invented cases with one right candidate each, drawn by a known worth."""
    chance = np.random.default_rng(7)
    evidence = chance.normal(size=(cases, candidates, 2))
    scores = evidence @ np.array([1.5, -0.5]) + chance.gumbel(size=(cases, candidates))
    return evidence, scores.argmax(axis=1)


def test_the_weights_are_those_of_a_reference_library() -> None:
    evidence, right = drawn(300, 4)
    cases = [(rows, [place == one for place in range(4)]) for rows, one in zip(evidence, right, strict=True)]
    chosen = np.array([flag for _, flags in cases for flag in flags], dtype=float)
    reference = ConditionalLogit(chosen, evidence.reshape(-1, 2), groups=np.repeat(np.arange(300), 4)).fit(disp=False)
    found = fit_choice(cases, [1.0] * 300, strength=1e6)
    assert found == pytest.approx(reference.params, abs=0.01)


def test_a_case_that_counts_double_counts_as_two() -> None:
    evidence, right = drawn(40, 3)
    cases = [(rows, [place == one for place in range(3)]) for rows, one in zip(evidence, right, strict=True)]
    twice = fit_choice([*cases, *cases[:10]], [1.0] * 50, strength=5.0)
    assert fit_choice(cases, [2.0] * 10 + [1.0] * 30, strength=5.0) == pytest.approx(twice, abs=1e-4)


@pytest.mark.parametrize("flags", [[True, True], [False, False]])
def test_cases_without_a_choice_teach_nothing(flags: list[bool]) -> None:
    assert not fit_choice([([[1.0], [2.0]], flags)], [1.0], strength=1.0).any()
