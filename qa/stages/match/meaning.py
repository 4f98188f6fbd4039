"""What known texts mean, so that an ask finds its answer whatever its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from qa.similarity.encoder import Floats, of_length_one
from qa.similarity.questions import vectors

# How much of the mean spread is added in every direction before they are evened out: some are hardly used.
_SHRUNK = 0.3


@dataclass(frozen=True, slots=True)
class Meaning:
    """What known texts mean, in directions that tell answers apart.

    Texts that one answer is right for differ in dish, manner and mood. Directions in which they differ much count for
    little (Hatch, Kajarekar and Stolcke, "Within-class covariance normalization for SVM-based speaker recognition",
    Interspeech 2006).

    Attributes:
        rows: what each known text means, each of length 1.
        mean: what all texts have in common.
        evened: how directions are weighed.
    """

    rows: Floats
    mean: Floats
    evened: Floats

    @classmethod
    def fit(cls, texts: Sequence[str], answers: NDArray[np.int64]) -> Meaning:
        """Learn the directions from known texts and the answer of each."""
        rows = vectors(texts).astype(float)
        sizes = np.maximum(np.bincount(answers), 1)
        own = np.stack([np.bincount(answers, weights=column) for column in rows.T], axis=1) / sizes[:, None]
        apart = rows - own[answers]
        spread, axes = np.linalg.eigh(apart.T @ apart / len(rows))
        evened = (axes / np.sqrt(spread + _SHRUNK * spread.mean())) @ axes.T
        mean = rows.mean(axis=0)
        return cls(of_length_one((rows - mean) @ evened), mean.astype(np.float32), evened.astype(np.float32))

    def of(self, texts: Sequence[str]) -> Floats:
        """What other texts mean, in the same directions."""
        return of_length_one((vectors(texts) - self.mean) @ self.evened)
