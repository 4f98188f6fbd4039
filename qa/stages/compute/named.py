"""Amounts with the ingredient each is of, from the asker's own words: "500 flour, 350 water, 60 g of yogurt"."""

from __future__ import annotations

import re
from typing import NamedTuple

from qa.knowledge.library import Library
from qa.measures.parse import Amount, find_amounts
from qa.records import Figure

_WORDS = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
_SMALL = frozenset(
    "of the a an my your some plain g gram grams more extra other and with plus to sifted sieved packed firmly lightly"
    " level cold melted softened cooled warm fresh freshly".split()
)
_STOP = re.compile(r"[.,;:?!()\n=+]")
_MOST = 4
# What bakers mean who say only half of the name.
_SPOKEN = {"soda": "baking-soda.powder", "bicarb": "baking-soda.powder", "tartar": "cream-of-tartar.powder"}


class Named(NamedTuple):
    """An amount (its place counted from the beginning of the text) and the item it is of."""

    amount: Amount
    item: str


def named_amounts(text: str, library: Library, region: str) -> tuple[Named, ...]:
    """Every amount that an ingredient's name follows, or every one that such a name stands before."""
    amounts = find_amounts(text)
    if not amounts:
        return ()
    ends = [*(a.start for a in amounts[1:]), len(text)]
    starts = [0, *(a.end for a in amounts[:-1])]
    after = [(a, item_named_first(text[a.end : end], library, region)) for a, end in zip(amounts, ends, strict=True)]
    if not after[-1][1] and closing(text[: amounts[0].start], library, region):  # "flour 500 g, water 350 g"
        after = [(a, closing(text[start : a.start], library, region)) for a, start in zip(amounts, starts, strict=True)]
    return tuple(Named(amount, item) for amount, item in after if item)


def item_named_first(words: str, library: Library, region: str) -> str:
    """The item whose name stands at the beginning of some words, the longest first; '' if there is none."""
    said = _WORDS.findall(_STOP.split(words, maxsplit=1)[0])
    while said and said[0].lower() in _SMALL:
        said = said[1:]
    return _item([said[:count] for count in range(min(_MOST, len(said)), 0, -1)], library, region)


def closing(words: str, library: Library, region: str) -> str:
    """The item whose name a text ends with."""
    said = _WORDS.findall(_STOP.split(words.rstrip(" :=-"))[-1])[-_MOST:]
    return _item([said[first:] for first in range(len(said))], library, region)


def _item(names: list[list[str]], library: Library, region: str) -> str:
    for words in names:
        name = " ".join(words).lower()
        if name in _SPOKEN:
            return _SPOKEN[name]
        found = library.meanings(name, region or None) or library.meanings(name.removesuffix("s"), region or None)
        if found:
            return library.usual(found[0])
    return ""


def theirs(text: str, start: int, end: int, amount: Amount) -> Figure:
    """A stretch of the asker's text as a figure of their own."""
    shown = " ".join(text[start:end].split())
    return Figure(shown, amount.value, amount.low, amount.high, amount.unit, (), "the asker's own number", theirs=True)
