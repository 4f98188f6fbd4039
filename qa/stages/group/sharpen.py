"""Draw the bounds between groups anew where they tell apart best: learn the groups from their surest texts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from qa.similarity.encoder import of_length_one
from qa.similarity.plain import plain_words

Floats = NDArray[np.float64]
Places = NDArray[np.int64]

# A mixture asks how usual each word is in a group; a straight bound between groups asks what tells them apart, rare
# words included. Of rounds 1 to 4, 2 do best on tagged titles of real projects; later ones let large groups grow.
_ROUNDS = 2
# The surest part of each group to learn from in later rounds, and how many at most, as a part of an equal share of all
# texts: what is doubtful in a group is not learned, and no large group outweighs the others.
_SUREST, _MOST = 0.8, 0.9
# How much the bounds may bend to single texts, inverse to the regularisation: as good as any from 0.05 to 1, since many
# texts are in the wrong group at first.
_BENDING = 0.1
# What nearness in meaning to a group counts for beside the bound between words: of 1, 2 and 4 the best on titles.
_MEANING = 2.0
_SEED = 20260302


def sharpened(texts: Sequence[str], looked: Places, found: Places, meant: NDArray[np.float32]) -> Places:
    """A group for each text, where it fits best by words and by meaning.

    By words a linear classifier says that, fitted on the surest texts of each group, by meaning how near a text is to
    the middle of these.

    Args:
        texts: all of them.
        looked: the places of those that were grouped.
        found: the group of each of these.
        meant: what each of these means, a row of length 1.
    """
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.svm import LinearSVC

    rows = TfidfVectorizer(analyzer=plain_words, sublinear_tf=True, min_df=2).fit_transform(texts)
    wanted = int(found.max()) + 1
    if wanted == 1:
        return np.zeros(len(texts), dtype=np.int64)
    groups, sure, kept = np.zeros(len(texts), dtype=np.int64), np.zeros(len(texts)), looked
    groups[looked] = found
    for turn in range(_ROUNDS):
        kept = _surest(groups, sure, wanted) if turn else looked
        if len(set(groups[kept].tolist())) < 2:  # one has taken in all others
            return groups
        model = LinearSVC(C=_BENDING, random_state=_SEED).fit(rows[kept], groups[kept])
        scores = model.decision_function(rows)
        if scores.ndim == 1:  # two groups have one score between them
            scores = np.column_stack([-scores, scores])
        learned = np.isin(looked, kept)
        own = groups[looked]
        middles = np.stack([meant[learned & (own == group)].sum(axis=0) for group in model.classes_])
        scores[looked] += _MEANING * (meant @ of_length_one(middles).T)
        groups = model.classes_[scores.argmax(axis=1)]
        best = np.partition(scores, -2, axis=1)
        sure = best[:, -1] - best[:, -2]
    return groups


def _surest(groups: Places, sure: Floats, wanted: int) -> Places:
    """Places of the texts that are surest to be in their group."""
    most = len(groups) / wanted * _MOST
    found = []
    for group in np.unique(groups):
        members = np.flatnonzero(groups == group)
        count = max(1, int(min(len(members) * _SUREST, most)))
        found.append(members[np.argsort(-sure[members], kind="stable")[:count]])
    return np.sort(np.concatenate(found))
