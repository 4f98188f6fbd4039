"""Spoons and cups to grams and back, through the bulk density of a form. No density, no answer.

>>> density = Measure.of(7.0, "g/us_tbsp", spread=0.289, fact="flax.ground.bulk-density.usda-sr26")
>>> to_mass(Measure.exact(3.0, "us_tbsp"), density).working
('3 tbsp × 7 g per tbsp = 21 g',)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.sums import Sum, full_unit, line, said
from qa.measures.measure import COVERAGE, Measure
from qa.measures.show import bare_unit, plain
from qa.measures.units import dimension

# Loose puffed grain is about 0.05 g/mL, crystals of salt 2.2 g/mL (from memory); outside these limits it is a slip.
_LIGHTEST, _DENSEST = 0.02, 2.5
_MOST_GRAMS = 1e6
_REGION_NAMES = {"us_label": "US label", "us": "US", "metric": "metric", "au": "Australian", "imperial": "imperial",
                 "jp": "Japanese"}  # fmt: skip


def to_mass(amount: Measure, density: Measure | None, *, fill: Measure | None = None, resolution_g: float = 0.0) -> Sum:
    """Grams of an amount by volume.

    `fill` says how much more or less than level a heaped or scant measure holds (a share of 1); `resolution_g` is the
    smallest step of the scale, a rectangle (GUM 4.3.7). InvalidMeasure for wrong units or an impossible density,
    NoKnowledge where there is none.
    """
    if dimension(amount.unit) == "mass":
        return Sum(amount.to("g"), (f"{said(amount)} is a weight already",))
    _refuse(amount, "volume")
    density = _checked(density)
    measure_of_density = density.unit.partition("/")[2]
    filled = amount if fill is None else amount * fill
    mass = (filled.to(measure_of_density) * density).to("g")
    working = _volume_lines(amount, fill, measure_of_density)
    counted = filled.to(measure_of_density)
    same = amount.unit == measure_of_density
    plainly = same and (fill is None or fill.value == 1)
    left = f"{said(amount) if plainly else _named(counted, not same)} × {_per(density, not same)}"
    if resolution_g:
        mass = mass + Measure.of(0.0, "g", spread=resolution_g / 2 / math.sqrt(3))
    if mass.value > _MOST_GRAMS:
        raise InvalidMeasure(f"{said(amount)} is more than a kitchen holds", "check the amount")
    return Sum(mass, (*working, line(left, mass)))


def to_volume(mass: Measure, density: Measure | None, unit: str, *, fill: Measure | None = None) -> Sum:
    """The volume of a mass, in a spoon or cup of the caller's choice; errors as for `to_mass`."""
    _refuse(mass, "mass")
    density = _checked(density)
    measure_of_density = density.unit.partition("/")[2]
    level = (mass.to("g") / density).to(measure_of_density)
    volume = (level if fill is None else level / fill).to(unit)
    same = unit == measure_of_density and fill is None
    left = f"{said(mass)} ÷ {_per(density, not same)}"
    lines = [line(left, volume) if same else f"{left} = {_named(level, True)}"]
    if not same:
        share = "" if fill is None else f" ÷ {said(fill)}"
        lines.append(f"{_named(level, True)}{share} = {_named(volume, True)}")
    return Sum(volume, tuple(lines))


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Two sources that differ by more than their spreads allow: both results and the sentence that says so."""

    first: Sum
    second: Sum
    ratio: float
    words: str


def normalised_error(first: Measure, second: Measure) -> float:
    """Difference over its expanded uncertainty (2 spreads): En of ISO/IEC 17043, B.4.1.1; beyond 1 they disagree.

    Facts that both share cancel; infinite for two different values without any spread.
    """
    distance = first - second
    if not distance.spread:
        return 0.0 if not distance.value else math.copysign(math.inf, distance.value)
    return distance.value / (COVERAGE * distance.spread)


def disagreement(sums: Sequence[Sum]) -> Disagreement | None:
    """The two results furthest apart if their normalised error is beyond 1, else None."""
    ordered = sorted(sums, key=lambda found: found.measure.value)
    if len(ordered) < 2:
        return None
    least, most = ordered[0], ordered[-1]
    if normalised_error(most.measure, least.measure) <= 1 or least.measure.value <= 0:
        return None
    ratio = (most.measure / least.measure).value
    words = f"two sources disagree beyond their spread: {least.text} and {most.text}"
    return Disagreement(least, most, ratio, words)


def _checked(density: Measure | None) -> Measure:
    if density is None:
        raise NoKnowledge("no bulk density is known for that form", "weigh a level spoonful and add it as a fact")
    _refuse(density, "density")
    value = density.to("g/mL").value
    if not _LIGHTEST <= value <= _DENSEST:
        remedy = f"foods lie between {_LIGHTEST} and {_DENSEST} g/mL; check value and unit"
        raise InvalidMeasure(f"{said(density)} is {value:.3g} g/mL, no density of a food", remedy)
    return density


def _refuse(measure: Measure, wanted: str) -> None:
    found = dimension(measure.unit)
    if found != wanted:
        raise InvalidMeasure(f"{said(measure)} is a {found}, but a {wanted} is needed here", f"give a {wanted}")
    if measure.value < 0:
        raise InvalidMeasure(f"{said(measure)} is less than nothing", "give an amount of zero or more")


def _volume_lines(amount: Measure, fill: Measure | None, unit: str) -> tuple[str, ...]:
    lines = []
    if fill is not None and fill.value != 1:
        level = amount * fill
        lines.append(f"{said(amount)} × {plain(fill.value)} for the filling = {said(level)}")
        amount = level
    if amount.unit != unit:
        lines.append(f"{_named(amount, True)} = {_named(amount.to(unit), True)}")
    return tuple(lines)


def _named(measure: Measure, with_region: bool) -> str:
    """A volume with its region where two regions' measures meet in one working: '1 Australian tbsp'."""
    unit = full_unit(measure.unit)
    bare = bare_unit(unit)
    if not with_region or bare == unit:
        return said(measure)
    region = _REGION_NAMES[unit.removesuffix(f"_{bare}")]
    number, _, name = said(measure).partition(" ")
    return f"{number} {region} {name}"


def _per(density: Measure, with_region: bool) -> str:
    unit = density.unit.partition("/")[2]
    bare = bare_unit(unit)
    if not with_region or bare == unit:
        return said(density)
    region = _REGION_NAMES[unit.removesuffix(f"_{bare}")]
    return said(density).replace(" per ", f" per {region} ")
