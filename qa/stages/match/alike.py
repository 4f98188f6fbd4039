"""How far the words of an ask find their like in the known texts of an answer, piece by piece, whatever their order.

Two texts that mean much the same as a whole may differ in the one word that matters: "which water kills yeast" beside
"which water for yeast". So every word piece looks for the one most like it in the other text, and what finds none
tells most (Khattab and Zaharia, "ColBERT", SIGIR 2020; Zhang et al., "BERTScore", ICLR 2020; both from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from qa.similarity.encoder import of_length_one
from qa.similarity.questions import in_pieces

Floats = NDArray[np.float32]

EVIDENCE = ("alike", "ask alike", "odd in ask", "odd in text", "odd in all", "alike in all")
"""Of the known text most alike: how alike both ways, how far it has the ask's words, the most telling word of the ask
and of the text that finds no like; then the same of the ask beside all texts of the answer."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """The word pieces of known texts, sorted by answer.

    Attributes:
        rows: what each piece means, less what all have in common, of length 1.
        weights: how much each piece tells, 1 for the rarest.
        ends: where each text's pieces end, the first place is where the first text's begin.
        blocks: where each answer's texts begin, and where the last's end.
        sources: where each text comes from.
        mean: what all pieces have in common.
        rarity: how much each piece of the vocabulary tells.
    """

    rows: NDArray[np.float16]
    weights: Floats
    ends: NDArray[np.int64]
    blocks: NDArray[np.int64]
    sources: NDArray[np.str_]
    mean: Floats
    rarity: Floats

    @classmethod
    def fit(cls, texts: Sequence[str], blocks: NDArray[np.int64], sources: NDArray[np.str_]) -> Likeness:
        """Keep the pieces of known texts that are sorted by answer; `blocks` says where each answer's begin."""
        known = in_pieces(texts)
        numbers = np.concatenate([one.numbers for one in known])
        having = np.bincount(np.concatenate([np.unique(one.numbers) for one in known]))
        rarity = np.log((1 + len(texts)) / (1 + np.append(having, 0))).astype(np.float32)  # the last is for all others
        rarity /= max(float(rarity.max()), 1e-6)
        rows = np.concatenate([one.rows for one in known])
        mean = rows.sum(axis=0, dtype=np.float32) / max(len(rows), 1)
        return cls(
            rows=of_length_one(rows - mean).astype(np.float16),
            weights=rarity[numbers],
            ends=np.cumsum([0, *(len(one.numbers) for one in known)]),
            blocks=np.append(blocks, len(texts)),
            sources=sources,
            mean=mean,
            rarity=rarity,
        )

    def to(self, text: str, places: Sequence[int], leave_out: str = "") -> Floats:
        """How alike a text is to answers: a row of `EVIDENCE` for each place; texts of one source may be left out."""
        asked = in_pieces([text])[0]
        found = np.zeros((len(places), len(EVIDENCE)), dtype=np.float32)
        beside = [self._texts(place, leave_out) for place in places]
        texts = np.concatenate([np.zeros(0, dtype=np.int64), *beside])
        if not len(texts) or not len(asked.numbers):
            return found
        told = self.ends[texts + 1] - self.ends[texts]
        own = of_length_one(asked.rows - self.mean)
        tells = self.rarity[np.minimum(asked.numbers, len(self.rarity) - 1)][:, None]
        begins = np.cumsum(told) - told
        spots = np.repeat(self.ends[texts] - begins, told) + np.arange(told.sum())
        near = own @ self.rows[spots].T.astype(np.float32)
        best = np.maximum.reduceat(near, begins, axis=1)  # pieces of the ask, texts
        like, weights = near.max(axis=0), self.weights[spots]
        ask_alike = (tells * best).sum(axis=0) / max(float(tells.sum()), 1e-6)
        text_alike = np.add.reduceat(weights * like, begins) / np.maximum(np.add.reduceat(weights, begins), 1e-6)
        odd_in_ask = (tells * (1 - best)).max(axis=0)
        odd_in_text = np.maximum.reduceat(weights * (1 - like), begins)
        both = (ask_alike + text_alike) / 2
        at = 0
        for row, count in enumerate(map(len, beside)):
            if count:
                top = at + int(both[at : at + count].argmax())
                anywhere = best[:, at : at + count].max(axis=1, keepdims=True)
                found[row] = (
                    both[top], ask_alike[top], odd_in_ask[top], odd_in_text[top],
                    (tells * (1 - anywhere)).max(), (tells * anywhere).sum() / max(float(tells.sum()), 1e-6),
                )  # fmt: skip
            at += count
        return found

    def _texts(self, place: int, leave_out: str) -> NDArray[np.int64]:
        """Which texts of an answer there are to look at: those with any pieces."""
        texts = np.arange(self.blocks[place], self.blocks[place + 1])
        seen = self.ends[texts + 1] > self.ends[texts]
        if leave_out:
            seen &= self.sources[texts] != leave_out
        return np.asarray(texts[seen])
