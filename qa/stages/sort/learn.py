"""Learn kinds from labelled comments; which sentence earns which of its comment's labels is worked out on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from qa.records import KINDS, Cleaned, Example
from qa.stages.sort.signs import signs_of
from qa.text.sentences import pieces_of

Floats = NDArray[np.float64]

# Each label of a comment is first given to all its sentences, then this often to those that show it best.
_ROUNDS = 2
# Strength of the ridge, chosen on voices held back; between 0.5 and 4 the score hardly moves.
_RIDGE = 1.0
_FOLDS = 4
_SEED = 20260302


@dataclass(frozen=True, slots=True)
class KindModel:
    """What was learned: signs to columns, a linear model of sentences, and one of comments on top of it.

    Attributes:
        vectorizer: turns sentences into rows.
        sentences: scores each kind for a sentence.
        comments: one model for each kind of KINDS, a probability for a whole comment.
    """

    vectorizer: Any
    sentences: Any
    comments: tuple[Any, ...]


def grams(sentence: str) -> list[str]:
    """Runs of one to three signs, and the plain words, of a sentence; '^' marks its beginning."""
    signs = signs_of(sentence)
    run = ["^", *signs[1:]]
    pairs = [f"{a} {b}" for a, b in pairwise(run)]
    triples = [f"{a} {b}" for a, b in zip(pairs, run[2:], strict=False)]
    words = [f"={word}" for word in sentence.lower().split()]
    return [*signs, *pairs, *triples, *words]


def rows_of(texts: Sequence[str]) -> tuple[list[str], list[int]]:
    """All sentences of the texts in one list, and for each the index of its text."""
    sentences, owners = [], []
    for index, text in enumerate(texts):
        for start, end in pieces_of(text):
            sentences.append(text[start:end])
            owners.append(index)
    return sentences, owners


def learn_kinds(examples: Sequence[Example]) -> KindModel:
    """Fit the kinds on labelled comments; the same examples give the same model.

    Voices, not rows, are held back when the comment model is fitted, so that it learns how far sentences can be trusted
    in a voice never heard before.
    """
    from sklearn.feature_extraction.text import TfidfVectorizer

    texts = [example.text for example in examples]
    sentences, owners = rows_of(texts)
    labels = np.array([[kind in example.kinds for kind in KINDS] for example in examples], dtype=float)
    owner = np.array(owners)
    vectorizer = TfidfVectorizer(analyzer=grams, sublinear_tf=True, min_df=2, dtype=np.float32)
    rows = vectorizer.fit_transform(sentences)
    scores = np.zeros((len(sentences), len(KINDS)))
    for train, held in _folds([example.voice for example in examples]):
        inside, outside = np.isin(owner, train), np.isin(owner, held)
        scores[outside] = _fitted(rows[inside], labels, owner[inside]).predict(rows[outside])
    evidence = evidence_of(scores, owner, len(texts), texts)
    comments = tuple(_comment_model(evidence, labels[:, column]) for column in range(len(KINDS)))
    return KindModel(vectorizer, _fitted(rows, labels, owner), comments)


def _folds(voices: Sequence[str]) -> list[tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """Split examples into parts that share no voice: indices to learn from, indices held back."""
    names = sorted(set(voices))
    folds = min(_FOLDS, len(names))
    order = np.random.default_rng(_SEED).permutation(len(names))
    fold_of = {names[index]: place % max(folds, 1) for place, index in enumerate(order)}
    fold = np.array([fold_of[voice] for voice in voices])
    if folds < 2:
        return [(np.arange(len(voices)), np.arange(len(voices)))]
    return [(np.flatnonzero(fold != part), np.flatnonzero(fold == part)) for part in range(folds)]


def _fitted(rows: Any, labels: Floats, owner: NDArray[np.int64]) -> Any:
    """A linear model of sentences from labels that are known only for whole comments."""
    from sklearn.linear_model import Ridge

    wanted = labels[owner]
    model = Ridge(alpha=_RIDGE, solver="lsqr")
    for _ in range(_ROUNDS):
        model.fit(rows, wanted)
        wanted = _assigned(model.predict(rows), labels, owner)
    return model.fit(rows, wanted)


def _assigned(scores: Floats, labels: Floats, owner: NDArray[np.int64]) -> Floats:
    """Give each sentence the best of its comment's labels, and each label at least its best sentence."""
    allowed = np.where(labels[owner] > 0, scores, -np.inf)
    wanted = np.zeros_like(scores)
    has_any = np.isfinite(allowed).any(axis=1)
    wanted[np.flatnonzero(has_any), allowed[has_any].argmax(axis=1)] = 1.0
    starts = np.flatnonzero(np.r_[True, owner[1:] != owner[:-1]])
    best = np.maximum.reduceat(allowed, starts, axis=0)
    best_of_own = np.repeat(best, np.diff(np.r_[starts, len(owner)]), axis=0)
    wanted[(allowed >= best_of_own) & np.isfinite(allowed)] = 1.0
    return wanted


def evidence_of(scores: Floats, owner: NDArray[np.int64], count: int, texts: Sequence[str]) -> Floats:
    """What a comment's sentences say together: per kind the highest, mean and last score; and how long it is."""
    width = scores.shape[1]
    evidence = np.zeros((count, 3 * width + 3))
    if len(owner):
        starts = np.flatnonzero(np.r_[True, owner[1:] != owner[:-1]])
        sizes = np.diff(np.r_[starts, len(owner)])
        here = owner[starts]
        evidence[here, :width] = np.maximum.reduceat(scores, starts, axis=0)
        evidence[here, width : 2 * width] = np.add.reduceat(scores, starts, axis=0) / sizes[:, None]
        evidence[here, 2 * width : 3 * width] = scores[starts + sizes - 1]
        evidence[here, -3] = np.log1p(sizes)
    evidence[:, -2] = [np.log1p(len(text)) / 5 for text in texts]
    evidence[:, -1] = ["?" in text for text in texts]
    return evidence


def _comment_model(evidence: Floats, label: Floats) -> Any:
    from sklearn.dummy import DummyClassifier
    from sklearn.linear_model import LogisticRegression

    if len(set(label.tolist())) < 2:
        return DummyClassifier(strategy="constant", constant=int(label[0])).fit(np.vstack([evidence[:1]] * 2), [0, 1])
    return LogisticRegression(C=10.0, max_iter=2000, random_state=_SEED).fit(evidence, label)


def scored(cleaned: Sequence[Cleaned], model: KindModel) -> tuple[list[list[tuple[int, int]]], Floats, Floats]:
    """Spans of the sentences of each comment, the score of each sentence, and each comment's probabilities."""
    spans = [pieces_of(c.text) for c in cleaned]
    sentences = [c.text[start:end] for c, own in zip(cleaned, spans, strict=True) for start, end in own]
    owner = np.repeat(np.arange(len(cleaned)), [len(own) for own in spans])
    scores = model.sentences.predict(model.vectorizer.transform(sentences)) if sentences else np.zeros((0, len(KINDS)))
    evidence = evidence_of(scores, owner, len(cleaned), [c.text for c in cleaned])
    sure = (
        np.column_stack([part.predict_proba(evidence)[:, 1] for part in model.comments]) if len(cleaned) else evidence
    )
    return spans, scores, sure
