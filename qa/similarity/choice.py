"""Which of several candidates is the right one: a fitted conditional logit, kept as plain numbers.

The model is that of McFadden, "Conditional logit analysis of qualitative choice behavior" (1974): each candidate has a
worth, a weighted sum of its evidence, and is chosen with a probability in proportion to its exponential. Unlike a
regression on single candidates it does not care what all candidates of a case have in common.

>>> cases = [([[1.0], [0.0]], [True, False]), ([[5.0], [6.0]], [False, True])]
>>> bool(fit_choice(cases, [1.0, 1.0], strength=1.0)[0] > 0)
True
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
# A case: a row of evidence for each candidate, and which of them are right.
Case = tuple[Sequence[Sequence[float]], Sequence[bool]]


def fit_choice(cases: Sequence[Case], weights: Sequence[float], strength: float) -> Floats:
    """The weight of each piece of evidence; cases in which all or none are right teach nothing.

    Args:
        cases: with at least one candidate between them, so that the evidence can be counted.
        weights: what each case counts for.
        strength: the inverse of the regularisation.
    """
    from scipy.optimize import minimize

    size = next((len(rows[0]) for rows, _ in cases if len(rows)), 0)
    telling = [(rows, right, w) for (rows, right), w in zip(cases, weights, strict=True) if 0 < sum(right) < len(right)]
    if not telling:
        return np.zeros(size)
    evidence = np.array([row for rows, _, _ in telling for row in rows], dtype=float)
    right = np.array([one for _, own, _ in telling for one in own], dtype=float)
    sizes = np.array([len(rows) for rows, _, _ in telling])
    begin, case_of = np.cumsum([0, *sizes[:-1]]), np.repeat(np.arange(len(sizes)), sizes)
    counts = np.array([w for _, _, w in telling])

    def loss(worth: Floats) -> tuple[float, Floats]:
        scores = evidence @ worth
        scores -= np.maximum.reduceat(scores, begin)[case_of]
        odds = np.exp(scores)
        among_all = odds / np.add.reduceat(odds, begin)[case_of]
        odds_of_right = np.add.reduceat(odds * right, begin)
        among_right = odds * right / odds_of_right[case_of]
        missed = -np.log(odds_of_right / np.add.reduceat(odds, begin))
        slope = evidence.T @ ((among_all - among_right) * counts[case_of])
        return float(counts @ missed + worth @ worth / (2 * strength)), slope + worth / strength

    found = minimize(loss, np.zeros(size), jac=True, method="L-BFGS-B", options={"maxiter": 500})
    return np.asarray(found.x, dtype=float)
