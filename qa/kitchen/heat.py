"""Oven settings, boiling points by altitude, safe core temperatures by authority.

>>> convert(350.0, "degF", "degC").text, convert(4.0, "gas_mark", "degF").text, boiling_point(1500.0).text
('177 °C', '350 °F', '95 °C')
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum
from qa.measures.measure import Measure
from qa.measures.show import plain
from qa.measures.units import factor

# Gas marks 1 to 9 are 25 °F apart from 275 °F; the two below are quarter and half. The dial of an oven in Celsius is
# rounded, in two places differently by different charts: gas mark table (online encyclopedia article, UK charts).
GAS_MARKS: dict[float, tuple[float, float, float]] = {
    0.25: (225.0, 110.0, 110.0), 0.5: (250.0, 120.0, 130.0), 1.0: (275.0, 140.0, 140.0), 2.0: (300.0, 150.0, 150.0),
    3.0: (325.0, 160.0, 170.0), 4.0: (350.0, 180.0, 180.0), 5.0: (375.0, 190.0, 190.0), 6.0: (400.0, 200.0, 200.0),
    7.0: (425.0, 220.0, 220.0), 8.0: (450.0, 230.0, 230.0), 9.0: (475.0, 240.0, 240.0),
}  # fmt: skip
# UK conversion charts: a fan oven is set lower than a conventional one; most say 20 °C, some 25.
FAN_LOWER = (20.0, 25.0)
_SCALES = ("degC", "degF", "gas_mark")
_COLDEST, _HOTTEST = -30.0, 400.0
# Weather moves the boiling point by about half a degree (common practice); printed charts differ by up to 0.4 °C.
_WEATHER = 0.5
_LOWEST_M, _HIGHEST_M = -430.0, 6000.0  # the Dead Sea; far above the highest town
OVEN_CAUTIONS = (
    "oven dials are often off by ten degrees or more; an oven thermometer tells",
    "times change with the pan, the depth and the oven, so go by the look and the core of the bake",
)  # Common practice, no source.


def convert(value: float, scale: str, other: str) -> Sum:
    """An oven or core temperature on another scale: 'degC', 'degF' or 'gas_mark'.

    Gas marks are steps: to a gas mark the nearest one is given, with the span it covers as its ends.
    """
    if scale not in _SCALES or other not in _SCALES:
        raise InvalidMeasure(f"no oven is set in {scale} or {other}", "give °C, °F or a gas mark")
    if not math.isfinite(value):
        raise InvalidMeasure("the temperature is no number", "give it in °C, °F or as a gas mark")
    if scale == "gas_mark":
        return _from_gas_mark(value, other)
    celsius = value if scale == "degC" else fahrenheit_to_celsius(value)
    if not _COLDEST <= celsius <= _HOTTEST:
        raise InvalidMeasure(f"{plain(value)} {scale} is no temperature of a kitchen", "check the value and the scale")
    if other == "gas_mark":
        return _to_gas_mark(celsius)
    if scale == other:
        return Sum(_temperature(value, other), (f"{plain(value)} is on that scale already",))
    if other == "degC":
        return Sum(_temperature(celsius, "degC"), (f"({plain(value)} − 32) × 5/9 = {plain(celsius)} °C",))
    fahrenheit = celsius_to_fahrenheit(celsius)
    return Sum(_temperature(fahrenheit, "degF"), (f"{plain(value)} × 9/5 + 32 = {plain(fahrenheit)} °F",))


@dataclass(frozen=True, slots=True)
class Oven:
    """One reading of an oven setting: the scale it was read on, the same on the other scales, and the fan setting."""

    scale: str
    on: dict[str, Sum]
    fan: Sum | None
    cautions: tuple[str, ...] = OVEN_CAUTIONS


# Where ovens are usually set, to tell a bare "350" from a bare "180"; common practice, no source.
_USUAL = {"degC": (90.0, 280.0), "degF": (200.0, 550.0)}


def oven(value: float, unit: str) -> tuple[Oven, ...]:
    """An oven setting on all scales; 'deg' or '' for a scale that was not named gives each reading that could be meant.

    >>> [reading.on["degC"].text for reading in oven(350.0, "deg")]
    ['177 °C']
    """
    if unit in ("deg", ""):
        scales = [scale for scale, (low, high) in _USUAL.items() if low <= value <= high]
        if not scales:
            raise InvalidMeasure(f"no oven is set to {plain(value)} degrees", "say Celsius or Fahrenheit")
        return tuple(reading for scale in scales for reading in oven(value, scale))
    on: dict[str, Sum] = {}
    for other in _SCALES:
        try:
            on[other] = convert(value, unit, other)
        except InvalidMeasure:
            if other != "gas_mark" or unit == "gas_mark":  # beyond the gas marks there is none to give
                raise
    celsius = on["degC"].measure.value
    low, high = _USUAL["degC"]
    return (Oven(unit, on, fan(celsius) if low <= celsius <= high else None),)


def celsius_to_fahrenheit(celsius: float) -> float:
    """°F = °C × 9/5 + 32, exact by definition.

    >>> celsius_to_fahrenheit(180.0)
    356.0
    """
    return celsius * 9 / 5 + 32


def fahrenheit_to_celsius(fahrenheit: float) -> float:
    """°C = (°F − 32) × 5/9, exact by definition."""
    return (fahrenheit - 32) * 5 / 9


def dial(gas_mark: float) -> tuple[float, float]:
    """What charts print on a Celsius dial for a gas mark: lowest and highest.

    >>> dial(3.0)
    (160.0, 170.0)
    """
    return _gas_mark(gas_mark)[1:]


def fan(celsius: float) -> Sum:
    """The fan oven's setting for a conventional one in °C, with ends from the charts' two rules."""
    value = convert(celsius, "degC", "degC").measure.value - FAN_LOWER[0]
    low = celsius - FAN_LOWER[1]
    working = (
        f"{plain(celsius)} − {plain(FAN_LOWER[0])} = {plain(value)} °C; some charts take {plain(FAN_LOWER[1])} off"
    )
    return Sum(Measure.of(value, "degC", fact="rule:FAN-OVEN"), (working,), low, value)


def still(celsius: float) -> Sum:
    """The setting of an oven without a fan for a fan oven's in °C, with ends from the charts' two rules."""
    value = celsius + FAN_LOWER[0]
    line = f"{plain(celsius)} + {plain(FAN_LOWER[0])} = {plain(value)} °C; some charts add {plain(FAN_LOWER[1])}"
    return Sum(Measure.of(value, "degC", fact="rule:FAN-OVEN"), (line,), value, celsius + FAN_LOWER[1])


def gas_for_fan(celsius: float) -> Sum | None:
    """The gas mark for a fan oven's setting in °C: that of the setting without a fan; None beyond the marks.

    >>> gas_for_fan(200.0).text
    'gas mark 7'
    """
    without = still(celsius)
    mark = oven(without.measure.value, "degC")[0].on.get("gas_mark")
    return mark and Sum(mark.measure, (*without.working, *mark.working), mark.low, mark.high)


def printed(celsius: Sum) -> Sum:
    """What charts print for an exact temperature in °C: that of a gas mark where it is one, else the nearest five.

    >>> printed(convert(350.0, "degF", "degC")).text, printed(convert(240.0, "degF", "degC")).text
    ('180 °C', '115 °C')
    """
    exact = celsius.measure.value
    mark = next((m for m, row in GAS_MARKS.items() if abs(fahrenheit_to_celsius(row[0]) - exact) < 1), None)
    on_dials = (5.0 * round(exact / 5),) if mark is None else GAS_MARKS[mark][1:]
    value = on_dials[-1]
    low, high = min(exact, *on_dials), max(exact, *on_dials)
    rule = "rule:TEMP-FORMULA" if mark is None else f"rule:GAS-{plain(mark)}"
    line = f"{plain(exact)} °C, on a dial {plain(value)} °C"
    return Sum(Measure.of(value, "degC", fact=rule), (*celsius.working, line), low, high)


def boiling_point(altitude: float, unit: str = "m") -> Sum:
    """Where water boils at an altitude in m (or 'ft'), in °C: standard atmosphere, then the Antoine equation.

    P = 1013.25 (1 − 2.25577e-5 h)^5.25588 hPa (International Standard Atmosphere); T = 1730.63 / (8.07131 − log₁₀ P) −
    233.426 with P in mmHg (Antoine, 1 to 100 °C). From memory. Weather moves it by about half a degree.
    """
    metres = altitude if unit == "m" else altitude * _foot()
    if unit not in ("m", "ft") or not _LOWEST_M <= metres <= _HIGHEST_M:
        remedy = f"give metres between {plain(_LOWEST_M)} and {plain(_HIGHEST_M)}, or feet"
        raise InvalidMeasure(f"nobody bakes at {plain(altitude)} {unit}", remedy)
    pressure = 1013.25 * (1 - 2.25577e-5 * metres) ** 5.25588
    celsius = 1730.63 / (8.07131 - math.log10(pressure * 760 / 1013.25)) - 233.426
    measure = Measure.of(celsius, "degC", spread=_WEATHER / 2, fact="rule:BOIL-ANTOINE")
    air = f"{plain(metres)} m: standard air of {plain(pressure)} hPa"
    return Sum(measure, (air, f"water boils there at {plain(celsius)} °C, give or take the weather's half degree"))


@dataclass(frozen=True, slots=True)
class SafeCore:
    """A core temperature an authority calls safe for a kind of food."""

    food: str
    celsius: float
    printed: str
    authority: str
    source: str
    rule: str


_CHART = "foodsafety.gov, Safe Minimum Internal Temperatures chart"
SAFE_CORES: tuple[SafeCore, ...] = (
    SafeCore("egg dishes", 71.0, "160 °F (71 °C)", "USDA and FDA", _CHART, "rule:CORE-US-EGG"),
    SafeCore("poultry", 74.0, "165 °F (74 °C)", "USDA FSIS", _CHART, "rule:CORE-US-POULTRY"),
    SafeCore("leftovers and casseroles", 74.0, "165 °F (74 °C)", "USDA FSIS", _CHART, "rule:CORE-US-LEFTOVERS"),
    SafeCore("ground meat", 71.0, "160 °F (71 °C)", "USDA FSIS", f"{_CHART}, from memory", "rule:CORE-US-GROUND"),
    SafeCore("fish", 63.0, "145 °F (63 °C)", "FDA", f"{_CHART}, from memory", "rule:CORE-US-FISH"),
    SafeCore("any food", 70.0, "70 °C for 2 minutes, or 75 °C for 30 seconds", "UK FSA",
             "FSA, Cooking your food: time and temperature combinations, from memory", "rule:CORE-UK"),
)  # fmt: skip


def safe_cores(food: str = "") -> tuple[SafeCore, ...]:
    """What authorities call a safe core temperature, for one kind of food or for all that are known here.

    >>> [core.authority for core in safe_cores("egg")]
    ['USDA and FDA', 'UK FSA']
    """
    word = food.lower().strip()
    found = tuple(core for core in SAFE_CORES if word in core.food or core.food == "any food")
    if all(core.food == "any food" for core in found) and word:
        raise InvalidMeasure(f"no safe core temperature is known here for {food!r}", "see your food authority's chart")
    return found


def _foot() -> float:
    return 12 * factor("inch", "cm") / 100


def _temperature(value: float, unit: str) -> Measure:
    return Measure.of(value, unit, fact="rule:TEMP-FORMULA")


def _gas_mark(mark: float) -> tuple[float, float, float]:
    if mark not in GAS_MARKS:
        known = ", ".join(plain(known) for known in GAS_MARKS)
        raise InvalidMeasure(f"there is no gas mark {plain(mark)}", f"gas marks are {known}")
    return GAS_MARKS[mark]


def _from_gas_mark(mark: float, other: str) -> Sum:
    fahrenheit, low, high = _gas_mark(mark)
    rule = f"rule:GAS-{plain(mark)}"
    if other == "gas_mark":
        return Sum(Measure.of(mark, "gas_mark", fact=rule), (f"gas mark {plain(mark)} already",))
    step = f"gas mark {plain(mark)} is {plain(fahrenheit)} °F"
    if other == "degF":
        return Sum(Measure.of(fahrenheit, "degF", fact=rule), (step,))
    exact = fahrenheit_to_celsius(fahrenheit)
    shown = (low + high) / 2
    on_dial = plain(low) if low == high else f"{plain(low)} to {plain(high)}"
    line = f"{step} = {plain(exact)} °C; on a dial {on_dial} °C"
    return Sum(Measure.of(shown, "degC", fact=rule), (line,), min(low, exact), max(high, exact))


def _to_gas_mark(celsius: float) -> Sum:
    fahrenheit = celsius_to_fahrenheit(celsius)
    mark = min(GAS_MARKS, key=lambda known: abs(GAS_MARKS[known][0] - fahrenheit))
    exact = GAS_MARKS[mark][0]
    if abs(exact - fahrenheit) > 25:
        raise InvalidMeasure(f"{plain(celsius)} °C lies beyond the gas marks", "gas marks go from 110 to 240 °C")
    nearest = f"{plain(celsius)} °C = {plain(fahrenheit)} °F; the nearest is gas mark {plain(mark)} ({plain(exact)} °F)"
    return Sum(Measure.of(mark, "gas_mark", fact=f"rule:GAS-{plain(mark)}"), (nearest,))
