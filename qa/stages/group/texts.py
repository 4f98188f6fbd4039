"""Group any texts by what they are about; deterministic, and the number of groups is found when it is not given."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from qa.similarity.plain import plain_words
from qa.stages.group.sharpen import sharpened
from qa.stages.group.telling import telling, worth

Floats = NDArray[np.float64]
Places = NDArray[np.int64]

# A word must be in this many texts to tell groups apart; in few texts, fewer must do, and there is little to sharpen.
_FEWEST, _FEWEST_OF_FEW, _FEW = 3, 1, 300
# Only the commonest words, since how words go together takes memory with the square of their number.
_MOST_WORDS = 4_000
# Groupings tried from different beginnings, of which the likeliest is kept; fewer while the number is sought.
_TRIES, _QUICK_TRIES = 8, 3
_ROUNDS = 30
# The belief that a group may use a word never seen in it, in texts: small, since groups have words of their own.
_UNSEEN = 0.05
# How firmly the first grouping is believed before the refining begins.
_FIRST_BELIEF = 0.8
# Numbers of groups tried first, and how many texts are looked at for it.
_NUMBERS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 22, 27, 33, 40, 50, 60)
_LOOKED_AT = 8_000
_SEED = 20260302


def group_texts(texts: Sequence[str], n_groups: int | None = None) -> list[int]:
    """One group number for each text, counted from 0 in the order in which groups first appear.

    The same texts in another order form the same groups. There can be fewer groups than asked for, if so few differ.

    Args:
        texts: short texts in English, e.g. questions.
        n_groups: how many groups at most; found if not given.

    Raises:
        ValueError: `n_groups` is less than 1.

    >>> group_texts(["freeze the loaf", "cups to grams", "freeze a loaf", "grams to cups"], 2)
    [0, 1, 0, 1]
    """
    if n_groups is not None and n_groups < 1:
        raise ValueError(f"cannot make {n_groups} groups: ask for 1 or more, or give no number to have it found")
    if not texts:
        return []
    order = sorted(range(len(texts)), key=texts.__getitem__)
    ordered = [texts[place] for place in order]
    words = _words(ordered)
    wanted = n_groups or _found_number(words)
    found = _grouped(words, telling(words), wanted, _TRIES)
    groups = np.empty(len(texts), dtype=np.int64)
    groups[order] = sharpened(ordered, found, wanted) if len(texts) >= _FEW else found
    return _in_order(groups)


def _words(texts: Sequence[str]) -> Any:
    """A sparse row of 0 and 1 for each text: which words it has."""
    from sklearn.feature_extraction.text import CountVectorizer

    fewest = _FEWEST if len(texts) >= _FEW else _FEWEST_OF_FEW
    for analyzer, least in ((_content, fewest), (_content, 1), (plain_words, 1)):
        counter = CountVectorizer(analyzer=analyzer, min_df=least, max_features=_MOST_WORDS, binary=True, dtype=float)
        try:
            return counter.fit_transform(texts)
        except ValueError:  # no such words at all
            continue
    return CountVectorizer(vocabulary=["none"], dtype=float).transform(texts)


def _content(text: str) -> list[str]:
    """Plain words that are neither small words of grammar nor numbers nor marks."""
    return [word for word in plain_words(text) if word not in _small_words() and word[0].isalpha()]


@cache
def _small_words() -> frozenset[str]:
    from sklearn.feature_extraction.text import ENGLISH_STOP_WORDS

    return frozenset(word for small in ENGLISH_STOP_WORDS for word in plain_words(small))


def _grouped(words: Any, weight: Floats, wanted: int, tries: int) -> Places:
    """The likeliest of several groupings: by nearness first, then refined by how usual words are in each group."""
    from sklearn.cluster import KMeans

    kinds = _alike(words, wanted)
    if kinds is not None:
        return kinds
    points = _points(words, weight, wanted)
    weighted = words.multiply(np.sqrt(weight) / np.sqrt(weight).mean()).tocsr()
    best, likeliest = np.zeros(words.shape[0], dtype=np.int64), -np.inf
    for seed in range(_SEED, _SEED + tries):
        first = KMeans(wanted, n_init=1, random_state=seed).fit_predict(points)
        groups, likelihood = _refined(weighted, first, wanted)
        if likelihood > likeliest:
            best, likeliest = groups, likelihood
    return best


def _alike(words: Any, wanted: int) -> Places | None:
    """The groups where there is nothing to choose: one for all, or one for each kind of text; else None."""
    if wanted == 1:
        return np.zeros(words.shape[0], dtype=np.int64)
    kinds: dict[bytes, int] = {}
    groups = np.zeros(words.shape[0], dtype=np.int64)
    for text in range(words.shape[0]):
        row = np.sort(words.indices[words.indptr[text] : words.indptr[text + 1]]).tobytes()
        groups[text] = kinds.setdefault(row, len(kinds))
        if len(kinds) > wanted:
            return None
    return groups


def _points(words: Any, weight: Floats, wanted: int) -> Floats:
    """Each text as a point of length 1, in as many dimensions as there are to be groups."""
    from sklearn.decomposition import TruncatedSVD
    from sklearn.preprocessing import normalize

    rarity = np.log(words.shape[0] / np.maximum(np.asarray(words.sum(axis=0)).ravel(), 1.0)) + 0.01
    rows = normalize(words.multiply(weight * np.sqrt(rarity)).tocsr())
    dimensions = min(wanted, rows.shape[1] - 1, rows.shape[0] - 1)
    if dimensions < 2:
        return np.asarray(rows.toarray(), dtype=np.float64)
    return np.asarray(normalize(TruncatedSVD(dimensions, random_state=_SEED).fit_transform(rows)))


def _refined(words: Any, first: Places, wanted: int) -> tuple[Places, float]:
    """A mixture of word frequencies, one for each group, fitted by expectation and maximisation; and its likelihood."""
    from scipy.special import logsumexp

    belief = np.full((len(first), wanted), (1 - _FIRST_BELIEF) / wanted)
    belief[np.arange(len(first)), first] += _FIRST_BELIEF
    likelihood = np.zeros((len(first), 1))
    across = words.T.tocsr()
    for _ in range(_ROUNDS):
        usual = np.log((across @ belief) + _UNSEEN)
        usual -= logsumexp(usual, axis=0)
        sizes = np.log(belief.sum(axis=0) + 1) - np.log(len(first) + wanted)
        joint = words @ usual + sizes
        likelihood = logsumexp(joint, axis=1, keepdims=True)
        belief = np.exp(joint - likelihood)
    return belief.argmax(axis=1), float(likelihood.sum())


def _found_number(words: Any) -> int:
    """The number of groups that is worth most: first among a few numbers, then among those next to the best."""
    rows = words[np.random.default_rng(_SEED).permutation(words.shape[0])[:_LOOKED_AT]]
    weight, most = telling(rows), max(1, rows.shape[0] // 2)
    found: dict[int, float] = {}

    def best(numbers: Sequence[int]) -> int:
        for number in numbers:
            if number <= most and number not in found:
                found[number] = worth(rows, _grouped(rows, weight, number, _QUICK_TRIES))
        return max(found, key=lambda number: (found[number], -number))

    place = _NUMBERS.index(best(_NUMBERS))
    around = _NUMBERS[max(place - 1, 0) : place + 2]
    return best(range(around[0], around[-1]))


def _in_order(groups: Places) -> list[int]:
    order: dict[int, int] = {}
    return [order.setdefault(group, len(order)) for group in groups.tolist()]
