"""Draw the bounds between groups anew where they tell apart best: learn the groups from their surest texts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from qa.similarity.encoder import of_length_one
from qa.similarity.plain import plain_words
from qa.similarity.sense import Sense

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
# What nearness in meaning to a group counts for beside the bound between words: half of it gains less on titles without
# the group's own word, twice of it loses where nearly all have it.
_MEANING = 1.0
_SEED = 20260302


def sharpened(texts: Sequence[str], groups: Places, wanted: int) -> Places:
    """The groups after all texts were moved to where they fit best, by words and by meaning.

    By words a linear classifier says that, fitted on the surest texts of each group, by meaning how near a text is to
    the middle of these.
    """
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.svm import LinearSVC

    meant = Sense.fit(texts).known
    rows = TfidfVectorizer(analyzer=plain_words, sublinear_tf=True, min_df=2).fit_transform(texts)
    sure = np.zeros(len(groups))
    for turn in range(_ROUNDS):
        kept = _surest(groups, sure, wanted) if turn else np.arange(len(groups))
        if len(set(groups[kept].tolist())) < 3:  # two groups have one score between them, and one has none
            return groups
        model = LinearSVC(C=_BENDING, random_state=_SEED).fit(rows[kept], groups[kept])
        middles = np.stack([meant[kept[groups[kept] == group]].mean(axis=0) for group in model.classes_])
        scores = model.decision_function(rows) + _MEANING * (meant @ of_length_one(middles).T)
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
