"""String helpers that know nothing of baking."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known spelling closest to a word, or None if nothing is close.

    >>> nearest("sourse", ["source", "note"])
    'source'
    """
    found = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def folded(text: str) -> str:
    """Lower case without accents, for comparing names.

    >>> folded("Crème FRAÎCHE")
    'creme fraiche'
    """
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in decomposed if not unicodedata.combining(c))


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words as a list in a sentence.

    >>> listed(["flax", "chia", "psyllium"])
    'flax, chia and psyllium'
    """
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def word_set(words: str) -> frozenset[str]:
    """The distinct words of a text parted by spaces, for lists of words written as a paragraph.

    >>> sorted(word_set("flax chia  flax"))
    ['chia', 'flax']
    """
    return frozenset(words.split())
