"""Sums that a text asks for in so many words: percent of flour, shares of a whole, a batch for more, part of an egg.

>>> find_percent("2% salt for 750g flour?")
Percent(percent=2.0, mass=Amount(value=750.0, low=750.0, high=750.0, unit='g', manner='', start=12, end=16), of='flour')
>>> find_batch("recipe makes 12, I need 30"), find_egg_share("how do I halve a recipe with 3 eggs")
((12.0, 30.0), (3.0, 0.5))
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from qa.measures.parse import Amount, find_amounts
from qa.measures.units import dimension, known
from qa.text.wordings import Wordings

_IGNORE = re.IGNORECASE
_FLOUR = re.compile(r"\s?(?:of\s)?(?:[a-z-]{1,12}\s){0,3}flour\b", _IGNORE)
_DOUGH = re.compile(r"\s?(?:of\s)?(?:[a-z-]{1,12}\s){0,2}(?:dough|loaf|loaves|batch)\b", _IGNORE)
_HYDRATION = re.compile(r"\bhydrat(?:ion|ed)\b", _IGNORE)
_PART = re.compile(
    r"\s?(?:of\s)?(?:[a-z]{1,12}\s)?(?:hydration|water|salt|yeast|starter|levain|sugar|butter|oil|milk)\b", _IGNORE
)
_PIECES = re.compile(
    r"\s?(?:(?:equal|big|large|small|thick|thin|even|mini)\s)?(slice|piece|muffin|cookie|biscuit|cupcake|serving|portion|roll"
    r"|bun|square|bar|bagel|scone|brownie|cracker|pancake|waffle|people|person|slab|ball)s?\b",
    _IGNORE,
)
_CUT = re.compile(
    r"\b(?:cut|divided?|split|shared|sliced|makes?|made|into|yields?|between|by|over|for)\s(?:it\s)?(?:in(?:to)?\s)?$",
    _IGNORE,
)
_EACH = re.compile(r"\b(?:each|every|apiece|per|one|a)\b", _IGNORE)
_EACH_IS = re.compile(r"\b(?:each|so|that'?s|every one)\s(?:one\s)?(?:is\s|has\s|=\s)?(?:about\s)?$", _IGNORE)
_IS_EACH = re.compile(r"\s?(?:each|apiece|a piece|per)\b", _IGNORE)
_MAKES = re.compile(
    r"\b(?:makes?|made|serves?|served|feeds?|fed|yields?|(?:is|are|was|recipe|recipe'?s)\sfor|gives?|originally"
    r"|instead of|not)\s"
    r"(?:about\s|only\s|around\s|up to\s)?$",
    _IGNORE,
)
_NEEDS = re.compile(
    r"\b(?:needs?|wants?|wanna make|make|for|serve|feed|to|do|get|bake|have|into|of)\s"
    r"(?:about\s|only\s|just\s|it for\s|to make\s)?$",
    _IGNORE,
)
_FACTORS: Wordings[float] = Wordings(
    {
        2 / 3: r"two[ -]thirds?|2/3|⅔",
        0.75: r"three[ -]quarters?|3/4|¾",
        1.5: r"one and a half times|1\.5 ?(?:x|times)|one[ -]and[ -]a[ -]half",
        0.5: r"halv(?:e|ed|ing|es)|half|1/2|½",
        1 / 3: r"thirds?|1/3|⅓",
        0.25: r"quarter(?:ed|ing)?|1/4|¼|fourth",
    },
    before="",
    after="",
)
_EGGS = re.compile(
    r"(?<![\w.])(?P<count>\d{1,2}|an?|one|two|three|four|five|six|seven|single)\s(?:(?:large|medium|small|whole)\s)?eggs?\b",
    _IGNORE,
)
_COUNTS = {"a": 1, "an": 1, "one": 1, "single": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
_HEIGHT = re.compile(
    r"(?<![\w.])(?P<value>\d{1,2},?\d{3}|\d{3,5})\s?(?P<unit>feet|foot|ft|met(?:er|re)s?|m)\b\.?", _IGNORE
)
_FOOT = 0.3048  # metres, exact by definition: twelve inches of 2.54 cm


class Percent(NamedTuple):
    """A percentage wanted of a mass; `of` is 'flour' or, where flour and water of a whole dough are wanted, 'dough'."""

    percent: float
    mass: Amount
    of: str


@lru_cache(maxsize=1024)
def find_percent(text: str) -> Percent | None:
    """One percentage and the one weight it is wanted of; None where the other weight is given as well."""
    amounts = find_amounts(text)
    percents = [amount for amount in amounts if amount.unit == "percent" and _PART.match(text, amount.end)]
    masses = [amount for amount in amounts if known(amount.unit) and amount.unit and dimension(amount.unit) == "mass"]
    if len(percents) != 1 or len(masses) != 1:
        return None
    mass = masses[0]
    if _FLOUR.match(text, mass.end) or _named_before(text, mass.start, "flour"):
        return Percent(percents[0].value, mass, "flour")
    if _HYDRATION.search(text) and _DOUGH.match(text, mass.end):
        return Percent(percents[0].value, mass, "dough")
    return None


def _named_before(text: str, place: int, word: str) -> bool:
    return text[:place].rstrip(" :=-").lower().endswith(word)


class Shared(NamedTuple):
    """A whole and the number of pieces it is cut into; `pieces_text` is how they were called."""

    whole: Amount
    pieces: Amount
    pieces_text: str


@lru_cache(maxsize=1024)
def find_shared(text: str) -> Shared | None:
    """A whole (energy or weight) and its pieces, where what is in each is wanted; None where that is said already."""
    if not _EACH.search(text):
        return None
    amounts = find_amounts(text)
    wholes = [
        a for a in amounts if a.unit in ("kcal", "kJ", "g", "kg", "oz", "lb") and a.value > 1 and not _is_each(text, a)
    ]
    for pieces in amounts:
        if pieces.unit not in ("", "slice", "each") or pieces.value < 2:
            continue
        named = _PIECES.match(text, pieces.end)
        if not (named or pieces.unit == "slice" or _CUT.search(text[max(0, pieces.start - 16) : pieces.start])):
            continue
        if len(wholes) == 1:
            words = text[pieces.start : named.end() if named else pieces.end]
            return Shared(wholes[0], pieces, words)
    return None


def _is_each(text: str, amount: Amount) -> bool:
    """Whether an amount is said to be that of a piece already: "each is 15 g", "50 g each"."""
    before, after = text[max(0, amount.start - 12) : amount.start], text[amount.end : amount.end + 8]
    return bool(_EACH_IS.search(before) or _IS_EACH.match(after))


@lru_cache(maxsize=1024)
def find_batch(text: str) -> tuple[float, float] | None:
    """How much a recipe makes and how much is wanted, both as plain counts; None unless both are said."""
    counts = [a for a in find_amounts(text) if a.unit in ("", "each") and a.value >= 1]
    made = [a for a in counts if _MAKES.search(text[max(0, a.start - 24) : a.start])]
    rest = [a for a in counts if a not in made and _NEEDS.search(text[max(0, a.start - 24) : a.start])]
    if len(made) != 1 or len(rest) != 1 or made[0].value == rest[0].value:
        return None
    return made[0].value, rest[0].value


@lru_cache(maxsize=1024)
def find_egg_share(text: str) -> tuple[float, float] | None:
    """Eggs in a recipe and the part of the recipe that is wanted; None unless both are said once."""
    eggs = {_COUNTS.get(m["count"].lower()) or float(m["count"]) for m in _EGGS.finditer(text)}
    shares = set(_shares(text))
    if len(eggs) != 1 or len(shares) != 1:
        return None
    return float(eggs.pop()), shares.pop()


def _shares(text: str) -> Iterator[float]:
    for found in _FACTORS.find(text):
        if found.end < len(text) and re.match(
            r"\s?(?:an?\s)?(?:cups?|tsp|tbsp|teaspoon|tablespoon|stick|pound|lb|kg)\b", text[found.end :], _IGNORE
        ):
            continue
        yield found.what


@lru_cache(maxsize=1024)
def find_height(text: str) -> float | None:
    """Metres above the sea that a text names; None if it names none, or several."""
    found = {m["value"] + m["unit"][0].lower(): m for m in _HEIGHT.finditer(text)}
    if len(found) != 1:
        return None
    one = next(iter(found.values()))
    value = float(one["value"].replace(",", ""))
    return value * (_FOOT if one["unit"].lower().startswith("f") else 1.0)
