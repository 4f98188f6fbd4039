"""The asker's own sum: right or wrong, one line of working, and the corrected figure.

>>> check_text("500 g flour and 350 g water is 70 %?").words
'350 ÷ 500 = 70 %, right'
>>> check_text("flax is 1:3 so 2 tbsp flax to 5 tbsp water, right?").words
'2 tbsp × 3 = 6 tbsp, not 5 tbsp'
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from qa.errors import InvalidMeasure
from qa.kitchen.heat import convert
from qa.kitchen.read_shares import find_shared
from qa.kitchen.sums import Sum, full_unit, said
from qa.kitchen.weights import to_mass
from qa.measures.measure import Measure
from qa.measures.parse import Amount, find_amounts
from qa.measures.resolve import resolve
from qa.measures.show import plain, show, unit_name
from qa.measures.units import BARE, dimension

# A claim counts as right within a hundredth, or within half of its own last digit where that is coarser.
_NEAR = 0.01
# A spoonful weighed differs from a table's by more than this between one filling and the next (common practice).
_FILLING = 0.08
_RATIO = re.compile(
    r"(?<![\d:.,/])(\d{1,4}(?:\.\d{1,3})?)\s?(?::|to|in)\s?(\d{1,4}(?:\.\d{1,3})?)(?![\d:.,]*\d)(?!\s?(?:g|tbsp|tsp|cups?|min)\b)"
)
_N = r"\d{1,6}(?:\.\d{1,4})?"
_IS = r"(?:=|is|makes|equals|gives|,?\s?(?:in\s)?total(?:s|\sis)?)"
_ARITHMETIC = re.compile(
    rf"(?<![\d.,/*×)])(?:\((?P<a>{_N})\s?\+\s?(?P<b>{_N})\)|(?P<first>{_N}))\s?(?:g\s?)?"
    rf"(?P<sign>[x×*+/÷−-]|divided by|times|plus|minus|over|[a-z]{{2,8}}\s(?:of|at)(?=\s{_N}\s?g?\s?=))\s?"
    rf"(?P<second>{_N})\s?(?:g\s?)?{_IS}\s?(?:about\s)?(?P<claimed>\d{{1,7}}(?:\.\d{{1,4}})?)"
    r"(?![\d.,/]*\d)(?P<percent>\s?(?:%|per ?cent))?",
    re.IGNORECASE,
)
_SIGNS = {
    "x": "×", "*": "×", "×": "×", "+": "+", "/": "÷", "÷": "÷", "-": "−", "−": "−", "divided by": "÷", "over": "÷",
    "times": "×", "plus": "+", "minus": "−",
}  # fmt: skip
_PART_OF = re.compile(
    r"(?<![\w/])(?:(half|a third|a quarter|two thirds|three quarters|double|twice|triple|halving|doubling|tripling)"
    r"(?:\s(?:of|the))?|(1/2|1/3|1/4|2/3|3/4|½|⅓|¼|⅔|¾)\sof)\s",
    re.IGNORECASE,
)
_FACTORS = {
    "half": 0.5, "halving": 0.5, "a third": 1 / 3, "a quarter": 0.25, "double": 2.0, "doubling": 2.0, "twice": 2.0,
    "triple": 3.0, "tripling": 3.0, "two thirds": 2 / 3, "three quarters": 0.75, "1/2": 0.5, "½": 0.5, "1/3": 1 / 3,
    "⅓": 1 / 3, "1/4": 0.25, "¼": 0.25, "2/3": 2 / 3, "⅔": 2 / 3, "3/4": 0.75, "¾": 0.75,
}  # fmt: skip
_EQUALS = re.compile(
    r"^\s?(?:[a-z]{1,14}\s){0,4}(?:=|is|are|so|equals?|makes?|weighs?|would be|comes to)\s"
    r"(?:about\s|roughly\s|like\s)?$",
    re.IGNORECASE,
)
_EACH = re.compile(r"\b(?:each|apiece|every|per|a piece)\b", re.IGNORECASE)
_STARTER = re.compile(r"\b(?:starter|levain)\b", re.IGNORECASE)
_ELSEWHERE = {"NZ": "taking a metric measure", "AU": "taking an Australian measure", "JP": "taking a Japanese measure"}
_FLOUR = re.compile(r"^\s?(?:of\s)?(?:[a-z]{1,14}\s){0,2}flour\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Checked:
    """What became of the asker's sum.

    Attributes:
        kind: 'ratio', 'percent', 'arithmetic', 'part', 'share', 'conversion' or 'weight'.
        right: whether it holds, within what the claim's own digits can say.
        words: one line: the working, and 'right' or the asker's figure after 'not'.
        sum: the corrected figure.
        start, end: characters of the text that the check covers; -1 where it was not read from one.
        assumed: whose spoon or cup was taken, a clause; '' if it was plain.

    """

    kind: str
    right: bool
    words: str
    sum: Sum
    start: int = -1
    end: int = -1
    assumed: str = ""


def check_ratio(share: float, other_share: float, first: Measure, second: Measure) -> Checked:
    """'1:3, so 2 tbsp to 6 tbsp': whether two amounts stand in a ratio; the second is corrected."""
    if share <= 0 or other_share <= 0:
        raise InvalidMeasure("a ratio has no part of nothing", "give both parts above zero, like 1:3")
    times = other_share / share
    wanted = (first * times).to(second.unit)
    right = _close(second.value, wanted.value)
    left = f"{said(first)} × {plain(times)}"
    same = "" if first.unit == second.unit else f" = {said(first * times)}"
    return _checked("ratio", right, f"{left}{same}", wanted, said(second))


def check_percent(part: Measure, whole: Measure, claimed: float, digits: int = 0) -> Checked:
    """'350 g water on 500 g flour is 70 %': a share of one amount in another, in percent."""
    if whole.value <= 0:
        raise InvalidMeasure("nothing is no whole to take percent of", "give an amount above zero")
    share = (part.to(whole.unit) / whole).to("percent")
    right = _close(claimed, share.value, digits)
    left = f"{plain(part.to(whole.unit).value)} ÷ {plain(whole.value)}"
    return _checked("percent", right, left, share, f"{plain(claimed)} %")


def check_conversion(left: Measure, right: Measure, density: Measure | None = None) -> Checked:
    """'16 oz is 454 g', '350 °F is 180 °C', '3 tbsp flax is 21 g': the left amount in the unit of the right one.

    A spoonful against a weight needs the density of that form; NoKnowledge without it.
    """
    kinds = dimension(left.unit), dimension(right.unit)
    if kinds == ("temperature", "temperature"):
        found = convert(left.value, full_unit(left.unit), full_unit(right.unit))
        # Oven dials are printed in tens of °C and twenty-fives of °F, so five degrees is as near as they go.
        near = abs(found.measure.value - right.value) <= 5.0
        return _checked("conversion", near, found.working[0].rpartition(" = ")[0], found.measure, said(right))
    if kinds == ("volume", "mass"):
        weighed = to_mass(left, density)
        exact = weighed.measure.to(right.unit)
        low, high = weighed.measure.to(right.unit).low, weighed.measure.to(right.unit).high
        verdict = low <= right.value <= high or abs(right.value - exact.value) <= _FILLING * exact.value
        return _checked("weight", verdict, weighed.working[-1].partition(" = ")[0], exact, said(right))
    if kinds == ("mass", "volume"):
        return check_conversion(right, left, density)  # what the measure weighs, since a weight needs no filling
    exact = left.to(right.unit)
    return _checked("conversion", _close(right.value, exact.value), said(left), exact, said(right))


def check_arithmetic(first: float, sign: str, second: float, claimed: float, digits: int = 0) -> Checked:
    """'3 × 7 = 21': one sum of two numbers."""
    shown = _SIGNS.get(sign, sign)
    if shown == "÷" and second == 0:
        raise InvalidMeasure("division by nothing", "give a divisor above zero")
    results = {"×": first * second, "+": first + second, "−": first - second}
    value = first / second if shown == "÷" else results[shown]
    measure = Measure.exact(value, "dimensionless")
    right = _close(claimed, value, digits)
    return _checked("arithmetic", right, f"{plain(first)} {shown} {plain(second)}", measure, plain(claimed))


def check_part(times: float, whole: Measure, claimed: Measure) -> Checked:
    """'half of ¾ cup is ⅜ cup': a multiple of an amount."""
    exact = (whole * times).to(claimed.unit)
    left = f"{said(whole)} × {plain(times)}"
    return _checked("part", _close(claimed.value, exact.value), left, exact, said(claimed))


def check_text(text: str, region: str | None = None, density: Measure | None = None) -> Checked | None:
    """The first sum that a text shows, checked; None if it shows none that can be checked.

    NoKnowledge where it claims the weight of a spoonful and no density was given.
    """
    amounts = find_amounts(text)
    for look in (_text_arithmetic, _text_percent, _text_ratio, _text_shared, _text_part):
        if found := look(text, amounts, region):
            return found
    return _text_conversion(text, amounts, region, density)


def _text_arithmetic(text: str, amounts: list[Amount], region: str | None) -> Checked | None:
    del amounts, region
    match = _ARITHMETIC.search(text)
    if match is None:
        return None
    first = float(match["first"] or 0) or float(match["a"]) + float(match["b"])
    second, claimed = float(match["second"]), float(match["claimed"])
    sign = match["sign"].lower()
    sign = sign if sign in _SIGNS else "×"  # "6 eggs of 50 g = 300 g"
    digits = _digits(match["claimed"])
    if match["percent"] and _SIGNS[sign] == "÷":
        part, whole = (Measure.exact(one, "g") for one in (first, second))
        return _placed(check_percent(part, whole, claimed, digits), match.start(), match.end())
    return _placed(check_arithmetic(first, sign, second, claimed, digits), match.start(), match.end())


def _text_percent(text: str, amounts: list[Amount], region: str | None) -> Checked | None:
    percents = [amount for amount in amounts if amount.unit == "percent"]
    weighed = [amount for amount in amounts if amount.unit in ("g", "kg", "oz", "lb", "") and amount.value > 0]
    if not percents or len(weighed) < 2 or _STARTER.search(text):
        return None
    first, second = weighed[:2]
    whole, part = (second, first) if _FLOUR.match(text[second.end :]) else (first, second)
    if not _FLOUR.match(text[whole.end :]):  # no flour named: the greater one is the whole
        whole, part = (first, second) if first.value >= second.value else (second, first)
    unit = whole.unit or part.unit or "g"
    measures = [resolve(replace(amount, unit=amount.unit or unit), region)[0] for amount in (part, whole)]
    if dimension(measures[0].unit) != dimension(measures[1].unit):
        return None
    for claimed in percents:
        written = text[claimed.start : claimed.end]
        found = check_percent(measures[0], measures[1], claimed.value, _digits(written))
        if found.right or len(percents) == 1:  # of several percents a wrong one may be about something else
            ends = (first, second, claimed)
            return _placed(found, min(a.start for a in ends), max(a.end for a in ends))
    return None


def _text_ratio(text: str, amounts: list[Amount], region: str | None) -> Checked | None:
    match = _RATIO.search(text)
    if match is None:
        return None
    pair = [a for a in amounts if a.unit and a.unit != "percent" and not match.start() <= a.start < match.end()][:2]
    if len(pair) < 2:
        return None
    first, second = (resolve(amount, region)[0] for amount in pair)
    if dimension(first.unit) != dimension(second.unit):
        return None
    found = check_ratio(float(match[1]), float(match[2]), first, second)
    return _placed(found, min(match.start(), pair[0].start), max(match.end(), pair[1].end))


def _text_shared(text: str, amounts: list[Amount], region: str | None) -> Checked | None:
    """'180 g carbs, cut into 12, each is 15 g': what one piece of a whole holds."""
    del region
    shared = find_shared(text)
    if shared is None:
        return None
    rest = [
        a
        for a in amounts
        if a not in (shared.whole, shared.pieces) and a.unit in (shared.whole.unit, "", "each") and a.value
    ]
    if len(rest) != 1 or not _EACH.search(text[rest[0].start :] + text[max(0, rest[0].start - 12) : rest[0].start]):
        return None
    whole, claimed = Measure.exact(shared.whole.value, shared.whole.unit), rest[0].value
    each = whole / shared.pieces.value
    left = f"{said(whole)} ÷ {plain(shared.pieces.value)}"
    right = _close(claimed, each.value, _digits(text[rest[0].start : rest[0].end]))
    found = _checked("share", right, left, each, plain(claimed))
    return _placed(found, shared.whole.start, rest[0].end)


def _text_part(text: str, amounts: list[Amount], region: str | None) -> Checked | None:
    for match in _PART_OF.finditer(text):
        after = [amount for amount in amounts if amount.start >= match.end() - 1 and amount.unit]
        if len(after) >= 2 and _EQUALS.match(text[after[0].end : after[1].start]):
            whole, claimed = (resolve(amount, region)[0] for amount in after[:2])
            if dimension(whole.unit) != dimension(claimed.unit):
                return None
            found = check_part(_FACTORS[(match[1] or match[2]).lower()], whole, claimed)
            return _placed(found, match.start(), after[1].end)
    return None


def _text_conversion(text: str, amounts: list[Amount], region: str | None, density: Measure | None) -> Checked | None:
    checked: list[Checked] = []
    for first, second in pairwise(amounts):
        if not (first.unit and second.unit and _EQUALS.match(text[first.end : second.start])):
            continue
        if first.unit == second.unit:
            continue  # no conversion: part of another sum
        found = _compared(first, second, region, density)
        bare = {first.unit, second.unit} & set(BARE)
        if found and found.kind == "conversion" and not found.right and region is None and bare:
            # What is so by definition somewhere is not wrong: say where.
            elsewhere = (_compared(first, second, other, density) for other in _ELSEWHERE)
            found = next((other for other in elsewhere if other and other.right), found)
        if found:
            checked.append(_placed(found, first.start, second.end))
    return next((one for one in checked if not one.right), checked[0] if checked else None)


def _compared(first: Amount, second: Amount, region: str | None, density: Measure | None) -> Checked | None:
    (left, assumed), (right, also) = resolve(first, region), resolve(second, region)
    kinds = dimension(left.unit), dimension(right.unit)
    if kinds[0] != kinds[1] and set(kinds) != {"volume", "mass"}:
        return None
    found = check_conversion(left, right, density)
    where = assumed or also or _ELSEWHERE.get(region or "", "") if {first.unit, second.unit} & set(BARE) else ""
    return replace(found, assumed=where)


def _digits(written: str) -> int:
    return len(re.sub(r"\D", "", written.partition(".")[2]))


def _close(claimed: float, exact: float, digits: int | None = None) -> bool:
    half_digit = 0.0 if digits is None else 0.5 * 10.0**-digits
    return abs(claimed - exact) <= max(_NEAR * abs(exact), half_digit) + 1e-9


def _checked(kind: str, right: bool, left: str, exact: Measure, claimed: str) -> Checked:
    unit = full_unit(exact.unit)
    name = unit_name(unit, exact.value)
    shown = (
        f"{plain(exact.value)} {name}".rstrip() if kind != "weight" else show(exact.value, exact.low, exact.high, unit)
    )
    verdict = "right" if right else f"not {claimed}"
    words = f"{left} = {shown}, {verdict}"
    return Checked(kind, right, words, Sum(exact, (f"{left} = {shown}",)))


def _placed(found: Checked, start: int, end: int) -> Checked:
    return replace(found, start=start, end=end)
