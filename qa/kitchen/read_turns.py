"""What a text gives and the measure it wants it in: "2 sticks + 3 tbsp butter in grams", "flour 250 g, in cups".

>>> turn = find_turn("3/4 cup plus 2 tbsp flour and a stick and a half of butter in grams?")
>>> [[(a.value, a.unit) for a in part.amounts] for part in turn.parts], turn.to, turn.kind
([[(0.75, 'cup'), (2.0, 'tbsp')], [(1.5, 'stick')]], 'g', 'weights')
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from qa.measures.parse import Amount, find_amounts, parse_amount
from qa.measures.resolve import HOUSEHOLD
from qa.measures.units import BARE, dimension, known


class Part(NamedTuple):
    """One thing measured.

    Attributes:
        amounts: added up where there are several ("2 sticks + 3 tbsp").
        times: how often ("2 x 250 g").
        start, end: where it stands, the last measure included.
    """

    amounts: tuple[Amount, ...]
    times: float
    start: int
    end: int


class Turn(NamedTuple):
    """What is given, and the unit it is wanted in ('g', 'cup', 'stick', …)."""

    parts: tuple[Part, ...]
    to: str

    @property
    def kind(self) -> str:
        """'weights', 'measures' (by room, of a weight) or 'units' (of the same sort); '' where it is no question."""
        given, wanted = sort_of(self.parts[0].amounts[0].unit), sort_of(self.to)
        if given == wanted:
            same = all(amount.unit == self.to for part in self.parts for amount in part.amounts)
            return "" if same and self.parts[0].times == 1 else "units"
        return "weights" if wanted == "mass" else "measures"


# Units by the words that ask for them; which is wanted matters more than whose, so regions are left out.
_WANTED = {
    "fl_oz": r"fl(?:uid)?\.? ?(?:oz|ounces?)",
    "g": r"grams?|grammes?|gramms?|gms?|gr|g|weighs?|weights?|heavy(?! cream)|mass|on the scales?",
    "kg": r"kgs?|kilos?|kilograms?",
    "oz": r"oz|ounces?",
    "lb": r"lbs?|pounds?(?! cake)",
    "cup": r"cups?",
    "tbsp": r"tbsp?s?|tbs|tbls?|table ?spoons?(?:fuls?)?|spoons?",
    "tsp": r"tsps?|tea ?spoons?(?:fuls?)?",
    "mL": r"mls?|millilit(?:er|re)s?",
    "dL": r"dls?|decilit(?:er|re)s?",
    "L": r"lit(?:er|re)s?",
    "pint": r"pints?",
    "quart": r"quarts?",
    "stick": r"sticks?",
}
_WISH = re.compile(
    r"(?<![\w/])(?:" + "|".join(f"(?P<{unit}>{words})" for unit, words in _WANTED.items()) + r")(?![\w'’])",
    re.IGNORECASE,
)
_CUE = re.compile(
    r"(?:\bhow (?:many|much)(?: in)?|\bin(?:to)?|\bto|\bas|\bnumber of|\bgive (?:me|us)|=|\bwhat'?s? (?:the|its?)"
    r"|\bwant|\bneed|\bby|\bequals?)\s(?:the |us |uk |american |british |metric |a )?$",
    re.IGNORECASE,
)
# A measure without its number, where one of it is meant: "cup of flour in grams", "dessertspoon in ml".
_BARE = re.compile(
    r"(?:(?<![\w/])(?:cup|tablespoon|tbsp|teaspoon|tsp|stick)s?(?=\sof\s)"
    r"|^(?:us |american |imperial )?(?:cup|tablespoon|teaspoon|dessert ?spoon|fluid ounce|pint|quart|gill|stick)"
    r"(?=\s(?:to|in|into|=)\s))",
    re.IGNORECASE,
)
_ADDED = re.compile(r"\s*(?:of [a-z]{3,12} )?(?:\+|&|,?\s?\bplus\b|\band\b)\s*(?:another\s|an extra\s)?", re.IGNORECASE)
_TIMES = re.compile(r"\s?[x×*]\s*", re.IGNORECASE)
_OTHERWISE = re.compile(
    r"\b(?:instead|replac\w*|substitut\w*|swap\w*|per|enough|hydration|carb\w*|protein|calor\w*|kcal|fib(?:re|er)|energy)\b",
    re.IGNORECASE,
)
# The thing that an amount is of; small words and measures are none.
_THING = re.compile(
    r"[\s,:]{0,3}(?:\([^()]{0,30}\)\s?)?(?:of\s)?(?:(?:the|my|your|this|that|some|an?)\s)?(?P<word>[^\W\d_]{3,20})",
    re.IGNORECASE,
)
_NO_THING = re.compile(
    r"in|into|is|are|was|the|how|what|whats|please|pls|plz|equal\w*|makes?|does|for|and|or|to|weigh\w*|anything|which|would"
    r"|convert\w*|comes?|means?|actually|exactly|roughly|about|yes|right|thanks?|can|could|with|than|but|mine|ours?|same"
    r"|this|that|then|from|per|sized?|measures?|measuring|level|heaped|us|uk|american|british|metric|imperial|australian"
    r"|one|two|three|four|five|six|half|quarter|third|have|has|you|your|they|there|here|only|also|measurements?|"
    + "|".join(_WANTED.values()),
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"\s?(?:(?:whole|large|medium|small|big|extra|jumbo|ripe|egg)\s){0,2}(?:eggs?|yolks?|whites?)\b", re.IGNORECASE
)
_PIECES = frozenset(("packet", "clove", "stick"))
_MOST_PARTS = 6
# Characters up to which a text is taken for one question, so that a unit anywhere in it is a wish.
_SHORT = 140


def sort_of(unit: str) -> str:
    """'mass', 'volume', 'count' or something else, for bare and household measures as well.

    >>> sort_of("tbsp"), sort_of("stick"), sort_of("packet"), sort_of("degC")
    ('volume', 'stick', 'count', 'temperature')
    """
    if unit == "stick":
        return "stick"
    if unit in BARE or unit == "spoon":
        return "volume"
    if unit in ("", "each", "packet", "clove"):
        return "count"
    if unit in HOUSEHOLD:
        return "volume"
    return dimension(unit) if known(unit) else unit


@lru_cache(maxsize=2048)
def find_turn(text: str) -> Turn | None:
    """What a text gives and wants turned into another measure; None unless both are said, once."""
    if _OTHERWISE.search(text):
        return None
    amounts = _measured(text)
    to, wish = _wanted(text, amounts)
    if not amounts or not to:
        return None
    parts = _parts(text, amounts)
    by_room = tuple(part for part in parts if sort_of(part.amounts[0].unit) != "mass")
    if sort_of(to) == "mass" and by_room:
        parts = by_room  # what is weighed already is no question
    elif len({sort_of(part.amounts[0].unit) for part in parts}) > 1:
        return None
    turn = Turn(parts[:_MOST_PARTS], to)
    if not parts or not turn.kind or _asks_of_another(text, wish, parts):
        return None
    return turn


def find_parts(text: str) -> tuple[Part, ...]:
    """Everything that a text measures, whatever it wants to know of it.

    >>> [part.amounts[0].unit for part in find_parts("carbs in 2 tbsp flax and 100 g oats")]
    ['tbsp', 'g']
    """
    return _parts(text, _measured(text))


def has_thing(text: str, part: Part) -> bool:
    """Whether a word stands after a part, or right before it, that may name what it is of.

    >>> text = "how many grams is 3 tbsp"
    >>> has_thing(text, find_turn(text).parts[0])
    False
    """
    return bool(_thing(text, part.end)) or bool(_thing_before(text, part.start))


def _thing(text: str, place: int) -> str:
    found = _THING.match(text, place)
    return found["word"].lower() if found and not _NO_THING.fullmatch(found["word"]) else ""


def _thing_before(text: str, place: int) -> str:
    words = re.findall(r"[^\W\d_]{3,20}", text[max(0, place - 24) : place].rstrip(" :=-("))
    last = words[-1] if words and text[:place].rstrip(" :=-(").endswith(words[-1]) else ""
    return last.lower() if last and not _NO_THING.fullmatch(last) else ""


def _measured(text: str) -> list[Amount]:
    """Amounts that can be weighed or filled, with the "one" that is left unsaid; counts only of eggs."""
    found = []
    for amount in find_amounts(text):
        sort = sort_of(amount.unit)
        counted = sort == "count" and (amount.unit in _PIECES or _COUNTED.match(text, amount.end))
        times = amount.unit == "" and _TIMES.search(text[max(amount.start, amount.end - 2) : amount.end + 2])
        if sort in ("mass", "volume", "stick") or counted or times:
            found.append(amount)
    if not found:
        for bare in _BARE.finditer(text):
            one = parse_amount(f"1 {bare[0]}")
            found.append(replace(one, start=bare.start(), end=bare.end()))
    return found


def _wanted(text: str, amounts: Sequence[Amount]) -> tuple[str, int]:
    """The unit that is wished for and where its word ends: one after "how many", "in", "to" … before any other.

    In a short question any unit may be the wish, but for one of the same sort as what is given.
    """
    best = ("", -1)
    given = {sort_of(amount.unit) for amount in amounts}
    for word in _WISH.finditer(text):
        if any(a.start <= word.start() < a.end for a in amounts):
            continue
        unit = word.lastgroup or ""
        if text[max(0, word.start() - 1) : word.start()].isdigit():
            continue
        if _CUE.search(text[max(0, word.start() - 24) : word.start()]):
            return unit, word.end()
        if len(text) <= _SHORT and sort_of(unit) not in given and (not best[0] or (best[0] != "g" and unit == "g")):
            best = (unit, word.end())
    return best


def _parts(text: str, amounts: Sequence[Amount]) -> tuple[Part, ...]:
    """Amounts that are added up, or counted off, put together."""
    parts: list[Part] = []
    place = 0
    while place < len(amounts):
        first = amounts[place]
        times, start = 1.0, first.start
        if first.unit == "" and place + 1 < len(amounts) and _is_times(text, first, amounts[place + 1]):
            times, place = first.value, place + 1
        taken = [amounts[place]]
        while place + 1 < len(amounts) and _is_added(text, amounts[place], amounts[place + 1]):
            place += 1
            taken.append(amounts[place])
        if taken[0].unit or _COUNTED.match(text, taken[0].end):
            parts.append(Part(tuple(taken), times, start, taken[-1].end))
        place += 1
    return tuple(parts)


def _is_times(text: str, first: Amount, second: Amount) -> bool:
    return bool(
        _TIMES.fullmatch(text[first.end - 1 : second.start]) or _TIMES.fullmatch(text[first.end : second.start])
    )


def _is_added(text: str, first: Amount, second: Amount) -> bool:
    """Whether two amounts are of one thing: nothing is named after the first but may be after the second."""
    return bool(_ADDED.fullmatch(text[first.end : second.start])) and first.unit != ""


def _asks_of_another(text: str, wish: int, parts: Sequence[Part]) -> bool:
    """Whether the wish is for an amount of something else ("how many grams of yeast for 4 cups of flour")."""
    if not re.match(r"\sof\b", text[wish:]):
        return False
    wished = _thing(text, wish)
    things = {_thing(text, part.end) for part in parts} - {""}
    return bool(wished) and bool(things) and wished not in things
