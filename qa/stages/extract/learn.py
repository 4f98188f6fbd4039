"""Learn the types of asks from labelled comments and from the standing answers' phrasings.

What is learned on are sentences in which every ingredient is X and every amount N, the frames they fill, the same of
the whole comment, since the reason for a question often stands beside it, and what the comment means.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.knowledge.facts import Answer
from qa.knowledge.limits import baking_asked
from qa.measures.parse import find_amounts
from qa.records import AskType, Example, Mention
from qa.similarity.odds import Odds
from qa.similarity.ridge import dual_and_left_out
from qa.similarity.sense import Sense
from qa.similarity.views import Views, word_parts, words_and_pairs
from qa.stages.extract.constructions import construction
from qa.stages.extract.frames import marked, votes
from qa.text.phrases import phrases
from qa.text.sentences import pieces_of

# Strength of the ridge; a phrasing of a standing answer counts less than a sentence of a labelled comment.
_RIDGE, _RIDGE_OF_PHRASINGS = 1.0, 8.0
# Every so many phrasings is learned on: they resemble each other.
_PHRASINGS_TAKEN = 6
# By how much less a type must score to be a third as likely, and from which probability on a type is kept in mind.
_SPREAD_OF_SCORES, _LEAST_LIKELY = 0.15, 0.03
_LOOKS_ASKED = phrases(
    """can | could | should | would | will | may | do | does | did | is | are | was | has | have | what* | how* | why
    | where | when | which | who | any | anyone | please | wonder* | curious | right | tell | give"""
)


_INGREDIENT = re.compile(r"\bX\b")
_WORD = re.compile(r"\w+(?:'\w+)?|[^\w\s]")


class Question(NamedTuple):
    """A sentence that asks, and the comment it stands in, both marked, and that comment as written."""

    sentence: str
    comment: str
    text: str


@dataclass(frozen=True, slots=True)
class AskModel:
    """What was learned of ask types; nothing if there was too little to learn from, then the frames decide alone.

    Attributes:
        types: the ask types that were seen.
        views: turn questions into rows.
        weights, base: scores of each type for each feature, and of a question without features.
        sense, near: what known comments mean, and scores of each type for nearness to each of them.
        right: how likely the type with the highest score is right.
    """

    types: tuple[AskType, ...] = ()
    views: Views | None = None
    weights: Any = None
    base: Any = None
    sense: Sense | None = None
    near: Any = None
    right: Odds | None = None


def learn_asks(examples: Sequence[Example], answers: Sequence[Answer] = ()) -> AskModel:
    """Fit the types on labelled comments and on phrasings; the same input gives the same model."""
    taught = [(question, kind, example.voice) for example in examples for question, kind in _taught(example)]
    taught += [(question, kind, f"answer {place}") for place, question, kind in _phrased(answers)]
    types = tuple(dict.fromkeys(kind for _, kind, _ in taught))
    if len(types) < 2:
        return AskModel()
    questions = [question for question, _, _ in taught]
    column = np.array([types.index(kind) for _, kind, _ in taught])
    views = Views(*_VIEWS, fewest=2 if len(questions) >= 50 else 1).fit(questions)
    texts = [question.text for question in questions]
    rows, sense, wanted = views.rows(questions), Sense.fit(texts), np.eye(len(types))[column]
    phrased = np.array([voice.startswith("answer ") for _, _, voice in taught])
    base = wanted[~phrased].mean(axis=0) if not phrased.all() else wanted.mean(axis=0)
    ridge = np.where(phrased, _RIDGE_OF_PHRASINGS, _RIDGE)
    kernel = (rows @ rows.T).toarray() + sense.nearness(texts)
    weights, left_out = dual_and_left_out(kernel, wanted - base, ridge, [voice for _, _, voice in taught])
    real = ~phrased if not phrased.all() else phrased
    right = _fitted(left_out[real] + base, column[real])
    return AskModel(types, views, rows.T @ weights, base, sense, weights, right)


class Typed(NamedTuple):
    """What a question wants, how likely that is, and what else it could want with the probability of each."""

    type: AskType
    sureness: float
    others: tuple[tuple[AskType, float], ...] = ()


def typed(questions: Sequence[Question], model: AskModel) -> list[Typed]:
    """The type of each question, and how likely it is right."""
    if model.views is None or model.sense is None or model.right is None or not questions:
        return [_by_frames(question.sentence) for question in questions]
    scores = np.asarray(model.views.rows(questions) @ model.weights) + model.base
    scores += model.sense.scores([question.text for question in questions], model.near)
    bodily = [column for column, kind in enumerate(model.types) if kind in {"health", "allergy"}]
    for row, question in enumerate(questions):  # there the illness is the motive, and another type is asked
        if baking_asked(question.sentence) and len(bodily) < len(model.types) - 1:
            scores[row, bodily] = -np.inf
    sure = model.right.of(_evidence(scores))
    return [_told(own, float(p), model.types) for own, p in zip(scores, sure, strict=True)]


def _told(scores: NDArray[np.float64], sure: float, types: Sequence[AskType]) -> Typed:
    """The likeliest type; what is left of certainty goes to the others by their scores."""
    order = np.argsort(-scores, kind="stable")
    shares = np.exp((scores[order[1:]] - scores[order[0]]) / _SPREAD_OF_SCORES)
    shares *= (1 - sure) / max(float(shares.sum()), 1e-9)
    others = tuple(
        (types[at], round(float(p), 4)) for at, p in zip(order[1:], shares, strict=True) if p >= _LEAST_LIKELY
    )
    return Typed(types[order[0]], round(sure, 4), others)


def _evidence(scores: NDArray[np.float64]) -> NDArray[np.float64]:
    """What speaks for the type with the highest score: that score and its lead."""
    two = np.partition(scores, -2, axis=1)[:, -2:]
    return np.column_stack([two[:, 1], two[:, 1] - two[:, 0]])


def _fitted(scores: NDArray[np.float64], column: NDArray[np.int64]) -> Any:
    return Odds.fit(_evidence(scores), scores.argmax(axis=1) == column, strength=10.0)


def _by_frames(sentence: str) -> Typed:
    found = votes(sentence)
    return Typed(found[0].type, 0.6) if found else Typed("other", 0.3)


def _sentence_words(question: Question) -> list[str]:
    return words_and_pairs(question.sentence)


def _sentence_parts(question: Question) -> list[str]:
    return word_parts(question.sentence)


def _sentence_frames(question: Question) -> list[str]:
    return [frame.name for frame in votes(question.sentence)]


def _sentence_construction(question: Question) -> list[str]:
    """The construction of the sentence, alone and with how many ingredients it names."""
    name, named = construction(question.sentence), min(len(_INGREDIENT.findall(question.sentence)), 2)
    return [name, f"{name} {named}"]


def _sentence_ends(question: Question) -> list[str]:
    """Its first words, one to three of them, and its last."""
    words = [word.lower() for word in _WORD.findall(question.sentence)]
    return [*(f"^ {' '.join(words[:n])}" for n in (1, 2, 3)), *(f"{' '.join(words[-n:])} $" for n in (1, 2))]


def _comment_words(question: Question) -> list[str]:
    return words_and_pairs(question.comment)


def _comment_parts(question: Question) -> list[str]:
    return word_parts(question.comment)


def _comment_frames(question: Question) -> list[str]:
    return [frame.name for frame in votes(question.comment)]


# How much each view counts, chosen on voices held back; frames and words weigh most.
_VIEWS = (
    (_sentence_words, 0.7),
    (_sentence_parts, 0.5),
    (_sentence_frames, 1.0),
    (_sentence_construction, 0.7),
    (_sentence_ends, 0.5),
    (_comment_words, 0.7),
    (_comment_parts, 0.5),
    (_comment_frames, 1.0),
)


def _taught(example: Example) -> list[tuple[Question, AskType]]:
    """Which sentence of a labelled comment teaches which type: in order if there are as many, else all of one type."""
    if not example.asks:
        return []
    text = example.text
    mentions = [Mention(start, end, text[start:end], item) for start, end, item in example.mentions]
    amounts = find_amounts(text)
    spans = pieces_of(text)
    asking = [span for span in spans if "?" in text[slice(*span)]]
    asking = asking or [span for span in spans if _LOOKS_ASKED.search(text[slice(*span)])] or spans
    sentences = [marked(text, start, end, mentions, amounts) for start, end in asking]
    whole = marked(text, 0, len(text), mentions, amounts)
    types = [kind for kind, _ in example.asks]
    if len(set(types)) == 1:
        return [(Question(" ".join(sentences), whole, text), types[0])]
    if len(types) == len(sentences):
        return [(Question(sentence, whole, text), kind) for sentence, kind in zip(sentences, types, strict=True)]
    return []


def _phrased(answers: Sequence[Answer]) -> Iterable[tuple[int, Question, AskType]]:
    """Some phrasings with their answer's place and first type, placeholders and amounts marked."""
    for place, answer in enumerate(answers):
        for phrasing in answer.phrasings[place % _PHRASINGS_TAKEN :: _PHRASINGS_TAKEN]:
            text = phrasing.replace("{ingredient}", "X").replace("{other}", "X")
            sentence = marked(text, 0, len(text), [], find_amounts(text))
            told = phrasing.replace("{ingredient}", "it").replace("{other}", "that")
            yield place, Question(sentence, sentence, told), answer.asks[0]
