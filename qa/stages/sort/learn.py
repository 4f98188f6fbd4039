"""Learn kinds from labelled comments: a ridge on signs, words and meaning, then a probability for each kind.

One model serves whole comments and, to see which sentence earns a kind, sentences alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from qa.records import KINDS, Example
from qa.similarity.odds import Odds
from qa.similarity.ridge import dual_and_left_out
from qa.similarity.sense import Sense
from qa.similarity.views import Views, word_parts, words_and_pairs
from qa.stages.sort.signs import signs_of
from qa.text.sentences import pieces_of

Floats = NDArray[np.float64]

# Strength of the ridge, chosen on voices held back; between 0.5 and 3 the score hardly moves.
_RIDGE = 1.0
# Below this probability no kind is held, however rare it is.
_LOWEST, _HIGHEST = 0.2, 0.5


@dataclass(frozen=True, slots=True)
class KindModel:
    """What was learned.

    Attributes:
        views: turn texts into rows of features.
        weights: scores of each kind of KINDS for each feature.
        sense: what the labelled comments mean.
        near: scores of each kind for nearness to each of them.
        base: the scores of a text without features.
        comments: for each kind a model that turns all scores of a comment into a probability.
        held: for each kind the probability from which on it is held.
    """

    views: Views
    weights: Floats
    sense: Sense
    near: Floats
    base: Floats
    comments: tuple[Odds, ...]
    held: tuple[float, ...]


def learn_kinds(examples: Sequence[Example]) -> KindModel:
    """Fit the kinds on labelled comments; the same examples give the same model.

    Probabilities are fitted on scores that leave out the writer's whole voice, since a voice never heard before is what
    the model will meet.

    Raises:
        ValueError: there are no examples.
    """
    if not examples:
        raise ValueError("kinds cannot be learned from no examples: give labelled comments")
    texts = [example.text for example in examples]
    labels = np.array([[kind in example.kinds for kind in KINDS] for example in examples], dtype=float)
    views = Views(*_VIEWS, fewest=2 if len(texts) >= 50 else 1).fit(texts)
    rows, sense, base = views.rows(texts), Sense.fit(texts), labels.mean(axis=0)
    kernel = (rows @ rows.T).toarray() + sense.nearness(texts)
    weights, left_out = dual_and_left_out(kernel, labels - base, _RIDGE, [example.voice for example in examples])
    evidence = np.column_stack([left_out + base, _shape_of(texts, [example.parent_text for example in examples])])
    comments = tuple(Odds.fit(evidence, labels[:, column], strength=10.0) for column in range(len(KINDS)))
    sure = np.column_stack([odds.of(evidence) for odds in comments])
    held = tuple(_best_cut(sure[:, column], labels[:, column]) for column in range(len(KINDS)))
    return KindModel(views, rows.T @ weights, sense, np.asarray(weights, dtype=float), base, comments, held)


def signs_in(text: str) -> list[str]:
    """Runs of signs of each sentence, those of the first and the last sentence once more as such."""
    spans = pieces_of(text)
    signs: list[str] = []
    for place, (start, end) in enumerate(spans):
        own = _sign_grams(text[start:end])
        signs += own
        signs += [f"first {sign}" for sign in own[:60]] if place == 0 else []
        signs += [f"last {sign}" for sign in own[:60]] if place == len(spans) - 1 else []
    return signs


def _sign_grams(sentence: str) -> list[str]:
    """Runs of one to three signs of a sentence; '^' and '$' mark its ends."""
    signs = signs_of(sentence)
    run = ["^", *signs[1:], "$"]
    pairs = [f"{one} {other}" for one, other in pairwise(run)]
    return [*signs, *pairs, *(f"{pair} {sign}" for pair, sign in zip(pairs, run[2:], strict=False))]


# How much each view counts: signs of grammar, words and pairs, beginnings and endings of words.
_VIEWS = ((signs_in, 1.0), (words_and_pairs, 1.0), (word_parts, 0.7))


def _shape_of(texts: Sequence[str], parents: Sequence[str]) -> Floats:
    """What the whole text looks like: length, whether and where it has a question mark, whether it is a reply."""
    shapes = [
        [np.log1p(len(text)), "?" in text, text.rstrip().endswith("?"), bool(parent), "?" in parent]
        for text, parent in zip(texts, parents, strict=True)
    ]
    return np.array(shapes, dtype=float)


def _best_cut(sure: Floats, label: Floats) -> float:
    """The probability from which on holding a kind gives the best balance of missed and wrong (F1)."""
    order = np.argsort(-sure, kind="stable")
    hits = np.cumsum(label[order])
    f1 = 2 * hits / (np.arange(1, len(order) + 1) + max(label.sum(), 1))
    return float(np.clip(sure[order[int(f1.argmax())]], _LOWEST, _HIGHEST))


def scored(texts: Sequence[str], model: KindModel) -> Floats:
    """The raw score of each kind for each text, whole comments or sentences."""
    return glanced_at(texts, model) + model.sense.scores(texts, model.near)


def glanced_at(texts: Sequence[str], model: KindModel) -> Floats:
    """The part of each score that features alone give: a tenth of the time."""
    if not texts:
        return np.zeros((0, len(KINDS)))
    return np.asarray(model.views.rows(texts) @ model.weights) + model.base


def probabilities(texts: Sequence[str], parents: Sequence[str], scores: Floats, model: KindModel) -> Floats:
    """How likely each whole comment is of each kind."""
    if not texts:
        return scores
    evidence = np.column_stack([scores, _shape_of(texts, parents)])
    return np.column_stack([odds.of(evidence) for odds in model.comments])
