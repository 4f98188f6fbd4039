"""Sort: split each comment into sentences and say what each one does (asks, reports a result, gives a tip …)."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from qa.records import KINDS, Cleaned, Kind, Piece
from qa.stages.sort.learn import Floats, KindModel, glanced_at, learn_kinds, probabilities, scored
from qa.text.sentences import pieces_of

__all__ = ["KindModel", "learn_kinds", "sort"]

# A sentence carries a kind if its score is within this of the comment's best sentence for that kind.
_NEAR_BEST = 0.15
_QUESTION = KINDS.index("question")
# In a comment that asks, each sentence built like a question asks too.
_ASKS = re.compile(
    r"""\?\s*$|^\W*(?:(?:and|also|but|or|so|ok|okay|plus|p\.?s\.?|question|pls|please)\W+){0,3}
    (?:how\s+(?:many|much|long|do|does|would|should|can|about)|what(?:'s|s)?\s|why\s|where\s|which\s|who\s|when\s
    |(?:can|could|should|would|will|may|do|does|did|is|are|has|have)\s+
    (?:i|you|we|u|that|this|they|the|one|any|anyone|anybody|there|someone|these|those|your|my|a)\b
    |(?:can|could|should|would|will|may|does|did|is|has)\s+it\b|(?:please\s+)?tell\s+me\b
    |(?:can|could|should|does|did|is|are)\s+(?!not\b|only\b|be\b|confirm\b|say\b)\w+\s+\w
    |(?:would|will)\s+(?!not\b|be\b|have\b|make\b|try\b|do\b|bake\b|use\b|definitely\b|recommend\b)\w+\s+\w)""",
    re.IGNORECASE | re.VERBOSE,
)


def sort(cleaned: Sequence[Cleaned], model: KindModel, parents: Sequence[str]) -> list[tuple[Piece, ...]]:
    """Sentences of each comment with their kinds; `parents` holds the text each one replies to, or ''.

    A kind found in a comment stands at the sentences that show it, with the comment's probability; see
    `qa.records.kinds_of` for the kinds of the whole comment.
    """
    texts = [one.text for one in cleaned]
    sure = probabilities(texts, parents, scored(texts, model), model)
    held = [_held(row, model) for row in sure]
    spans = [pieces_of(text) for text in texts]
    parts = _part_scores(texts, spans, held, model)
    return [_pieces(*each) for each in zip(texts, spans, parts, held, sure, strict=True)]


def _held(sure: Floats, model: KindModel) -> list[int]:
    """The kinds likely enough to be held, or the likeliest."""
    return [column for column, cut in enumerate(model.held) if sure[column] >= cut] or [int(np.argmax(sure))]


def _part_scores(
    texts: Sequence[str], spans: Sequence[Sequence[tuple[int, int]]], held: Sequence[Sequence[int]], model: KindModel
) -> list[Floats]:
    """Scores of each comment's sentences; of one that asks nothing a glance at them will do."""
    several = [place for place, own in enumerate(spans) if len(own) > 1]
    found = [np.zeros((len(own), len(KINDS))) for own in spans]
    for asks, score in ((True, scored), (False, glanced_at)):
        places = [place for place in several if (_QUESTION in held[place]) == asks]
        rows = iter(score([texts[place][start:end] for place in places for start, end in spans[place]], model))
        for place in places:
            found[place] = np.array([next(rows) for _ in spans[place]])
    return found


def _pieces(
    text: str, spans: Sequence[tuple[int, int]], scores: Floats, held: Sequence[int], sure: Floats
) -> tuple[Piece, ...]:
    """Hand each kind of a comment to the sentences that show it best."""
    if not spans:
        return ()
    best = scores.max(axis=0)
    pieces = []
    for (start, end), row in zip(spans, scores, strict=True):
        asks = _ASKS.search(text[start:end])
        own: list[tuple[Kind, float]] = [
            (KINDS[column], round(float(sure[column]), 4))
            for column in held
            if row[column] >= best[column] - _NEAR_BEST or (KINDS[column] == "question" and asks)
        ]
        pieces.append(Piece(start, end, text[start:end], tuple(sorted(own, key=lambda kind: -kind[1]))))
    return tuple(pieces)
