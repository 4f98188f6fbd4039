"""The one rounding rule: to what a kitchen scale or spoon can do, and never finer than the spread.

The last digit shown stands for at least the step (1 or 5 in some decade) just below one standard spread, after GUM
7.2.6 (from memory), and for at least what the tool can do: 1 g on a kitchen scale, 0.1 g below 5 g, common fractions of
spoons and cups. That the tools can do this is common practice, no source.

>>> show(21.0, 19.3, 22.7, "g"), show(1.68, 1.6, 1.76, "us_tbsp"), show_range(16.7, 23.3, "g")
('21 g', '1⅔ tbsp', '17 to 23 g')
"""

from __future__ import annotations

import math

from qa.errors import InvalidMeasure

# Shown ranges are the value ± 2 standard spreads (measure.COVERAGE), so a quarter of their width is one spread.
_SPREADS_IN_RANGE = 4.0
_EPS = 1e-9

_PREFIXES = ("us_label_", "us_", "metric_", "au_", "imperial_", "jp_")
_NAMES = {
    "percent": "%", "pct": "%", "degC": "°C", "degF": "°F", "deg": "°", "fl_oz": "fl oz", "each": "", "piece": "",
    "dimensionless": "", "inch": "in", "um": "µm", "liter": "L", "pan": "",
}  # fmt: skip
_PLURALS = {
    "cup": "cups", "pint": "pints", "quart": "quarts", "gallon": "gallons", "gill": "gills", "stick": "sticks",
    "day": "days", "week": "weeks", "month": "months", "year": "years", "pinch": "pinches", "dash": "dashes",
    "packet": "packets", "tin": "tins", "jar": "jars", "tub": "tubs", "slice": "slices", "clove": "cloves",
    "handful": "handfuls", "spoon": "spoons", "dessertspoon": "dessertspoons", "drop": "drops", "scoop": "scoops",
}  # fmt: skip
_SPOONED = frozenset({"tbsp", "tsp", "cup", "pint", "quart", "stick", "h", "each", "piece", "dessertspoon"})
# The smallest step that matters, as (from this value up, step), by unit; other units get three digits.
_STEPS: dict[str, tuple[tuple[float, float], ...]] = {
    "g": ((5.0, 1.0), (0.095, 0.1), (0.0, 0.01)),
    "mL": ((5.0, 1.0), (0.0, 0.1)),
    "percent": ((10.0, 1.0), (0.0, 0.1)), "pct": ((10.0, 1.0), (0.0, 0.1)),
    "degC": ((0.0, 1.0),), "degF": ((0.0, 1.0),), "deg": ((0.0, 1.0),), "gas_mark": ((1.0, 1.0), (0.0, 0.25)),
    "kcal": ((5.0, 1.0), (0.0, 0.1)), "kJ": ((5.0, 1.0), (0.0, 0.1)),
    "min": ((5.0, 1.0), (0.0, 0.5)), "day": ((0.0, 1.0),), "week": ((0.0, 1.0),), "month": ((0.0, 1.0),),
    "oz": ((0.0, 0.1),), "fl_oz": ((0.0, 0.1),), "lb": ((0.0, 0.1),), "kg": ((0.0, 0.01),), "L": ((0.0, 0.01),),
    "dL": ((0.0, 0.1),), "cL": ((0.0, 0.5),), "cm": ((10.0, 0.5), (0.0, 0.1)), "mm": ((0.0, 1.0),),
    "inch": ((0.0, 0.1),),
}  # fmt: skip
# Fractions a cook can measure, by size of the amount; above the last only whole ones.
_FRACTIONS = ((2.0, (2, 3, 4, 8)), (5.0, (2, 3, 4)), (10.0, (2,)))
_SIGNS = {
    (1, 2): "½", (1, 3): "⅓", (2, 3): "⅔", (1, 4): "¼", (3, 4): "¾", (1, 8): "⅛", (3, 8): "⅜", (5, 8): "⅝", (7, 8): "⅞",
}  # fmt: skip


def show(value: float, low: float, high: float, unit: str) -> str:
    """A value as it may be shown, with its unit; low and high are the ends of its shown range.

    >>> show(563.0, 540.0, 586.0, "g"), show(0.75, 0.75, 0.75, "us_cup"), show(2.2400, 2.2398, 2.2402, "")
    ('560 g', '¾ cup', '2.24')
    """
    _refuse_nonsense(value, low, high)
    spread = (max(high, value) - min(low, value)) / _SPREADS_IN_RANGE
    number, size = _number(value, spread, unit)
    if value > 0 and size == 0:
        number, size = _upper(max(high, value), spread, unit)
    return _with_unit(number, size, unit)


def show_range(low: float, high: float, unit: str) -> str:
    """A range as it may be shown; one value where both ends round to the same.

    >>> show_range(1.5, 2.0, "us_cup"), show_range(0.9, 1.1, "us_tsp")
    ('1½ to 2 cups', '⅞ to 1⅛ tsp')
    """
    _refuse_nonsense(low, low, high)
    spread = (high - low) / _SPREADS_IN_RANGE
    first, _ = _number(low, spread, unit)
    last, size = _number(high, spread, unit)
    return _with_unit(last if first == last else f"{first} to {last}", size, unit)


def unit_name(unit: str, size: float = 1.0) -> str:
    """A unit as people write it: 'tbsp', 'cups', '°C', 'g per tbsp'.

    >>> unit_name("g/us_tbsp"), unit_name("au_cup", 2.0), unit_name("pct")
    ('g per tbsp', 'cups', '%')
    """
    if "/" in unit:
        top, _, bottom = unit.partition("/")
        return f"{unit_name(top, size)} per {unit_name(bottom)}"
    bare = bare_unit(unit)
    if size > 1.0 + _EPS or size == 0.0:
        return _PLURALS.get(bare, _NAMES.get(bare, bare))
    return _NAMES.get(bare, bare.replace("_", " "))


def bare_unit(unit: str) -> str:
    """A measure without its region: 'us_tbsp' is 'tbsp'."""
    return next((unit.removeprefix(prefix) for prefix in _PREFIXES if unit.startswith(prefix)), unit)


def plain(value: float) -> str:
    """A number for a line of working: four digits, no more zeros than needed, never with an exponent.

    >>> plain(21.0), plain(1.35256), plain(0.03333333), plain(123456.7)
    ('21', '1.353', '0.03333', '123457')
    """
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    decimals = max(0, 3 - math.floor(math.log10(abs(value)) + _EPS))
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _refuse_nonsense(*numbers: float) -> None:
    if not all(math.isfinite(number) for number in numbers):
        raise InvalidMeasure("a number to be shown is not finite", "check the amounts the sum began with")


def _with_unit(number: str, size: float, unit: str) -> str:
    name = unit_name(unit, size)
    if bare_unit(unit) == "gas_mark":
        return f"gas mark {number}"
    return f"{number}{'' if name in ('', '°') else ' '}{name}"


def _number(value: float, spread: float, unit: str) -> tuple[str, float]:
    """The rounded number as text and as a value."""
    if bare_unit(unit) in _SPOONED and value >= 0 and (parts := _spoonful(value, spread)):
        return parts
    step = max(_tool(value, unit), _step_below(spread))
    rounded = math.copysign(math.floor(abs(value) / step + 0.5 + _EPS) * step, value)
    decimals = max(0, -math.floor(math.log10(step) + _EPS))
    decimals += 1 if step == 0.25 else 0
    text = f"{rounded:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-0", "0") if rounded == 0 else text.replace("-", "−"), rounded


def _upper(high: float, spread: float, unit: str) -> tuple[str, float]:
    """For a value too small to show at its step: 'under' the upper end of its range."""
    step = 1 / 8 if bare_unit(unit) in _SPOONED and spread < 1 / 8 else max(_tool(high, unit), _step_below(spread))
    top = max(1.0, math.ceil(high / step - _EPS)) * step
    number, size = _number(top, spread, unit)
    return f"under {number}", size


def _tool(value: float, unit: str) -> float:
    """The smallest step that means something in that unit at that size."""
    steps = _STEPS.get(bare_unit(unit))
    if steps is None:
        return 10.0 ** (math.floor(math.log10(abs(value))) - 2) if value else 1.0
    return next(step for least, step in steps if abs(value) >= least - _EPS)


def _step_below(spread: float) -> float:
    """The largest of 1, 5, 10, 50 … (and 0.5, 0.1 …) not above a spread; 0 for none."""
    if spread <= 0:
        return 0.0
    decade = 10.0 ** math.floor(math.log10(spread) + _EPS)
    return 5 * decade if spread >= 5 * decade else decade


def _spoonful(value: float, spread: float) -> tuple[str, float] | None:
    """A mixed number in fractions a cook can measure and no finer than the spread; None where whole ones do."""
    allowed = next((parts for most, parts in _FRACTIONS if value <= most), ())
    grid = [bottom for bottom in allowed if 1 / bottom >= spread - _EPS]
    if not grid and spread > 1:
        return None
    tops = ((round(value * bottom), bottom) for bottom in (1, *grid))
    top, bottom = min(tops, key=lambda part: (round(abs(part[0] / part[1] - value), 9), part[1]))
    whole, rest = divmod(top, bottom)
    sign = _SIGNS.get(_lowest(rest, bottom), "")
    return (f"{whole}{sign}" if whole or not sign else sign), top / bottom


def _lowest(top: int, bottom: int) -> tuple[int, int]:
    common = math.gcd(top, bottom) or 1
    return top // common, bottom // common
