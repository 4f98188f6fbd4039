"""Match texts to targets from example phrasings: a ridge on likeness, with a calibrated probability of being right."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.similarity.ridge import dual, dual_and_left_out
from qa.similarity.views import text_views

Floats = NDArray[np.float32]

# Strength of the ridge, by how many phrasings there are for a target: few need more.
_RIDGE_FEW, _RIDGE_MANY, _MANY = 1.0, 0.3, 30
# Up to this many phrasings each is left out in turn to calibrate; above it this share is held back once, and this
# share of the targets with all their phrasings.
_LEAVE_ONE_OUT, _HELD_BACK = 4_000, 0.1
# How much all texts about no target count beside those about one.
_STRANGE = 0.15
_SEED = 20260302
_RUNNERS_UP = 4
# How sharply scores, which lie between 0 and 1, are turned into shares.
_SHARPNESS = 6.0
# Texts matched at a time, which bounds the memory.
_BATCH = 4_096


class Match(NamedTuple):
    """What a text matched.

    Attributes:
        target: the best target.
        probability: calibrated, 0 to 1, that it is the right one.
        runners_up: the next targets with their probabilities, best first.
    """

    target: Any
    probability: float
    runners_up: tuple[tuple[Any, float], ...]


class Matcher:
    """Learns targets from phrasings and matches texts to them; the same phrasings give the same matches.

    >>> matcher = Matcher().fit(["how long does it keep", "can I freeze it", "what does a cup weigh", "grams in a cup"],
    ...                         ["storage", "storage", "weight", "weight"])
    >>> matcher.match(["can you freeze this?"])[0].target
    'storage'
    """

    def fit(self, phrasings: Sequence[str], targets: Sequence[Hashable]) -> Matcher:
        """Learn from phrasings, one target for each.

        Raises:
            ValueError: there are no phrasings, or not one target for each.
        """
        if not phrasings or len(phrasings) != len(targets):
            raise ValueError(f"{len(phrasings)} phrasings for {len(targets)} targets: give one target for each")
        place = {target: index for index, target in enumerate(dict.fromkeys(targets))}
        self._targets = list(place)
        column = np.array([place[target] for target in targets])
        self._views = text_views().fit(phrasings)
        rows = self._views.rows(phrasings)
        wanted = np.eye(len(place), dtype=np.float32)[column]
        kernel = (rows @ rows.T).toarray().astype(np.float32)
        ridge = _RIDGE_MANY if len(phrasings) >= _MANY * len(place) else _RIDGE_FEW
        self._calibration = _calibrated(*_trials(kernel, wanted, column, ridge))
        self._weights = rows.T @ dual(kernel, wanted, ridge)
        return self

    def match(self, texts: Sequence[str]) -> list[Match]:
        """The best target for each text, with its probability and the runners-up."""
        found: list[Match] = []
        for start in range(0, len(texts), _BATCH):
            found += self._match(texts[start : start + _BATCH])
        return found

    def _match(self, texts: Sequence[str]) -> list[Match]:
        rows = self._views.rows(texts)
        scores = np.asarray(rows @ self._weights)
        sure = self._calibration.predict_proba(_evidence(scores))[:, 1]
        order = np.argsort(-scores, axis=1, kind="stable")[:, : _RUNNERS_UP + 1]
        return [self._one(scores[i], order[i], float(sure[i])) for i in range(len(texts))]

    def _one(self, scores: Floats, order: NDArray[np.int64], sure: float) -> Match:
        """Share out what the best target leaves of certainty among the runners-up, by their scores."""
        best, *others = order.tolist()
        weights = np.exp(_SHARPNESS * (scores[others] - scores[best]))
        shares = (1 - sure) * weights / max(float(weights.sum()), 1e-9) if others else []
        shares = np.minimum(shares, sure)
        return Match(
            self._targets[best],
            round(sure, 6),
            tuple((self._targets[o], round(float(s), 6)) for o, s in zip(others, shares, strict=True)),
        )


def _trials(kernel: Floats, wanted: Floats, column: NDArray[np.int64], ridge: float) -> tuple[Any, Any, Any]:
    """Scores of phrasings never seen, of phrasings whose whole target was never seen, and the targets of the first."""
    count = len(kernel)
    if count <= _LEAVE_ONE_OUT:
        _, alone, strange = dual_and_left_out(kernel, wanted, ridge, range(count), column.tolist())
        return alone, strange, column
    random = np.random.default_rng(_SEED)
    held = random.random(count) < _HELD_BACK
    unknown = np.isin(column, random.permutation(wanted.shape[1])[: max(round(_HELD_BACK * wanted.shape[1]), 1)])
    kept = np.flatnonzero(~held & ~unknown)
    weights = dual(kernel[np.ix_(kept, kept)], wanted[kept], ridge)
    seen, strange_rows = np.flatnonzero(held & ~unknown), np.flatnonzero(unknown)
    return kernel[np.ix_(seen, kept)] @ weights, kernel[np.ix_(strange_rows, kept)] @ weights, column[seen]


def _evidence(scores: Floats) -> Floats:
    """What speaks for the best target: its score, and how far the scores are from being all alike."""
    shares = np.exp(_SHARPNESS * (scores - scores.max(axis=1, keepdims=True)))
    shares /= shares.sum(axis=1, keepdims=True)
    return np.column_stack([scores.max(axis=1), -(shares * np.log(shares + 1e-12)).sum(axis=1)])


def _calibrated(scores: Floats, strange: Floats, column: NDArray[np.int64]) -> Any:
    """A model of how often the best target is right, given the evidence.

    Phrasings without their target stand for texts that are about none of the targets. They count little, since most
    texts are about one, but they teach what such texts look like even where every phrasing finds its own target.
    """
    from sklearn.dummy import DummyClassifier
    from sklearn.linear_model import LogisticRegression

    right = scores.argmax(axis=1) == column
    if not right.any() or scores.shape[1] < 2:  # too few phrasings to learn from
        share = (right.sum() + 1) / (len(right) + 2)
        return DummyClassifier(strategy="prior").fit(np.zeros((100, 2)), np.arange(100) < round(100 * share))
    evidence = np.vstack([_evidence(scores), _evidence(strange)])
    outcome = np.concatenate([right, np.zeros(len(strange), dtype=bool)])
    weight = np.concatenate([np.ones(len(right)), np.full(len(strange), _STRANGE * len(right) / max(len(strange), 1))])
    return LogisticRegression(C=10.0, random_state=_SEED).fit(evidence, outcome, weight)
