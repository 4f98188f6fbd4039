"""Texts as sparse rows: several views of a text, each a bag of features weighted by how rare they are."""

from __future__ import annotations

import re
from array import array
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

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


@dataclass(frozen=True, slots=True)
class _Bag:
    """One fitted view: scikit-learn's TF-IDF weights, applied here so that using them does not import it.

    Attributes:
        weight: the length of each row that shows any known feature.
        columns: which column a feature is counted in.
        rarity: the weight of each column.
    """

    view: View
    weight: np.float32
    columns: Mapping[str, int]
    rarity: NDArray[np.float32]

    def rows(self, items: Sequence[Any]) -> Any:
        from scipy.sparse import csr_matrix

        columns, counts, ends = array("i"), array("f"), array("q", [0])
        for item in items:
            found = Counter(feature for feature in self.view(item) if feature in self.columns)
            for column, count in sorted((self.columns[feature], count) for feature, count in found.items()):
                columns.append(column)
                counts.append(count)
            ends.append(len(columns))
        at = np.frombuffer(columns, dtype=np.intc) if columns else np.zeros(0, dtype=np.intc)
        values = np.log(np.frombuffer(counts, dtype=np.float32)) + 1 if counts else np.zeros(0, dtype=np.float32)
        values = (values * self.rarity[at]).astype(np.float32)
        bounds = np.frombuffer(ends, dtype=np.int64)
        rows = csr_matrix((values, at, bounds), shape=(len(items), len(self.columns)))
        lengths = np.sqrt(np.asarray(rows.multiply(rows).sum(axis=1)).ravel())
        scale = np.divide(self.weight, lengths, out=np.zeros_like(lengths), where=lengths > 0)
        rows.data *= np.repeat(scale.astype(np.float32), np.diff(bounds))
        return rows


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

        self._parts = []
        for view, weight in self._views:
            part = TfidfVectorizer(analyzer=view, sublinear_tf=True, min_df=self._fewest, dtype=np.float32).fit(items)
            columns = {feature: int(column) for feature, column in part.vocabulary_.items()}
            self._parts.append(_Bag(view, np.float32(weight), columns, part.idf_.astype(np.float32)))
        return self

    def rows(self, items: Sequence[Any]) -> Any:
        """A sparse matrix with a row for each item, in which each view has its weight as length, or 0."""
        from scipy.sparse import hstack

        return hstack([part.rows(items) for part in self._parts], format="csr")


def text_views() -> Views:
    """Words and pairs beside letter runs: the views for texts of any kind; the product of two rows is 0 to 1."""
    return Views((words_and_pairs, 0.5**0.5), (letter_runs, 0.5**0.5))
