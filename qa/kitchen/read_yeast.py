"""Two kinds of yeast and the amount of one, as people write them: "20 g fresh yeast, how much instant?".

>>> found = find_yeasts("20 g fresh yeast, how much instant?")
>>> found.amount.value, found.have, found.want
(20.0, 'fresh', 'instant')
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from qa.kitchen.yeast import Yeast
from qa.measures.parse import Amount, find_amounts
from qa.measures.units import BARE, dimension, known
from qa.text.wordings import Wordings

# "Dry" alone may be either dried kind; it is read as active dry, and `loose` says that it may be instant.
_KINDS: Wordings[Yeast] = Wordings(
    {
        "fresh": r"fresh|cake yeast|compressed|cubes?",
        "instant": r"instant|fast[- ]action|rapid[- ]rise|quick(?:[- ]rise)?|bread machine yeast|easy[- ]bake|idy",
        "active dry": r"active(?:[- ]dr(?:y|ied))?|dr(?:y|ied)(?: active)?|ady",
    }
)
_NAMED = re.compile(r"\byeasts?\b|\bidy\b|\bady\b", re.IGNORECASE)
_ACTIVE = re.compile(r"\bactive\b|\bady\b", re.IGNORECASE)
_NEAR = 28  # characters from an amount to the kind it is of


class Yeasts(NamedTuple):
    """An amount of one kind, the kind it is wanted as, and what the writer made of it (None if nothing).

    `loose` says that "dry" stood for a kind that may be instant as well.
    """

    amount: Amount
    have: Yeast
    want: Yeast
    claimed: Amount | None
    loose: bool


@lru_cache(maxsize=1024)
def find_yeasts(text: str) -> Yeasts | None:
    """One amount of one kind of yeast, and another kind; None unless both kinds and an amount are named."""
    if not _NAMED.search(text):
        return None
    spots = [(said.start, said.what) for said in _KINDS.find(text)]
    spots = [spot for spot in spots if not _said_of_other(text, spot[0], spots)]
    kinds = list(dict.fromkeys(kind for _, kind in spots))
    if len(kinds) != 2:
        return None
    said = [(a, kind) for a in find_amounts(text) if _is_amount(a) and (kind := _kind_of(a, spots))]
    if not said:
        return None
    amount, have = said[0]
    want = next(kind for kind in kinds if kind != have)
    claimed = next((a for a, kind in said[1:] if kind == want and a.unit == amount.unit), None)
    return Yeasts(amount, have, want, claimed, "active dry" in kinds and not _ACTIVE.search(text))


def _said_of_other(text: str, place: int, spots: list[tuple[int, Yeast]]) -> bool:
    """Whether "dry" only belongs to "instant dry", which is one name."""
    dry = text[place : place + 3].lower() == "dry" or text[place : place + 5].lower() == "dried"
    return dry and any(kind == "instant" and 0 < abs(place - other) <= 12 for other, kind in spots)


def _is_amount(amount: Amount) -> bool:
    return amount.unit in BARE or (
        bool(amount.unit) and known(amount.unit) and dimension(amount.unit) in ("mass", "volume")
    )


def _kind_of(amount: Amount, spots: list[tuple[int, Yeast]]) -> Yeast | None:
    """The kind named soonest after an amount, if it is near."""
    after = [(place - amount.end, kind) for place, kind in spots if 0 <= place - amount.end <= _NEAR]
    return min(after)[1] if after else None
