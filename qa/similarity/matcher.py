"""Match texts to targets from example phrasings: a ridge on likeness, with a calibrated probability of being right.

Two texts are alike in their words, in many ways of looking at them, and in what they mean to an encoder that was
trained on other text (`questions`); each sees what the other misses.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.similarity.bags import Bag, told, weighed
from qa.similarity.certainty import SHARPNESS, Certainty, Outcomes, Usage, Vocabulary, evidence
from qa.similarity.plain import runs_across, sense_pairs, senses
from qa.similarity.products import Products
from qa.similarity.questions import both
from qa.similarity.ridge import dual
from qa.similarity.sense import Sense
from qa.similarity.views import letter_runs, words_and_pairs

Floats = NDArray[np.float32]
Places = NDArray[np.int64]
Flags = NDArray[np.bool_]

# Strength of the ridge: the best of 0.05 to 1 on phrasings of 286 targets, and as good as any on 30 tags of titles.
_RIDGE = 0.1
# Weight of a text's mean likeness to a target's phrasings beside the ridge: gains half a percent on the same phrasings.
_MEAN = 0.6
# Ways of looking at what a text means, and at how it is worded, with their shares of each.
_MEANT = ((senses, 0.67), (sense_pairs, 0.11), (letter_runs, 0.22))
_WORDED = ((words_and_pairs, 0.5), (runs_across, 0.5))
# With this many phrasings for each target the wording says as much as the meaning: with many, most wordings are known;
# with few, hardly any.
_EVEN = 120.0
# The share of the meaning as the encoders see it in how alike two texts are: with ten examples for each of 20 tags 0.81
# of titles are right (0.78 with one encoder), with ten phrasings for each of 97 answers 0.88 (0.86).
_ENCODED = 0.75
# Learned along with the phrasings, so that there are words to learn.
_ANY_TEXT = "any text"
# Phrasings and targets are each held back by fifths to learn certainty: all five, or one if there are many phrasings,
# when more would tell little more and take long.
_FIFTHS, _ONE_ABOVE = 5, 6_000
# With fewer targets none can be held back, since those left would hardly be told apart.
_FEWEST_TO_SPARE_ONE = 3
# More phrasings than this are thinned out evenly, since memory grows with their square: 1 GB here.
_MOST = 16_000
_SEED = 20260302
_RUNNERS_UP = 4
# Texts matched at a time, which bounds the memory; filled up with empty ones to whole blocks, since sums of floats can
# differ in the last place with the size of a matrix, and what a text matches must not depend on what is matched beside.
_BATCH, _BLOCK = 1_024, 64


class Match(NamedTuple):
    """What a text matched.

    Attributes:
        target: the best target.
        probability: calibrated, 0 to 1, that it is the right one; 0 if nothing speaks for any.
        runners_up: the next targets with their probabilities, best first.
    """

    target: Any
    probability: float
    runners_up: tuple[tuple[Any, float], ...]


class Matcher:
    """Learns targets from phrasings and matches texts to them; the same phrasings, in any order, give the same matches.

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
        texts, self._targets, column = _sorted(phrasings, targets)
        worded = len(texts) / (len(texts) + _EVEN * len(self._targets))
        looks = [(look, share * (1 - worded)) for look, share in _MEANT]
        looks += [(look, share * worded) for look, share in _WORDED]
        self._bags = [Bag(look, texts) for look, _ in looks]
        self._shares = [share for _, share in looks]
        parts = [bag.rows(texts) for bag in self._bags]
        self._sense = Sense.fit(texts, both)
        meant = self._sense.known
        self._vocabulary = Vocabulary([*texts, _ANY_TEXT])
        words = self._vocabulary.rows(texts)[0]
        self._certainty = Certainty(_outcomes(_Known(parts, self._shares, meant, words, column, len(self._targets))))
        self._told = [told(part, column, len(self._targets)) for part in parts]
        rows = weighed(parts, self._told, self._shares)
        self._products = Products(rows)
        self._usage = Usage(words, column, len(self._targets))
        kernel = _alike(self._products.of(rows), meant @ meant.T)
        self._weights = _weights(kernel, _wanted(column, len(self._targets)))
        return self

    def match(self, texts: Sequence[str]) -> list[Match]:
        """The best target for each text, with its probability and the runners-up."""
        found: list[Match] = []
        for start in range(0, len(texts), _BATCH):
            batch = list(texts[start : start + _BATCH])
            found += self._match([*batch, *[""] * (-len(batch) % _BLOCK)])[: len(batch)]
        return found

    def _match(self, texts: Sequence[str]) -> list[Match]:
        rows = weighed([bag.rows(texts) for bag in self._bags], self._told, self._shares)
        worded = self._products.of(rows)
        meant = self._sense.of(texts) @ self._sense.known.T
        something, closest = worded.max(axis=1) > 0, meant.max(axis=1)
        kernel = _alike(worded, meant)
        scores, nearest = kernel @ self._weights, kernel.max(axis=1)
        shares = self._usage.shares(*self._vocabulary.rows(texts), scores.argmax(axis=1))
        sure = np.where(something, self._certainty.of(evidence(scores, nearest, closest, shares)), 0.0)
        order = np.argsort(-scores, axis=1, kind="stable")[:, : _RUNNERS_UP + 1]
        return [self._one(scores[i], order[i], float(sure[i])) for i in range(len(texts))]

    def _one(self, scores: Floats, order: Places, sure: float) -> Match:
        """Share out what the best target leaves of certainty among the runners-up, by their scores."""
        best, *others = order.tolist()
        sure = round(sure, 6)
        weights = np.exp(SHARPNESS * (scores[others] - scores[best]).astype(float))
        shares = (1 - sure) * weights / max(float(weights.sum()), 1e-9) if others else []
        shares = np.floor(np.minimum(shares, sure) * 1e6) / 1e6  # rounded up they could come to more than is left
        return Match(
            self._targets[best],
            sure,
            tuple((self._targets[o], float(s)) for o, s in zip(others, shares, strict=True)),
        )


def _sorted(phrasings: Sequence[str], targets: Sequence[Hashable]) -> tuple[list[str], list[Any], Places]:
    """Phrasings in an order of their own, the targets, and the place of each phrasing's target among these."""
    pairs = sorted(zip(phrasings, targets, strict=True), key=lambda pair: (pair[0], repr(pair[1])))
    pairs = pairs[:: -(-len(pairs) // _MOST)]
    place = {target: index for index, target in enumerate(dict.fromkeys(target for _, target in pairs))}
    return [text for text, _ in pairs], list(place), np.array([place[target] for _, target in pairs])


def _alike(worded: Floats, meant: Floats) -> Floats:
    """How alike texts are in words and meaning, bent so that little counts for less: half itself, half its square."""
    likeness: Floats = (1 - _ENCODED) * worded + _ENCODED * meant
    likeness *= (1 + likeness) / 2
    return likeness


def _weights(kernel: Floats, wanted: Floats) -> Floats:
    """The weight of likeness to each phrasing in each target's score."""
    mean = wanted / np.maximum(wanted.sum(axis=0), 1)
    return np.asarray(dual(kernel, wanted, _RIDGE) + _MEAN * mean, dtype=np.float32)


def _wanted(column: Places, targets: int) -> Floats:
    return np.eye(targets, dtype=np.float32)[column]


class _Known(NamedTuple):
    """Phrasings to learn from: features by way of looking, each way's share, meaning, words, and targets."""

    parts: list[Any]
    shares: list[float]
    meant: Floats
    words: Any
    column: Places
    targets: int


def _outcomes(known: _Known) -> Outcomes:
    """Match phrasings by models that saw neither them nor, for some, any other phrasing of their target."""
    column, targets = known.column, known.targets
    random = np.random.default_rng(_SEED)
    part = _dealt(random.permutation(len(column)), column)
    left_out = random.permutation(targets) % _FIFTHS
    found = []
    for fifth in range(_FIFTHS if len(column) <= _ONE_ABOVE else 1):
        away = (left_out[column] == fifth) & (targets >= _FEWEST_TO_SPARE_ONE)
        held = np.flatnonzero((part == fifth) | (away & (part == (fifth + 1) % _FIFTHS)))
        kept = np.flatnonzero((part != fifth) & ~away)
        if len(held) and len(kept):
            found.append(_tried(known, kept, held))
    if not found:
        return Outcomes(np.zeros((0, 7), np.float32), np.zeros(0, bool), np.zeros(0, bool))
    return Outcomes(*(np.concatenate(parts) for parts in zip(*found, strict=True)))


def _dealt(order: Places, column: Places) -> Places:
    """A fifth for each phrasing, dealt out in turn within each target."""
    part, seen = np.zeros(len(column), dtype=np.int64), Counter[int]()
    for row in order.tolist():
        target = int(column[row])
        part[row] = (seen[target] + target) % _FIFTHS
        seen[target] += 1
    return part


def _tried(known: _Known, kept: Places, held: Places) -> Outcomes:
    """Learn from the kept phrasings, weights of features included, and match those held back."""
    column, targets = known.column, known.targets
    weights = [told(part[kept], column[kept], targets) for part in known.parts]
    rows = weighed([part[kept] for part in known.parts], weights, known.shares)
    products = Products(rows)
    meant = known.meant[held] @ known.meant[kept].T
    across = _alike(products.of(weighed([part[held] for part in known.parts], weights, known.shares)), meant)
    own = _alike(products.of(rows), known.meant[kept] @ known.meant[kept].T)
    scores = across @ _weights(own, _wanted(column[kept], targets))
    scores[:, np.setdiff1d(np.arange(targets), column[kept])] = -1.0
    best = scores.argmax(axis=1)
    met = np.isin(column[held], column[kept])
    usage = Usage(known.words[kept], column[kept], targets)
    shares = usage.shares(known.words[held], np.zeros(len(held), np.float32), best)
    return Outcomes(evidence(scores, across.max(axis=1), meant.max(axis=1), shares), (best == column[held]) & met, met)
