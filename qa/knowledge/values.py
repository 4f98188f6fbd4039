"""Values as the knowledge files write them: number, spread and unit.

    7 g/us_tbsp             the spread comes from the last digit: anything from 6.5 to 7.5 would have been printed as 7
    7 ± 0.3 g/us_tbsp       one standard spread
    6 to 8 g/us_tbsp        a range, any place in it equally likely
    8 %     12 g/100 g      shares
    0.5 g/0.25 us_tsp       read on a quarter of a measure

A rectangular distribution of half width a has the standard uncertainty a/√3 (GUM, JCGM 100:2008, 4.3.7).

>>> written = read_value("7 g/us_tbsp")
>>> written.value, round(written.spread, 4), written.unit
(7.0, 0.2887, 'g/us_tbsp')
>>> read_value("6 to 8 g")
Value(value=7.0, spread=0.5773502691896258, unit='g')
"""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from qa.errors import InvalidMeasure
from qa.measures.units import dimension, known, registry
from qa.text import nearest

_NUMBER = r"-?\d+(?:\.\d+)?"
_VALUE = re.compile(rf"({_NUMBER})(?:\s*(±|\+/-|\+-)\s*({_NUMBER})|\s+to\s+({_NUMBER}))?\s*(\S.*)?")
_PER_SEVERAL = re.compile(r"(\S+?)\s*/\s*(\d+(?:\.\d+)?)\s*(\S+)")
_UNIT = re.compile(r"(?:[A-Za-z_]{1,30}(?:/[A-Za-z_]{1,30})?)?")
_LONGEST = 80
_LARGEST = 1e12
# What PROPERTIES calls a kind of unit, where pint's own word for it is another.
_DIMENSIONS = {"energy per mass": "[energy] / [mass]", "length": "[length]", "number": "share"}
_EXAMPLES = {
    "density": "7 g/us_tbsp", "mass": "50 g", "share": "8 % or 0.45", "energy per mass": "364 kcal/100 g",
    "time": "10 min", "temperature": "75 degC", "length": "0.5 mm", "number": "5.5",
}  # fmt: skip


class Value(NamedTuple):
    """A value with one standard spread, both in the unit."""

    value: float
    spread: float
    unit: str


def read_value(text: str, resolution: str = "") -> Value:
    """A value from its text.

    Args:
        text: as in the table above.
        resolution: the step of the instrument or the rounding, in the same unit, where it is not the last digit.

    Raises:
        InvalidMeasure: it is not written like that, or the unit is unknown.
    """
    found = _VALUE.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if not found:
        raise InvalidMeasure(f"{text[:_LONGEST]!r} is no value", "write it like 7 g/us_tbsp, 7 ± 0.3 g, or 6 to 8 g")
    first, sign, spread, last, unit = found.groups()
    if resolution and (sign or last):
        raise InvalidMeasure(f"{text!r} has a spread and a resolution", "give one of the two")
    low, high = float(first), float(last or first)
    if high < low:
        raise InvalidMeasure(f"the range {first} to {last} runs backwards", f"write {last} to {first}")
    if max(abs(low), abs(high)) > _LARGEST:
        raise InvalidMeasure(f"{text!r} is larger than anything in a kitchen", "check the number")
    one_spread = _spread(first, spread, (high - low) / 2 if last else None, resolution)
    scale, unit = _unit(unit or "")
    return Value((low + high) / 2 * scale, one_spread * scale, unit)


def states_no_spread(text: str) -> bool:
    """Whether a value gives no spread or range of its own, so that only its digits or resolution speak.

    >>> states_no_spread("7 g/us_tbsp"), states_no_spread("6 to 8 g/us_tbsp")
    (True, False)
    """
    found = _VALUE.fullmatch(text.strip())
    return found is not None and not (found.group(2) or found.group(4))


def _spread(number: str, stated: str | None, half_width: float | None, resolution: str) -> float:
    if stated is not None:
        if float(stated) < 0:
            raise InvalidMeasure(f"the spread {stated} is negative", "give it as zero or more")
        return float(stated)
    if half_width is None:
        half_width = _step(number, resolution) / 2
    return half_width / math.sqrt(3)


def _step(number: str, resolution: str) -> float:
    """The resolution, or one unit of the number's last digit."""
    if not resolution:
        return float(10 ** -len(number.partition(".")[2]))
    try:
        step = float(resolution)
    except ValueError:
        step = -1.0
    if not 0 <= step < _LARGEST:
        raise InvalidMeasure(f"the resolution {resolution!r} is no number", "write it in the value's unit, e.g. 0.5")
    return step


def _unit(text: str) -> tuple[float, str]:
    """The unit as the registry writes it and what the number has to be multiplied with."""
    if text == "%":
        return 1.0, "percent"
    scale = 1.0
    if several := _PER_SEVERAL.fullmatch(text):
        upper, count, lower = several.groups()
        if float(count) == 0:
            raise InvalidMeasure(f"{text!r} divides by nothing", "give an amount above zero")
        if (upper, float(count), lower) == ("g", 100.0, "g"):
            return 1.0, "percent"
        scale, text = 1 / float(count), f"{upper}/{lower}"
    text = text.replace("°C", "degC").replace("°F", "degF")
    if not _UNIT.fullmatch(text) or not known(text):
        hint = nearest(text, (u for u in dir(registry()) if "_" in u or len(u) < 4))
        raise InvalidMeasure(f"{text!r} is no unit", f"did you mean {hint!r}?" if hint else "see qa/measures/units.txt")
    return scale, text


def require(value: Value, measures: str, name: str) -> None:
    """InvalidMeasure unless the value's unit measures what the property of that name needs."""
    wanted = _DIMENSIONS.get(measures, measures)
    found = dimension(value.unit)
    if found != wanted or (measures == "number" and value.unit):
        words = next((k for k, v in _DIMENSIONS.items() if v == found and v != "share"), found)
        what = f"a {words} ({value.unit})" if value.unit else "a plain number"
        raise InvalidMeasure(f"{name} needs a {measures}, not {what}", f"write it like {_EXAMPLES[measures]}")
