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

_LENGTHS = ("inch", "cm", "mm", "pan")
_JOINS = re.compile(r"^[\"”\s-]*(?:x|×|by)\s*$", re.IGNORECASE)
_SHAPE = re.compile(r"\b(?:round|circular|springform|square|tray|sheet|loaf|oblong|rectangular)s?\b", re.IGNORECASE)
_SEVERAL = re.compile(r"\b(?:two|three|four|[2-9])\s$", re.IGNORECASE)
_OLD_SECOND = re.compile(
    r"\b(?:from|instead of|calls for|recipe\s(?:is|says|calls|needs|wants|uses|has)|in the recipe)\b", re.IGNORECASE
)
_NEAR = 24  # characters after a size in which its shape may be named
_EGG = re.compile(r"^\s?(?:(?:whole|large|medium|small|big)\s)?eggs?\b", re.IGNORECASE)
_HAVE = re.compile(r"\b(?:have|got|only|left|just)\s(?:only\s|just\s|got\s)?$", re.IGNORECASE)
_WANTED = re.compile(
    r"\b(?:has|calls for|needs?|says?|wants?|uses?|takes?|asks for|requires?|instead of|for|with|recipe is)\s$",
    re.IGNORECASE,
)
_OVEN = re.compile(
    r"\b(?:oven|gas(?: mark)?|degrees?|celsius|celcius|centigrade|fahrenheit|bake[ds]?|baking|temp(?:erature)?|fan)\b",
    re.IGNORECASE,
)


@lru_cache(maxsize=1024)
def find_pans(text: str) -> tuple[Pan, ...]:
    """The pans a text names, the recipe's own first; a unit or shape not said is that of the other pan.

    Where no shape is said at all both are taken as round, which gives the same factor as any other common shape.
    Nothing where one of them is several pans.
    """
    groups: list[list[Amount]] = []
    for amount in find_amounts(text):
        if amount.unit not in _LENGTHS:
            continue
        if groups and len(groups[-1]) < 3 and _JOINS.match(text[groups[-1][-1].end : amount.start]):
            groups[-1].append(amount)
        else:
            groups.append([amount])
    if any(_SEVERAL.search(text[max(0, group[0].start - 8) : group[0].start]) for group in groups):
        return ()
    written = []
    for place, group in enumerate(groups):
        after = groups[place + 1][0].start if place + 1 < len(groups) else len(text)
        before = groups[place - 1][-1].end if place else 0
        tail = text[group[-1].end : min(after, group[-1].end + _NEAR)]
        shape = _SHAPE.search(tail) or (None if place else _SHAPE.search(text[before : group[0].start]))
        unit = next((a.unit for a in group if a.unit != "pan"), "")
        written.append((" x ".join(f"{a.value:g}" for a in group), unit, shape[0] if shape else ""))
    unit = next((u for _, u, _ in written if u), "")
    shape_word = next((s for _, _, s in written if s), "round" if len(written) > 1 else "")
    pans = []
    for sizes, own_unit, own_shape in written:
        single = " x " not in sizes
        named = own_shape or (shape_word if single else "")
        try:
            pans.append(read_pan(f"{sizes} {own_unit or unit} {named}".strip()))
        except InvalidMeasure:
            continue
    if len(pans) > 1 and len(groups) > 1 and _OLD_SECOND.search(text[groups[0][-1].end : groups[1][0].start]):
        pans[:2] = pans[1::-1]
    return tuple(pans)


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
