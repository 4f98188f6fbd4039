"""Baker's percentages, hydration, scaling, dough temperature.

>>> dough = bakers_percentages({"flour": 1000.0, "water": 650.0, "salt": 20.0, "yeast": 10.0}, ["flour"])
>>> [(name, share.text) for name, share in dough.items()]
[('flour', '100 %'), ('water', '65 %'), ('salt', '2 %'), ('yeast', '1 %')]
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.sums import Sum, line, said
from qa.measures.measure import Measure
from qa.measures.show import plain
from qa.measures.units import dimension

Grams = Mapping[str, "float | Measure"]


def bakers_percentages(grams: Grams, flours: Collection[str]) -> dict[str, Sum]:
    """Each ingredient as percent of the total flour mass (standard bakery arithmetic; Gisslen, Professional Baking)."""
    masses, flour = _masses(grams, flours)
    found = {}
    for name, mass in masses.items():
        share = (mass / flour).to("percent")
        found[name] = Sum(share, (f"{said(mass)} ÷ {said(flour)} flour = {plain(share.value)} %",))
    return found


def flour_for_dough(dough: Measure, percentages: Mapping[str, float]) -> Sum:
    """Flour for a wanted mass of dough, from percentages that include the flour's own 100."""
    total = sum(percentages.values())
    if total <= 0:
        raise InvalidMeasure("the percentages add up to nothing", "give flour as 100 and the rest beside it")
    flour = _mass(dough) * 100 / total
    return Sum(flour, (line(f"{said(dough)} ÷ {plain(total)} % × 100 %", flour),))


def hydration(grams: Grams, flours: Collection[str], water_shares: Mapping[str, Measure]) -> Sum:
    """Water per flour in percent, with the water inside milk, eggs, yogurt …; each share of water is a fact.

    Water itself needs no share. Flours and everything without a share count as dry: name what should count.
    """
    masses, flour = _masses(grams, flours)
    wet = Measure.exact(0.0, "g")
    lines = []
    for name, mass in masses.items():
        if name == "water":
            wet = wet + mass
            lines.append(f"water {said(mass)}")
        elif name in water_shares:
            share = water_shares[name].to("dimensionless")
            if not 0 <= share.value <= 1:
                raise InvalidMeasure(f"{name} cannot be {plain(100 * share.value)} % water", "give a share of 0 to 1")
            part = mass * share
            wet = wet + part
            lines.append(f"{name}: {said(mass)} × {plain(100 * share.value)} % water = {said(part)}")
    if not lines:
        raise NoKnowledge("nothing in the formula is known to hold water", "give the share of water of its liquids")
    found = (wet / flour).to("percent")
    return Sum(found, (*lines, line(f"{said(wet)} ÷ {said(flour)} flour", found)))


def scaled(grams: Grams, factor: Measure) -> dict[str, Sum]:
    """Every amount times one factor (a share: from a pan, from eggs on hand, or the cook's own)."""
    if dimension(factor.unit) != "share" or factor.value <= 0:
        raise InvalidMeasure(f"{said(factor)} is no factor", "give a number above zero")
    share = factor.to("dimensionless")
    found = {}
    for name, mass in _measures(grams).items():
        result = mass * share
        found[name] = Sum(result, (line(f"{said(mass)} × {plain(share.value)}", result),))
    return found


def water_temperature(
    wanted: float, flour: float, room: float, friction: float, preferment: float | None = None
) -> Sum:
    """Water temperature in °C for a wanted dough temperature (common practice: so many times it, less the rest).

    `friction` is what mixing adds, in °C; three temperatures count, four with a preferment.
    """
    others = [flour, room, friction] + ([] if preferment is None else [preferment])
    value = wanted * len(others) - sum(others)
    if not -10 <= value <= 100:
        raise InvalidMeasure(f"the water would have to be {plain(value)} °C", "check the temperatures, in °C")
    rest = " − ".join(plain(other) for other in others)
    working = f"{len(others)} × {plain(wanted)} − {rest} = {plain(value)} °C"
    return Sum(Measure.of(value, "degC", spread=1.0, fact="rule:DOUGH-TEMPERATURE"), (working,))


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a formula with its grams; `role` 'flour' counts as flour."""

    item: str
    grams: float
    role: str = ""


def formula_of(lines: Collection[Line]) -> tuple[dict[str, float], list[str]]:
    """Grams by item and the names of the flours, from the lines of a recipe; equal items are added up."""
    grams: dict[str, float] = {}
    for each in lines:
        grams[each.item] = grams.get(each.item, 0.0) + each.grams
    return grams, list(dict.fromkeys(each.item for each in lines if each.role == "flour"))


def _measures(grams: Grams) -> dict[str, Measure]:
    return {n: _mass(g) if isinstance(g, Measure) else _mass(Measure.exact(float(g), "g")) for n, g in grams.items()}


def _masses(grams: Grams, flours: Collection[str]) -> tuple[dict[str, Measure], Measure]:
    masses = _measures(grams)
    if missing := [name for name in flours if name not in masses]:
        raise InvalidMeasure(f"{missing[0]!r} is counted as flour but is not in the formula", "check the names")
    flour = Measure.exact(0.0, "g")
    for name in flours:
        flour = flour + masses[name]
    if flour.value <= 0:
        raise InvalidMeasure("there is no flour to count by", "say which lines are flour")
    return masses, flour


def _mass(measure: Measure) -> Measure:
    if dimension(measure.unit) != "mass":
        raise InvalidMeasure(f"{said(measure)} is a {dimension(measure.unit)}; a formula is weighed", "give grams")
    if measure.value < 0:
        raise InvalidMeasure(f"{said(measure)} is less than nothing", "give grams of zero or more")
    return measure.to("g")
