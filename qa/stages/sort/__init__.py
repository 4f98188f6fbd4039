"""Sort: split each comment into sentences and say what each one does (asks, reports a result, gives a tip …)."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from qa.records import KINDS, Cleaned, Kind, Piece
from qa.stages.sort.learn import Floats, KindModel, learn_kinds, scored

__all__ = ["KindModel", "learn_kinds", "sort"]

# From this probability on a kind is held; chosen on voices held back, at natural proportions.
HELD = 0.5
# A sentence carries a kind if its score is within this of the comment's best sentence for that kind.
_NEAR_BEST = 0.15


def sort(cleaned: Sequence[Cleaned], model: KindModel, parents: Sequence[str]) -> list[tuple[Piece, ...]]:
    """Sentences of each comment with their kinds; `parents` holds the text each one replies to, or ''.

    A kind found in a comment stands at the sentences that show it, with the comment's probability; see
    `qa.records.kinds_of` for the kinds of the whole comment.
    """
    if len(parents) != len(cleaned):
        raise ValueError(f"{len(parents)} parents for {len(cleaned)} comments")
    spans, scores, sure = scored(cleaned, model)
    found, at = [], 0
    for index, (one, own) in enumerate(zip(cleaned, spans, strict=True)):
        part = scores[at : at + len(own)]
        at += len(own)
        found.append(_pieces(one.text, own, part, sure[index]))
    return found


def _pieces(text: str, spans: list[tuple[int, int]], scores: Floats, sure: Floats) -> tuple[Piece, ...]:
    """Hand each kind of a comment to the sentences that show it best."""
    if not spans:
        return ()
    held = [column for column in range(len(KINDS)) if sure[column] >= HELD] or [int(np.argmax(sure))]
    best = scores.max(axis=0)
    pieces = []
    for (start, end), row in zip(spans, scores, strict=True):
        kinds: list[tuple[Kind, float]] = [
            (KINDS[column], round(float(sure[column]), 4))
            for column in held
            if row[column] >= best[column] - _NEAR_BEST
        ]
        pieces.append(Piece(start, end, text[start:end], tuple(sorted(kinds, key=lambda kind: -kind[1]))))
    return tuple(pieces)
