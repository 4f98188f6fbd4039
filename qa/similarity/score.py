"""One score for the likeness of texts: 0 to 1, higher is more alike; rapidfuzz and TF-IDF are hidden behind it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
_WORD = re.compile(r"\w+")


def likeness(one: str, other: str) -> float:
    """How alike two short texts are, whatever the order of their words.

    >>> likeness("potato starch", "starch, potato")
    1.0
    >>> round(likeness("psyllium", "psylium"), 2)
    0.93
    """
    from rapidfuzz import fuzz, utils

    return float(fuzz.token_sort_ratio(one, other, processor=utils.default_process)) / 100


def likeness_matrix(texts: Sequence[str], others: Sequence[str]) -> Floats:
    """How alike each text is to each other text, weighing rare words and letter runs more: one row for each text.

    >>> bool(likeness_matrix(["chia for flax"], ["chia for flax", "a glass lid"])[0].argmax() == 0)
    True
    """
    views = Views().fit([*texts, *others])
    alike: Floats = (views.rows(texts) @ views.rows(others).T).toarray()
    return np.clip(alike, 0.0, 1.0)


def _words_and_pairs(text: str) -> list[str]:
    words = _WORD.findall(text.lower())
    return [*words, *(f"{one} {other}" for one, other in pairwise(words))]


class Views:
    """Texts as rows of weighted words, pairs of words, and runs of letters; the product of two rows is 0 to 1."""

    def fit(self, texts: Sequence[str]) -> Views:
        """Learn which words and letter runs are rare."""
        from sklearn.feature_extraction.text import TfidfVectorizer

        words = TfidfVectorizer(analyzer=_words_and_pairs, sublinear_tf=True, dtype=np.float32)
        letters = TfidfVectorizer(analyzer="char_wb", ngram_range=(2, 5), sublinear_tf=True, dtype=np.float32)
        self._parts = [part.fit(texts) for part in (words, letters)]
        return self

    def rows(self, texts: Sequence[str]) -> Any:
        """A sparse matrix with one row of length 1 (or 0) for each text."""
        from scipy.sparse import hstack

        return hstack([part.transform(texts) for part in self._parts], format="csr") * np.float32(0.5**0.5)
