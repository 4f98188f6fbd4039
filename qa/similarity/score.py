"""One score for the likeness of texts: 0 to 1, higher is more alike; rapidfuzz and TF-IDF are hidden behind it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from qa.similarity.views import text_views

Floats = NDArray[np.float32]


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
    views = text_views().fit([*texts, *others])
    alike: Floats = (views.rows(texts) @ views.rows(others).T).toarray()
    return np.clip(alike, 0.0, 1.0)
