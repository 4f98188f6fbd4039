"""Pans, eggs and oven settings as people write them in one sentence.

>>> [pan.text for pan in find_pans("8 inch round to 9x13")]
['8 inch round', '9 × 13 inch']
>>> find_eggs("recipe has 3 eggs, I have 2")
(3.0, 2.0)
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from qa.errors import InvalidMeasure
from qa.kitchen.pans import Pan, read_pan
from qa.measures.parse import Amount, find_amounts
from qa.text.wordings import Wordings

_LENGTHS = ("inch", "cm", "mm", "pan")
_JOINS = re.compile(r"^[\"”\s-]*(?:x|×|by)\s*$", re.IGNORECASE)
_SHAPE = re.compile(r"\b(?:round|circular|springform|square|tray|sheet|loaf|oblong|rectangular)s?\b", re.IGNORECASE)
_SEVERAL = re.compile(r"\b(?:two|three|four|[2-9])\s$", re.IGNORECASE)
_COUNTS = {"two": 2, "three": 3, "four": 4}
_OLD_SECOND = re.compile(
    r"\b(?:from|instead of|in place of|rather than|calls for|in the recipe"
    r"|(?:recipe|it|yours|your \w+)\s(?:is|says|calls|needs|wants|uses|has))\b",
    re.IGNORECASE,
)
# What stands between two tins where only one of their sizes has a unit, and what follows the other.
_BESIDE = re.compile(
    r"\b(?:instead of|in place of|rather than|mine|yours|(?:recipe|it|your \w+)\s(?:is|says|calls|needs|wants|uses)"
    r"|i (?:only )?(?:have|got|own))\b",
    re.IGNORECASE,
)
_NO_OTHER_THING = re.compile(
    r"^\s?(?:$|[^\w\s%/°]|(?:one|tin|pan|round|square|dish|mou?ld|so|do|does|can|could|should|will|would|is|how|what)\b)",
    re.IGNORECASE,
)
_FEW, _FAR_LARGER = (2, 3), 2.5  # no tin is that long and narrow
_NEAR = 24  # characters after a size in which its shape may be named
_EGG = re.compile(r"^\s?(?:(?:whole|large|medium|small|big)\s)?eggs?\b", re.IGNORECASE)
_HAVE = re.compile(r"\b(?:have|got|only|left|just)\s(?:only\s|just\s|got\s)?$", re.IGNORECASE)
_WANTED = re.compile(
    r"\b(?:has|calls for|needs?|says?|wants?|uses?|takes?|asks for|requires?|instead of|for|with|recipe is)\s$",
    re.IGNORECASE,
)
_OVEN = re.compile(
    r"\b(?:oven|gas(?: mark)?|degrees?|celsius|celcius|centigrade|fahrenheit|bake[ds]?|baking|temp(?:erature)?|fan|dial"
    r"|range|thermostat)\b",
    re.IGNORECASE,
)


@lru_cache(maxsize=1024)
def find_pans(text: str) -> tuple[Pan, ...]:
    """The pans a text names, the recipe's own first; a unit or shape not said is that of the other pan.

    Where no shape is said at all both are taken as round, which gives the same factor as any other common shape.
    """
    groups: list[list[Amount]] = []
    for amount in _sizes(text):
        if groups and len(groups[-1]) < 3 and _JOINS.match(text[groups[-1][-1].end : amount.start]):
            groups[-1].append(amount)
        else:
            groups.append([amount])
    written = []
    counts = [_count_first(group) for group in groups]
    groups = [group[1:] if count else group for group, count in zip(groups, counts, strict=True)]
    for place, group in enumerate(groups):
        after = groups[place + 1][0].start if place + 1 < len(groups) else len(text)
        before = groups[place - 1][-1].end if place else 0
        tail = text[group[-1].end : min(after, group[-1].end + _NEAR)]
        shape = _SHAPE.search(tail) or (None if place else _SHAPE.search(text[before : group[0].start]))
        unit = next((a.unit for a in group if a.unit != "pan"), "")
        several = _SEVERAL.search(text[max(0, group[0].start - 8) : group[0].start])
        count = counts[place] or (_COUNTS.get(several[0].strip().lower(), 0) or int(several[0]) if several else 1)
        written.append((" x ".join(f"{a.value:g}" for a in group), unit, shape[0] if shape else "", count))
    unit = next((one[1] for one in written if one[1]), "")
    shape_word = next((one[2] for one in written if one[2]), "round" if len(written) > 1 else "")
    pans = []
    for sizes, own_unit, own_shape, count in written:
        single = " x " not in sizes
        named = (own_shape or (shape_word if single else "")).lower().removesuffix("s")
        try:
            pans.append(replace(read_pan(f"{sizes} {own_unit or unit} {named}".strip()), count=count))
        except InvalidMeasure:
            continue
    if len(pans) > 1 and len(groups) > 1 and _OLD_SECOND.search(text[groups[0][-1].end : groups[1][0].start]):
        pans[:2] = pans[1::-1]
    return tuple(pans)


def _sizes(text: str) -> list[Amount]:
    """The lengths in a text, with a number beside the only one that can but be the other tin's."""
    amounts = find_amounts(text)
    sizes = [amount for amount in amounts if amount.unit in _LENGTHS]
    if len(sizes) != 1:
        return sizes
    (size,) = sizes
    for other in amounts:
        first, second = sorted((size, other), key=lambda one: one.start)
        alike = other.unit == "" and size.value / 2 <= other.value <= size.value * 2
        if alike and _BESIDE.search(text[first.end : second.start]) and _NO_OTHER_THING.match(text[other.end :]):
            return [replace(one, unit=size.unit) for one in (first, second)]
    return sizes


def _count_first(group: list[Amount]) -> int:
    """How many tins are meant by a small whole number before a far larger size ("2 x 15 cm"), else 0."""
    first = group[0].value
    return int(first) if len(group) == 2 and first in _FEW and group[1].value >= _FAR_LARGER * first else 0


def _is_count(text: str, amount: Amount) -> bool:
    """A plain number; "2 can I" is no tin."""
    is_tin = amount.unit == "tin" and not text[amount.start : amount.end].lower().endswith(" can")
    return amount.value > 0 and amount.unit in ("", "each", "tin") and not is_tin


def find_eggs(text: str) -> tuple[float, float] | None:
    """Eggs the recipe wants and eggs on hand; None unless both are said."""
    counted = [a for a in find_amounts(text) if _is_count(text, a)]
    if not any(_EGG.match(text[a.end :]) for a in counted):
        return None
    for first, second in pairwise(counted):
        between = text[first.end : second.start]
        before = text[max(0, first.start - 20) : first.start]
        if _HAVE.search(between):
            return first.value, second.value
        if _WANTED.search(between):
            return second.value, first.value
        if _HAVE.search(before) and _EGG.match(text[second.end :]):
            return second.value, first.value
    return None


def find_oven(text: str) -> Amount | None:
    """The oven setting a text names: degrees, a gas mark, or a plain number where an oven is spoken of."""
    amounts = find_amounts(text)
    said = next((a for a in amounts if a.unit in ("degC", "degF", "deg", "gas_mark")), None)
    if said is None and _OVEN.search(text):
        plain = next((a for a in amounts if a.unit == "" and 100 <= a.value <= 550), None)
        said = plain and replace(plain, unit="deg")
    return said


_BEYOND_CELSIUS = 300  # no oven of a home kitchen goes higher in °C (common practice)
# Of several scales that a text names, the one that is wanted.
_WISHED_FIRST = ("to gas", "to celsius", "to fahrenheit", "fan")
_SCALES: Wordings[str] = Wordings(
    {
        "to gas": r"gas(?:\smarks?)?|regulo|(?:what|which) marks?|1 t[oa]e? 9",
        "to celsius": r"celsius|celcius|centigrade|[°º]\s?c|c|europe(?:an)?|metric|deg(?:rees)?\sc",
        "to fahrenheit": r"fahrenheit|farenheit|[°º]\s?f|f|freedom units|american|us oven|old money",
        "fan": r"fan|convection|conventional|hot air|top.{0,3}bottom heat",
    },
    before=r"(?<![\w°º])",
    after=r"(?!\w)",
)


def scale_of(said: Amount) -> str:
    """The scale a setting is on, as a wish would name it; a bare number beyond any Celsius dial is Fahrenheit."""
    if said.unit == "deg":
        return "to fahrenheit" if said.value >= _BEYOND_CELSIUS else ""
    return {"degC": "to celsius", "degF": "to fahrenheit"}.get(said.unit, "")


def oven_wish(text: str, said: Amount) -> str:
    """The scale that a setting is wanted on ('to gas', 'to celsius', 'to fahrenheit', 'fan'), or '' if none is named.

    >>> oven_wish("what is 350 F in C?", find_oven("what is 350 F in C?"))
    'to celsius'
    """
    wished = {scale.what for scale in _SCALES.find(text) if not said.start <= scale.start < said.end}
    own = scale_of(said)
    wished.discard(own)
    if own == "" and len(wished & {"to celsius", "to fahrenheit"}) == 2:
        return ""
    return next((name for name in _WISHED_FIRST if name in wished), "")
