"""Two plain rivals, measured beside ours in the same run: the nearest known text by BM25 and by TF-IDF.

A rival answers with whatever the nearest labelled comment, or the nearest phrasing of a standing answer, says. BM25 as
in Robertson and Zaragoza, "The Probabilistic Relevance Framework: BM25 and Beyond" (2009), with k1 = 1.2 and b = 0.75.
The formula is from memory.

>>> int(bm25(["how do i store flax", "how heavy is flax"], ["what would flax weigh, how heavy"])[0])
1
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

Places = NDArray[np.int64]
Rival = Callable[[Sequence[str], Sequence[str]], Places]

_K1, _B = 1.2, 0.75
_ROWS_AT_ONCE = 512
_WORD = re.compile(r"\w+")


def bm25(known: Sequence[str], texts: Sequence[str]) -> Places:
    """The place of the known text nearest to each text; the first of equals."""
    if not texts:
        return np.zeros(0, dtype=np.int64)
    from sklearn.feature_extraction.text import CountVectorizer

    counter = CountVectorizer(analyzer=_words, dtype=np.float64)
    counts = counter.fit_transform(known).tocsr()
    lengths = np.asarray(counts.sum(axis=1)).ravel()
    in_texts = np.bincount(counts.indices, minlength=counts.shape[1])
    rarity = np.log1p((len(known) - in_texts + 0.5) / (in_texts + 0.5))
    rows = np.repeat(np.arange(len(known)), np.diff(counts.indptr))
    filled = _K1 * (1 - _B + _B * lengths / max(lengths.mean(), 1e-9))
    counts.data = rarity[counts.indices] * counts.data * (_K1 + 1) / (counts.data + filled[rows])
    asked = counter.transform(texts)
    asked.data[:] = 1.0
    return _nearest(asked, counts)


def nearest_neighbour(known: Sequence[str], texts: Sequence[str]) -> Places:
    """The same by the cosine of plain TF-IDF rows of words."""
    if not texts:
        return np.zeros(0, dtype=np.int64)
    from sklearn.feature_extraction.text import TfidfVectorizer

    rows = TfidfVectorizer(analyzer=_words).fit(known)
    return _nearest(rows.transform(texts), rows.transform(known))


def _words(text: str) -> list[str]:
    return _WORD.findall(text.lower())


def _nearest(texts: Any, known: Any) -> Places:
    parts = [
        np.asarray((texts[at : at + _ROWS_AT_ONCE] @ known.T).toarray()).argmax(axis=1)
        for at in range(0, texts.shape[0], _ROWS_AT_ONCE)
    ]
    return np.concatenate(parts)


RIVALS: dict[str, Rival] = {"BM25": bm25, "nearest neighbour": nearest_neighbour}
