"""Amounts as people write them: ½, 1-1/2, "one and a half", "2 to 3", T and t, tbs, c.

>>> [(a.value, a.unit) for a in find_amounts("2½ cups flour, 1 T. sugar, 180C for 25 min")]
[(2.5, 'cup'), (1.0, 'tbsp'), (180.0, 'degC'), (25.0, 'min')]
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from qa.errors import InvalidMeasure
from qa.measures.patterns import (
    AMOUNT,
    AND,
    GAS,
    JOINS,
    LAST_WORDS,
    MANNERS_OF,
    OF_SOMETHING,
    PAN,
    REGIONS_OF,
    SLASH,
    TERMS,
    TRIGGER,
    UNITS,
    VAGUELY,
)
from qa.measures.units import regional
from qa.measures.words import MANNERS, NUMBER_WORDS, PARTS, VAGUE, VULGAR


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as the writer gave it, before any conversion.

    Attributes:
        value, low, high: low = high = value unless a range or a vague number ("a few") was given.
        unit: a registry unit ('g', 'us_cup', 'degC', 'percent', 'min'), a bare measure ('tbsp', 'cup'), a household one
            ('stick', 'pinch', 'tin', 'gas_mark'), 'deg' for degrees of an unnamed scale, 'pan' for the side of a pan
            without a unit, 'each', or '' for a plain number.
        manner: 'level', 'heaped', 'scant', 'packed', 'sifted', 'spooned', 'dipped', or ''.
        start, end: characters in the cleaned text; -1 if it was not read from one.
    """

    value: float
    low: float
    high: float
    unit: str
    manner: str = ""
    start: int = -1
    end: int = -1


_PREFIX_REGION = {"us": "US", "au": "AU", "jp": "JP", "metric": "NZ", "uk": "UK"}
_LABEL_UNITS = ("tbsp", "tsp", "cup", "fl_oz", "oz")
_IMPERIAL_UNITS = ("cup", "pint", "quart", "gallon", "fl_oz", "gill")
# Above this many, a lone C or c is a temperature and not a cup; below this many, a lone F is no temperature.
_MOST_CUPS, _LEAST_FAHRENHEIT = 20, 30
_PAN_SIDES = (5, 60)


def find_amounts(text: str) -> list[Amount]:
    """All amounts in a text, in order, with their places; never raises.

    >>> [(a.value, a.low, a.high, a.unit, a.manner) for a in find_amounts("a heaped tbs, or 2 to 3 au tbsp")]
    [(1.0, 1.0, 1.0, 'tbsp', 'heaped'), (2.5, 2.0, 3.0, 'au_tbsp', '')]
    """
    return list(_found(text))


@lru_cache(maxsize=512)
def _found(text: str) -> tuple[Amount, ...]:
    """The amounts of a text; several readers look at the same one, so the last few are kept."""
    found: list[Amount] = []
    place = 0
    pan_end = -1
    for trigger in TRIGGER.finditer(text):
        start = trigger.start()
        if start < place:
            continue
        if pan := _pan_at(text, start):
            found += pan
            place = pan_end = pan[-1].end
        elif start > pan_end and (amount := _amount_at(text, start, place)):
            found.append(amount)
            place = amount.end
    return tuple(found)


def parse_amount(text: str) -> Amount:
    """The one amount that a text is; InvalidMeasure if it is none, or more than one.

    >>> parse_amount("1-1/2 us cups").unit
    'us_cup'
    """
    amount, rest = split_amount(text)
    if rest:
        raise InvalidMeasure(
            f"{rest!r} is left over after the amount in {text!r}", "write an amount alone, like 2 tbsp"
        )
    return amount


def split_amount(text: str) -> tuple[Amount, str]:
    """The amount a text begins with, and what comes after it; InvalidMeasure if it does not begin with one.

    >>> split_amount("about 1½ cups of oat flour")[1]
    'oat flour'
    """
    said = text.strip()
    found = find_amounts(said)
    vaguely = VAGUELY.match(said)
    if not found or (vaguely.end() if vaguely else 0) < found[0].start:
        raise InvalidMeasure(
            f"{text!r} does not begin with an amount", "write a number and a measure, like 2 tbsp or 30 g"
        )
    if said[0] in "-−" and not found[0].unit.startswith("deg"):
        raise InvalidMeasure(f"{text!r} is less than nothing", "give an amount of zero or more")
    return found[0], re.sub(r"^\s*(?:of\s+)?", "", said[found[0].end :])


def _amount_at(text: str, start: int, after: int) -> Amount | None:
    """The amount whose number begins at a place, or None; `after` is where the last one ended."""
    if start and text[start - 1] in ".,:/" and text[start - 2 : start - 1].isdigit():
        return None
    match = AMOUNT.match(text, start)
    if match is None or match.end() == start:
        return None
    low = _number(match["low"] or "one")
    unit = _unit(match, low[0])
    if unit is None or (not unit and (match["low"] or "a")[0].isalpha() and _idle(match)):
        return None
    high = _number(match["high"]) if match["high"] else low
    value, ends = (low[0], (low[1], low[2])) if high is low else ((low[0] + high[0]) / 2, _sorted(low[1], high[2]))
    if match["more"]:
        value, ends = _plus(_number(AND.sub("", match["more"]))[0], value, ends)
    manner = match["manner"] or match["manner_2"] or match["manner_3"] or ""
    manner = _name(MANNERS_OF, manner.lower()) if manner else ""
    kind, begin = _before(text, max(0, after), start)
    if kind == "minus" and unit in ("degC", "degF", "deg", "cup", ""):
        return Amount(-value, -ends[1], -ends[0], "degC" if unit == "cup" else unit, manner, begin, match.end())
    if kind == "gas_mark":
        return Amount(value, *ends, "gas_mark", "", begin, match.end())
    if kind in MANNERS:
        return Amount(value, *ends, unit, manner or kind, begin, match.end())
    return Amount(value, *ends, unit, manner, start, match.end())


def _sorted(low: float, high: float) -> tuple[float, float]:
    return (low, high) if low <= high else (high, low)


def _plus(more: float, value: float, ends: tuple[float, float]) -> tuple[float, tuple[float, float]]:
    return value + more, (ends[0] + more, ends[1] + more)


def _before(text: str, after: int, start: int) -> tuple[str, int]:
    """What stands just before a number: 'gas_mark', 'minus', a manner or '', and where that begins."""
    before = LAST_WORDS.search(text, max(after, start - 12), start)
    if before is None:
        return "", start
    word = before[0].strip().lower()
    kind = "minus" if word in "-−" else "gas_mark" if GAS.fullmatch(word) else _name(MANNERS_OF, word)
    return kind, before.start()


def _idle(match: re.Match[str]) -> bool:
    """Whether a number word without a unit says no amount: 'a', 'one', or a half of nothing in particular."""
    word = match["low"].lower()
    if word in NUMBER_WORDS:
        return NUMBER_WORDS[word] == 1.0
    if any(part in word for part in PARTS):
        return not OF_SOMETHING.match(match.string, match.end())
    return word.endswith(("couple", "few"))


def _unit(match: re.Match[str], value: float) -> str | None:
    """The unit an amount was written in; '' for a plain number; None if a spelt number stands before a letter."""
    if match["degrees"] is not None:
        scale = (match["scale"] or "").lower()[:1]
        return {"c": "degC", "f": "degF"}.get(scale, "deg")
    if match["inch"]:
        return "inch"
    if match["letter"]:
        return _letter(match["letter"], value) if not (match["low"] or "a").isalpha() else None
    if not match["unit"]:
        return ""
    spelling = match["unit"].lower()
    if "_" in spelling:
        return spelling
    unit = _name(UNITS, spelling)
    region = match["region"] or match["region_2"]
    return _in_region(unit, _name(REGIONS_OF, region)) if region else unit


def _letter(letter: str, value: float) -> str:
    if letter in "cC":
        return "cup" if value <= _MOST_CUPS else "degC"
    if letter in "fF":
        return "degF" if value >= _LEAST_FAHRENHEIT else ""
    return "tbsp" if letter == "T" else "tsp"


def _in_region(unit: str, prefix: str) -> str:
    if prefix == "us_label" and unit in _LABEL_UNITS:
        return f"us_label_{unit}"
    if prefix == "imperial" and unit in _IMPERIAL_UNITS:
        return f"imperial_{unit}"
    return regional(unit, _PREFIX_REGION.get(prefix)) or unit


@lru_cache(maxsize=4096)
def _name(names: re.Pattern[str], spelling: str) -> str:
    found = names.fullmatch(spelling)
    return str(found.lastgroup) if found else ""


@lru_cache(maxsize=4096)
def _number(text: str) -> tuple[float, float, float]:
    """A number as written, as value, low and high.

    >>> _number("1-1/2")[0], _number("one and a half")[0], _number("2½")[0], _number("1,5")[0]
    (1.5, 1.5, 2.5, 1.5)
    """
    said = JOINS.sub(" ", SLASH.sub("/", text.lower())).strip()
    for word, (value, low, high) in VAGUE.items():
        if said.endswith(word):
            return float(value), float(low), float(high)
    total = NUMBER_WORDS[said] if said in NUMBER_WORDS else sum(_term(term) for term in TERMS.split(said))
    return total, total, total


def _term(term: str) -> float:
    """One term of a sum: '3', '1/2', '2½', '½', 'two thirds', 'half'."""
    count, _, part = term.rpartition(" ")
    if (share := PARTS.get(part.removesuffix("s") if part != "halves" else "half")) is not None:
        return NUMBER_WORDS.get(count or "one", 1.0) * share
    if term in NUMBER_WORDS:
        return NUMBER_WORDS[term]
    if term[-1] in VULGAR:
        return float(term[:-1].strip() or 0) + VULGAR[term[-1]]
    top, slash, bottom = term.partition("/")
    return float(top) / float(bottom) if slash else _decimal(term)


def _decimal(digits: str) -> float:
    thousands = re.fullmatch(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?", digits)
    return float(digits.replace(",", "") if thousands else digits.replace(",", "."))


def _pan_at(text: str, start: int) -> list[Amount]:
    """The sides of a pan such as 9x13 or 20 x 20 cm that begins at a place; empty if there is none."""
    match = PAN.match(text, start)
    if match is None:
        return []
    written = (match["unit"] or match["unit_a"] or "").lower()
    sides = [(group, _number(match[group])[0]) for group in "abc" if match[group]]
    likely = all(_PAN_SIDES[0] <= side <= _PAN_SIDES[1] for _, side in sides[:2])
    if not written and (not likely or text[match.end() : match.end() + 1].isalnum()):
        return []
    unit = {"c": "cm", "m": "mm", "": "pan"}.get(written[:1], "inch")
    last = match.end() if match["unit"] else match.end(sides[-1][0])
    ends = [match.end(group) for group, _ in sides[:-1]] + [last]
    return [Amount(s, s, s, unit, "", match.start(g), end) for (g, s), end in zip(sides, ends, strict=True)]
