"""What texts mean beside known ones, and how near they are: a kernel for a ridge that learns on features too."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from qa.similarity.encoder import of_length_one, vectors

Floats = NDArray[np.float64]

# How much meaning counts beside features whose rows have a length of 1 to 2.
_WEIGHT = 2.2
_AT_ONCE = 1_000  # texts, so that a long list takes little memory


@dataclass(frozen=True, slots=True)
class Sense:
    """What known texts mean, less what all of them have in common.

    Attributes:
        mean: what they have in common.
        known: a row of length 1 for each known text.
        look: the encoder.
    """

    mean: NDArray[np.float32]
    known: NDArray[np.float32]
    look: Callable[[Sequence[str]], NDArray[np.float32]] = vectors

    @classmethod
    def fit(cls, texts: Sequence[str], look: Callable[[Sequence[str]], NDArray[np.float32]] = vectors) -> Sense:
        """Keep what these texts mean."""
        rows = look(texts)
        mean = rows.mean(axis=0)
        return cls(mean, of_length_one(rows - mean), look)

    def of(self, texts: Sequence[str]) -> NDArray[np.float32]:
        """What other texts mean, less the same: a row of length 1 for each."""
        return of_length_one(self.look(texts) - self.mean)

    def nearness(self, texts: Sequence[str]) -> Floats:
        """A row for each text: how near it is to each known one, `_WEIGHT` times e to the power of their cosine.

        The exponential lets the nearest count most; like the cosine itself it is a kernel.

        >>> known = Sense.fit(["can I use oil instead?", "thank you so much!", "my cake sank"])
        >>> int(known.nearness(["many thanks"])[0].argmax())
        1
        """
        return np.asarray(_WEIGHT * np.exp(self.of(texts).astype(float) @ self.known.T.astype(float)))

    def scores(self, texts: Sequence[str], weights: Floats) -> Floats:
        """For each text the sum of the known texts' weights, a row of them each, by nearness."""
        batches = [texts[start : start + _AT_ONCE] for start in range(0, len(texts), _AT_ONCE)]
        return np.concatenate([np.zeros((0, weights.shape[1])), *(self.nearness(batch) @ weights for batch in batches)])
