"""Oven settings, boiling points and safe core temperatures as people type them: "350 F", "1500m", "poultry"."""

from __future__ import annotations

import re

from qa.contract import CoreShape, HeatReadingShape, HeatShape, WorkedShape, sum_shape, worked_shape
from qa.errors import InvalidMeasure
from qa.kitchen import heat as ovens
from qa.kitchen.sums import Sum, figure
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.records import Figure

_ALTITUDE = re.compile(
    r"^\s*(?P<number>-?\d{1,6}(?:[.,]\d{1,3})?)\s*(?P<unit>m|metres?|meters?|ft|feet|foot)\s*$", re.IGNORECASE
)
_SCALES = ("degC", "degF", "deg", "gas_mark", "")


def oven(words: str) -> HeatShape:
    """An oven setting on every scale; a bare number is read on each scale it can be meant on."""
    amount = next((a for a in find_amounts(words) if a.unit in _SCALES), None)
    if amount is None:
        raise InvalidMeasure(f"no oven setting in {words!r}", 'write it like "350 F", "180 C" or "gas mark 4"')
    readings = ovens.oven(amount.value, amount.unit)
    shapes = [_reading(one) for one in readings]
    main = figure(readings[0].on["degC"])
    assumed = "" if amount.unit in ("degC", "degF", "gas_mark") else "the scale was not said"
    return _shape(words, main_of=main, assumed=assumed, readings=shapes, cautions=list(readings[0].cautions))


def altitude(words: str) -> HeatShape:
    """Where water boils at "1500m" or "5000 ft"."""
    found = _ALTITUDE.match(words)
    if found is None:
        raise InvalidMeasure(f"no altitude in {words!r}", 'write it like "1500m" or "5000 ft"')
    unit = "m" if found["unit"].lower().startswith("m") else "ft"
    boils = ovens.boiling_point(float(found["number"].replace(",", ".")), unit)
    return _shape(words, main_of=figure(boils))


def core(food: str) -> HeatShape:
    """What authorities call a safe core temperature of "poultry"; 'all' for every food that is known here."""
    cores = ovens.safe_cores("" if food.strip().lower() == "all" else food)
    rows: list[CoreShape] = [
        {"food": c.food, "celsius": c.celsius, "printed": c.printed, "authority": c.authority, "source": c.source}
        for c in cores
    ]
    first = cores[0]
    measure = Measure.of(first.celsius, "degC", fact=first.rule)
    main = figure(Sum(measure, (f"{first.food}: {first.printed}, {first.authority}",)))
    return _shape(food, main_of=main, cores=rows, cautions=["your own food authority's chart leads where it differs"])


def _shape(
    words: str,
    *,
    main_of: Figure,
    assumed: str = "",
    readings: list[HeatReadingShape] | None = None,
    cores: list[CoreShape] | None = None,
    cautions: list[str] | None = None,
) -> HeatShape:
    return {
        **sum_shape(words.strip(), "", main_of, assumed),
        "readings": readings or [],
        "cores": cores or [],
        "cautions": cautions or [],
    }


def _reading(one: ovens.Oven) -> HeatReadingShape:
    def part(found: Sum | None) -> WorkedShape | None:
        return worked_shape(figure(found)) if found is not None else None

    return {
        "scale": one.scale,
        "celsius": part(one.on.get("degC")),
        "fahrenheit": part(one.on.get("degF")),
        "gas_mark": part(one.on.get("gas_mark")),
        "fan": part(one.fan),
    }
