"""Group any texts by likeness; deterministic, and the number of groups is found when it is not given.

Short texts share few words, so one clustering is chancy. Several are made in spaces of a few sizes, their verdicts are
clustered in turn, and the groups so found are then settled among the words themselves.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

Labels = NDArray[np.int64]
Rows = NDArray[np.float64]

_SEED = 20260302
# Sizes of the spaces, in dimensions per group, and how many clusterings are made in each.
_SIZES, _TRIES = (1.5, 2.0, 3.0), 5
# Up to this many rounds of moving texts to the group whose words are nearest.
_SETTLING = 15
# Texts looked at to find the number of groups, and the numbers tried.
_LOOKED_AT, _NUMBERS = 1_500, (2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 29, 38, 50)
_NEAR_BEST = 0.9
_WORD = re.compile(r"[^\W\d_][\w+#]*(?:[.-][\w+#]+)*")
_ENDINGS = ("ings", "ing", "ies", "ed", "es", "e", "s")


def group_texts(texts: Sequence[str], n_groups: int | None = None) -> list[int]:
    """One group number for each text, counted from 0 in the order in which groups first appear.

    Raises:
        ValueError: n_groups is below 1.

    >>> group_texts(["freeze the loaf", "cups to grams", "freeze a loaf", "grams to cups"], 2)
    [0, 1, 0, 1]
    """
    if n_groups is not None and n_groups < 1:
        raise ValueError(f"{n_groups} groups cannot be made; ask for 1 or more")
    if not texts:
        return []
    rows, distinct = _rows(texts), len(set(texts))
    wanted = min(n_groups or _found_number(rows), distinct)
    if wanted < 2:
        return [0] * len(texts)
    return _in_order(_settled(rows, _agreed(rows, wanted), wanted))


@lru_cache(maxsize=100_000)
def _stem(word: str) -> str:
    ending = next((e for e in _ENDINGS if word.endswith(e) and len(word) - len(e) >= 3), "")
    return word.removesuffix(ending)


def _stems(text: str) -> list[str]:
    from sklearn.feature_extraction.text import ENGLISH_STOP_WORDS

    words = (word.lower() for word in _WORD.findall(text))
    return [_stem(word) for word in words if word not in ENGLISH_STOP_WORDS]


def _rows(texts: Sequence[str]) -> Any:
    """Each text as a sparse row of length 1 over the stems of its words, or 0 without any."""
    from sklearn.feature_extraction.text import TfidfVectorizer

    for analyzer, fewest in ((_stems, 2 if len(texts) > 50 else 1), (_stems, 1), (lambda text: list(text) or [" "], 1)):
        try:
            return TfidfVectorizer(analyzer=analyzer, sublinear_tf=True, min_df=fewest).fit_transform(texts)
        except ValueError:  # no word is left; letters always are
            continue
    raise AssertionError("every text has letters or is a space")


def _points(rows: Any, dimensions: int) -> Rows:
    """The texts as points in few dimensions, the most telling first."""
    from sklearn.decomposition import TruncatedSVD

    few = min(dimensions, min(rows.shape) - 1)
    if few < 2:
        return np.asarray(rows.toarray(), dtype=np.float64)
    with np.errstate(invalid="ignore"):  # rows that are all alike leave no variance to explain
        return np.asarray(TruncatedSVD(few, random_state=_SEED).fit_transform(rows))


def _clustered(points: Rows, wanted: int, seed: int, tries: int = 1) -> Labels:
    from sklearn.cluster import KMeans

    found = len(np.unique(points, axis=0))
    return np.asarray(KMeans(min(wanted, found), n_init=tries, random_state=seed).fit_predict(points))


def _agreed(rows: Any, wanted: int) -> Labels:
    """The groups on which clusterings in spaces of several sizes agree."""
    from sklearn.preprocessing import normalize

    points = _points(rows, round(_SIZES[-1] * wanted) + 2)
    verdicts = []
    for size in _SIZES:
        within = normalize(points[:, : max(round(size * wanted), 2)])
        verdicts += [np.eye(wanted)[_clustered(within, wanted, _SEED + attempt, 2)] for attempt in range(_TRIES)]
    return _clustered(np.hstack(verdicts), wanted, _SEED, 10)


def _settled(rows: Any, labels: Labels, wanted: int) -> Labels:
    """Move each text to the group whose words are nearest, until nothing moves."""
    from scipy.sparse import csr_matrix
    from sklearn.preprocessing import normalize

    for _ in range(_SETTLING):
        member = csr_matrix((np.ones(len(labels)), (labels, np.arange(len(labels)))), shape=(wanted, len(labels)))
        nearness = (rows @ normalize(member @ rows).T).toarray()
        moved = np.where(nearness.max(axis=1) > 0, nearness.argmax(axis=1), labels)
        if (moved == labels).all() or len(np.unique(moved)) < len(np.unique(labels)):
            break
        labels = moved
    return labels


def _found_number(rows: Any) -> int:
    """The fewest groups whose silhouette on a part of the texts is near the best."""
    from sklearn.metrics import silhouette_score
    from sklearn.preprocessing import normalize

    order = np.random.default_rng(_SEED).permutation(rows.shape[0])[:_LOOKED_AT]
    points = normalize(_points(rows[np.sort(order)], 2 * _NUMBERS[-1]))
    most = min(len(np.unique(points, axis=0)), len(points) // 2)
    scores: dict[int, float] = {}
    for number in (n for n in _NUMBERS if n <= most):
        labels = _clustered(points[:, : max(2 * number, 2)], number, _SEED, 2)
        if len(np.unique(labels)) > 1:
            scores[number] = float(silhouette_score(points, labels, metric="cosine"))
    best = max(scores.values(), default=0.0)
    if best <= 0:
        return 1
    return next(number for number, score in scores.items() if score >= _NEAR_BEST * best)


def _in_order(labels: Labels) -> list[int]:
    order: dict[int, int] = {}
    return [order.setdefault(int(label), len(order)) for label in labels]
