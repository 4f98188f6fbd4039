"""A fitted logistic regression kept as plain numbers: to use it imports nothing that takes long.

>>> odds = Odds.fit([[0.0], [0.1], [0.9], [1.0]], [False, False, True, True], strength=10.0)
>>> low, high = odds.of([[0.0], [1.0]])
>>> bool(low < 0.5 < high)
True
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

_SEED = 20260302
_CERTAIN = 20.0  # log odds of what was always, or never, so in the examples


@dataclass(frozen=True, slots=True)
class Odds:
    """Log odds as a weighted sum of evidence.

    Attributes:
        weights: one for each piece of evidence.
        base: the log odds without evidence.
    """

    weights: NDArray[np.float64]
    base: float

    @classmethod
    def fit(cls, evidence: Any, labels: Sequence[bool] | NDArray[Any], strength: float) -> Odds:
        """Fit on cases; `strength` is the inverse of the regularisation. Labels that are all alike give certainty."""
        rows, right = np.asarray(evidence, dtype=float), np.asarray(labels, dtype=bool)
        if right.all() or not right.any():
            return cls(np.zeros(rows.shape[1]), _CERTAIN if right.any() else -_CERTAIN)
        from sklearn.linear_model import LogisticRegression

        model = LogisticRegression(C=strength, max_iter=3000, random_state=_SEED).fit(rows, right)
        return cls(np.array(model.coef_[0]), float(model.intercept_[0]))

    def of(self, evidence: Any) -> NDArray[np.float64]:
        """The probability of each case, 0 to 1."""
        scores = np.asarray(evidence, dtype=float) @ self.weights + self.base
        return np.asarray(1.0 / (1.0 + np.exp(-np.clip(scores, -500, 500))))
