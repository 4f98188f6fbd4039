"""Group any texts by likeness; deterministic, and the number of groups is found when it is not given."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

_SEED = 20260302
_DIMENSIONS = 100


def group_texts(texts: Sequence[str], n_groups: int | None = None) -> list[int]:
    """One group number for each text, counted from 0 in the order in which groups first appear.

    >>> group_texts(["freeze the loaf", "cups to grams", "freeze a loaf", "grams to cups"], 2)
    [0, 1, 0, 1]
    """
    if not texts:
        return []
    rows = _placed(texts)
    wanted = min(n_groups or _found_number(rows), len(texts))
    return _in_order(_grouped(rows, wanted))


def _placed(texts: Sequence[str]) -> NDArray[np.float64]:
    """Each text as a point of length 1 in few dimensions."""
    from sklearn.decomposition import TruncatedSVD
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.preprocessing import normalize

    try:
        rows = TfidfVectorizer(sublinear_tf=True, stop_words="english").fit_transform(texts)
    except ValueError:  # no words but stop words
        rows = TfidfVectorizer(analyzer="char_wb", ngram_range=(2, 4)).fit_transform([text or "." for text in texts])
    few = min(_DIMENSIONS, rows.shape[1] - 1, rows.shape[0] - 1)
    if few < 2:
        return np.asarray(rows.toarray(), dtype=np.float64)
    return np.asarray(normalize(TruncatedSVD(few, random_state=_SEED).fit_transform(rows)))


def _grouped(rows: NDArray[np.float64], wanted: int) -> NDArray[np.int64]:
    from sklearn.cluster import KMeans

    if len(np.unique(rows, axis=0)) <= wanted:
        return np.asarray(np.unique(rows, axis=0, return_inverse=True)[1]).ravel()
    return np.asarray(KMeans(wanted, n_init=5, random_state=_SEED).fit_predict(rows))


def _found_number(rows: NDArray[np.float64]) -> int:
    """The number of groups with the best silhouette among a few."""
    from sklearn.metrics import silhouette_score

    most = min(60, max(2, len(rows) // 4))
    tried = sorted({2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 29, 38, 50} & set(range(2, most + 1))) or [1]
    if tried == [1] or len(np.unique(rows, axis=0)) < 4:
        return len(np.unique(rows, axis=0)) if len(rows) < 8 else 1
    part = np.random.default_rng(_SEED).permutation(len(rows))[:2000]
    best, score = 1, -1.0
    for number in tried:
        labels = _grouped(rows[part], number)
        if 1 < len(set(labels.tolist())) < len(part):
            found = float(silhouette_score(rows[part], labels))
            if found > score:
                best, score = number, found
    return best


def _in_order(labels: NDArray[np.int64]) -> list[int]:
    order: dict[int, int] = {}
    return [order.setdefault(int(label), len(order)) for label in labels]
