"""Texts as sparse rows: several views of a text, each a bag of features weighted by how rare they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np

# What a text shows when looked at in one way: draws features from it.
View = Callable[[Any], Sequence[str]]

_WORD = re.compile(r"\w+(?:['’]\w+)?|[^\w\s]")
_LETTER_RUNS = (2, 3, 4, 5)


def words_and_pairs(text: str) -> list[str]:
    """Words and marks, and each with the one after it.

    >>> words_and_pairs("Why flat?")
    ['why', 'flat', '?', 'why flat', 'flat ?']
    """
    words = [word.lower() for word in _WORD.findall(text)]
    return [*words, *(f"{one} {other}" for one, other in pairwise(words))]


def word_parts(text: str) -> list[str]:
    """Beginnings and endings of the words, which survive misspelling and inflection."""
    return [part for word in _WORD.findall(text) for part in _ends(word.lower())]


def letter_runs(text: str) -> list[str]:
    """Runs of two to five letters within each word, its ends included."""
    return [run for word in _WORD.findall(text) for run in _runs(word.lower())]


@lru_cache(maxsize=200_000)
def _ends(word: str) -> tuple[str, ...]:
    cuts = ((4, f"{word[:4]}-"), (5, f"{word[:5]}-"), (3, f"-{word[-3:]}"), (4, f"-{word[-2:]}"))
    return tuple(dict.fromkeys(part for longer_than, part in cuts if len(word) > longer_than))


@lru_cache(maxsize=200_000)
def _runs(word: str) -> tuple[str, ...]:
    padded = f" {word} "
    return tuple(padded[i : i + n] for n in _LETTER_RUNS for i in range(len(padded) - n + 1))


class Views:
    """Several weighted views of texts, or of anything that features can be drawn from, as one sparse row each.

    >>> rows = Views((words_and_pairs, 1.0)).fit(["chia", "flax"]).rows(["chia"])
    >>> rows.shape, float((rows @ rows.T).toarray()[0, 0])
    ((1, 2), 1.0)
    """

    def __init__(self, *views: tuple[View, float], fewest: int = 1) -> None:
        """Look at texts in these ways; a feature is kept if at least `fewest` texts show it."""
        self._views = views
        self._fewest = fewest

    def fit(self, items: Sequence[Any]) -> Views:
        """Learn which features there are and how rare they are."""
        from sklearn.feature_extraction.text import TfidfVectorizer

        self._parts = [
            TfidfVectorizer(analyzer=view, sublinear_tf=True, min_df=self._fewest, dtype=np.float32).fit(items)
            for view, _ in self._views
        ]
        return self

    def rows(self, items: Sequence[Any]) -> Any:
        """A sparse matrix with a row for each item, in which each view has its weight as length, or 0."""
        from scipy.sparse import hstack

        parts = [
            part.transform(items) * np.float32(weight)
            for part, (_, weight) in zip(self._parts, self._views, strict=True)
        ]
        return hstack(parts, format="csr")


def text_views() -> Views:
    """Words and pairs beside letter runs: the views for texts of any kind; the product of two rows is 0 to 1."""
    return Views((words_and_pairs, 0.5**0.5), (letter_runs, 0.5**0.5))
