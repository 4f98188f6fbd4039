"""Sort: split each comment into sentences and say what each one does (asks, reports a result, gives a tip …)."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from qa.records import KINDS, Cleaned, Kind, Piece
from qa.stages.sort.learn import Floats, KindModel, learn_kinds, probabilities, scored
from qa.text.sentences import pieces_of

__all__ = ["KindModel", "learn_kinds", "sort"]

# A sentence carries a kind if its score is within this of the comment's best sentence for that kind.
_NEAR_BEST = 0.15
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
    spans = [pieces_of(text) for text in texts]
    several = [text[start:end] for text, own in zip(texts, spans, strict=True) if len(own) > 1 for start, end in own]
    scores = iter(scored(several, model))
    found = []
    for text, own, row in zip(texts, spans, sure, strict=True):
        held = [column for column, cut in enumerate(model.held) if row[column] >= cut] or [int(np.argmax(row))]
        parts = np.array([next(scores) for _ in own]) if len(own) > 1 else np.zeros((len(own), len(KINDS)))
        found.append(_pieces(text, own, parts, held, row))
    return found


def _pieces(
    text: str, spans: list[tuple[int, int]], scores: Floats, held: Sequence[int], sure: Floats
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
