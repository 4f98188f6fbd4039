"""Group any texts by what they are about; deterministic, and the number of groups is found when it is not given."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from qa.similarity.plain import plain_words
from qa.similarity.questions import vectors
from qa.similarity.sense import Sense
from qa.stages.group.sharpen import sharpened
from qa.stages.group.worth import worth

Floats = NDArray[np.float32]
Places = NDArray[np.int64]

# So many texts are looked at for what they mean, which takes most of the time; the others join by their words.
_LOOKED_AT = 8_000
# A word must be in this many texts to tell groups apart; in few texts, fewer must do, and there is little to sharpen.
_FEWEST, _FEWEST_OF_FEW, _FEW = 3, 1, 300
# Only the commonest words: a rare one hardly tells how many groups there are.
_MOST_WORDS = 4_000
# Groupings tried from different beginnings, of which the closest is kept; fewer while the number is sought.
_TRIES, _QUICK_TRIES = 8, 3
# Numbers of groups tried first.
_NUMBERS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 22, 27, 33, 40, 50, 60)
# Figures to which directions are compared, so that texts of one meaning are one point.
_FIGURES = 4
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
    looked = np.linspace(0, len(ordered) - 1, min(len(ordered), _LOOKED_AT)).astype(np.int64)
    seen = [ordered[place] for place in looked]
    meant = Sense.fit(seen, vectors).known
    wanted = n_groups or _found_number(_words(seen), meant)
    found = _grouped(meant, wanted, _TRIES)
    groups = np.empty(len(texts), dtype=np.int64)
    groups[order] = found if len(texts) < _FEW else sharpened(ordered, looked, found, meant)
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


def _grouped(points: Floats, wanted: int, tries: int) -> Places:
    """The closest of several groupings by nearness; one group for each kind of text if there are no more."""
    from sklearn.cluster import KMeans

    kinds: Places = np.unique(points.round(_FIGURES), axis=0, return_inverse=True)[1].ravel()
    if wanted == 1 or int(kinds.max()) < wanted:
        return kinds if wanted > 1 else np.zeros(len(points), dtype=np.int64)
    return np.asarray(KMeans(wanted, n_init=tries, random_state=_SEED).fit_predict(points), dtype=np.int64)


def _found_number(words: Any, points: Floats) -> int:
    """The number of groups that is worth most: first among a few numbers, then among those next to the best."""
    most = max(1, len(points) // 2)
    found: dict[int, float] = {}

    def best(numbers: Sequence[int]) -> int:
        for number in numbers:
            if number <= most and number not in found:
                found[number] = worth(words, _grouped(points, number, _QUICK_TRIES))
        return max(found, key=lambda number: (found[number], -number))

    place = _NUMBERS.index(best(_NUMBERS))
    around = _NUMBERS[max(place - 1, 0) : place + 2]
    return best(range(around[0], around[-1]))


def _in_order(groups: Places) -> list[int]:
    order: dict[int, int] = {}
    return [order.setdefault(group, len(order)) for group in groups.tolist()]
