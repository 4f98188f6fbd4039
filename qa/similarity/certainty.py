"""How sure a match is: what speaks for the best target, and a model of how often that much evidence is right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.similarity.plain import plain_words

Floats = NDArray[np.float32]
Places = NDArray[np.int64]
Flags = NDArray[np.bool_]

# Scores differ by hundredths where it matters; this spreads them out before they become shares.
SHARPNESS = 8.0
# A word counts as a target's own if a fifth of its phrasings have it.
_OWN_WORD = 0.2
# Texts about something else are taken to be a twentieth of what comes, when probabilities are set.
_ELSEWHERE = 0.05
# A wrong match of a text that has a target ranks half-way between a right one and one of a text that has none: at 0,
# strange texts are told worse (of phrasings without target 5 % against 15 %, keeping 95 % of others), at 1, wrong ones.
_WRONG = 0.5
_SEED = 20260302


class Outcomes(NamedTuple):
    """What became of phrasings matched by a model that never saw them.

    Attributes:
        evidence: a row for each.
        right: whether the best target was the right one.
        known: whether the model knew the right target at all.
    """

    evidence: Floats
    right: Flags
    known: Flags


class Vocabulary:
    """Which words texts have, as sparse rows of 0 and 1, and how many words they have that no phrasing has."""

    def __init__(self, phrasings: Sequence[str]) -> None:
        """Learn the words of the phrasings."""
        from sklearn.feature_extraction.text import CountVectorizer

        self._counter = CountVectorizer(analyzer=plain_words, binary=True, dtype=np.float32).fit(phrasings)

    def rows(self, texts: Sequence[str]) -> tuple[Any, Floats]:
        """Words of the texts, and the number of each text's words that are unknown."""
        rows = self._counter.transform(texts)
        words = np.array([len(set(plain_words(text))) for text in texts], dtype=np.float32)
        return rows, words - np.diff(rows.indptr).astype(np.float32)


class Usage:
    """How rare each word is, and how usual with each target."""

    def __init__(self, rows: Any, column: Places, targets: int) -> None:
        """Learn from rows of a vocabulary and the target of each."""
        from scipy.sparse import csr_matrix

        count = rows.shape[0]
        found = np.asarray(rows.sum(axis=0)).ravel()
        self._rarest = np.float32(np.log(1 + count))
        self._rarity = (self._rarest - np.log1p(found)).astype(np.float32)
        self._met = found > 0
        member = csr_matrix((np.ones(count, np.float32), (column, np.arange(count))), shape=(targets, count))
        sizes = np.maximum(np.asarray(member.sum(axis=1)), 1)
        usual: Any = csr_matrix(member @ rows).multiply(1 / (_OWN_WORD * sizes))
        self._usual = usual.tocsr().minimum(1)

    def shares(self, rows: Any, unknown: Floats, best: Places) -> Floats:
        """For each text the share of its words, weighed by rarity, that is known, and that is usual with its target."""
        whole = np.maximum(rows @ self._rarity + unknown * self._rarest, 1e-6)
        known = rows @ (self._rarity * self._met)
        usual = rows.multiply(self._usual[best]).tocsr() @ self._rarity
        return np.asarray(np.column_stack([known, usual]) / whole[:, None], dtype=np.float32)


def evidence(scores: Floats, nearest: Floats, closest: Floats, shares: Floats) -> Floats:
    """What speaks for the best target: score, lead, lack of doubt, the nearest phrasings (one in meaning), words."""
    best = scores.max(axis=1)
    lead = best - np.partition(scores, -2, axis=1)[:, -2] if scores.shape[1] > 1 else best
    odds = np.exp(SHARPNESS * (scores - best[:, None]))
    odds /= odds.sum(axis=1, keepdims=True)
    doubt = -(odds * np.log(odds + 1e-12)).sum(axis=1)
    return np.column_stack([best, lead, doubt, nearest, closest, shares]).astype(np.float32)


class Certainty:
    """The probability that the best target is right, learned from outcomes."""

    def __init__(self, outcomes: Outcomes) -> None:
        """Learn what evidence tells right from wrong, then set the probabilities to how often it did."""
        right, known = outcomes.right, outcomes.known
        self._ranks: Any = None
        # With next to nothing to go by, be as sure as that many trials allow (Laplace's rule of succession).
        self._usual = float((right.sum() + 1) / (known.sum() + 2))
        if right.all() or not right.any():
            return
        elsewhere = known.sum() / max(int((~known).sum()), 1)
        weight = np.where(known, 1.0, elsewhere)
        worth = np.where(right, 1.0, np.where(known, _WRONG, 0.0))
        # A row that is worth half counts half as a success and half as a failure.
        self._ranks = _curved().fit(
            np.vstack([outcomes.evidence, outcomes.evidence]),
            np.repeat([True, False], len(right)),
            model__sample_weight=np.concatenate([weight * worth, weight * (1 - worth)]),
        )
        self._level = _straight().fit(
            self._rank(outcomes.evidence),
            right,
            sample_weight=np.where(known, 1.0, elsewhere * _ELSEWHERE / (1 - _ELSEWHERE)),
        )

    def of(self, rows: Floats) -> NDArray[np.float64]:
        """The probability for each row of evidence."""
        if self._ranks is None or not len(rows):
            return np.full(len(rows), self._usual)
        return np.asarray(self._level.predict_proba(self._rank(rows))[:, 1], dtype=np.float64)

    def _rank(self, rows: Floats) -> Any:
        return self._ranks.decision_function(rows).reshape(-1, 1)


def _curved() -> Any:
    """A logistic model with squares and products of the evidence."""
    from sklearn.linear_model import LogisticRegression
    from sklearn.pipeline import Pipeline
    from sklearn.preprocessing import PolynomialFeatures, StandardScaler

    model = LogisticRegression(C=0.1, max_iter=2000, random_state=_SEED)
    return Pipeline(
        [("scale", StandardScaler()), ("curve", PolynomialFeatures(2, include_bias=False)), ("model", model)]
    )


def _straight() -> Any:
    from sklearn.linear_model import LogisticRegression

    return LogisticRegression(C=10.0, random_state=_SEED)
