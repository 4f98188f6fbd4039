"""One ingredient for another, by weight or by volume; what is conserved is said in the working.

>>> grams = swap(Measure.exact(14.0, "g"), Measure.exact(1.0, "g/g"), "weight")
>>> grams.text
'14 g'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.sums import Sum, line, said
from qa.kitchen.weights import to_mass, to_volume
from qa.measures.measure import COVERAGE, Measure
from qa.measures.show import plain
from qa.measures.units import dimension


def swap(
    amount: Measure,
    ratio: Measure,
    by: Literal["weight", "volume"],
    density_replace: Measure | None = None,
    density_use: Measure | None = None,
    unit: str | None = None,
) -> Sum:
    """How much of `use` stands in for an amount of what it replaces.

    `ratio` is a share: mass of `use` for one of what is replaced, or volume for volume. Without a unit the answer comes
    in the asker's own measure, or in grams where no density of `use` is known. A chain of swaps is refused: an amount
    that is itself the outcome of a swap is no longer the recipe's.
    """
    if chained := [fact for fact in amount.facts if ".swap." in fact]:
        remedy = "start from the amount in the recipe, or test the second swap itself"
        raise InvalidMeasure(f"that amount is itself a stand-in ({chained[0]})", remedy)
    if ratio.value <= 0 or dimension(ratio.unit) != "share":
        raise InvalidMeasure(f"{said(ratio)} is no ratio of a swap", "give a share above zero, like 1 or 0.75")
    return (
        _by_weight(amount, ratio, density_replace, density_use, unit)
        if by == "weight"
        else _by_volume(amount, ratio, density_replace, density_use, unit)
    )


def equal_effect(amount: Measure, power: Measure, power_of_use: Measure, what: str) -> Sum:
    """Grams that do the same work (thickening, binding, sweetness): mass × power of the old ÷ power of the new.

    Both powers are shares relative to one standard (wheat flour, sugar, …), each a fact; `what` names the effect.
    """
    for each in (power, power_of_use):
        if dimension(each.unit) != "share" or each.value <= 0:
            raise InvalidMeasure(f"{said(each)} is no strength of {what}", "give a share above zero of one standard")
    mass = amount.to("g") * (power / power_of_use).to("dimensionless")
    left = (
        f"{said(amount)} × {plain(power.to('dimensionless').value)} ÷ {plain(power_of_use.to('dimensionless').value)}"
    )
    return Sum(mass, (line(f"{left} for equal {what}", mass),))


def equal_fat(
    amount: Measure, fat: Measure, fat_of_use: Measure, water: Measure, water_of_use: Measure
) -> tuple[Sum, Sum]:
    """Grams of another fat with the same fat in it, and the grams of water to add (below zero: to leave out)."""
    used = equal_effect(amount, fat, fat_of_use, "fat")
    before = amount.to("g") * water.to("dimensionless")
    after = used.measure * water_of_use.to("dimensionless")
    difference = before - after
    left = f"{said(amount)} holds {said(before)} water, {said(used.measure)} holds {said(after)}"
    return used, Sum(difference, (f"{left}: {plain(difference.value)} g to add",), *_ends(difference))


def in_formula(grams: Mapping[str, Measure], replace: str, use: Sum, name: str) -> dict[str, Measure]:
    """A formula with one line replaced by the outcome of a swap, in the old line's place; the rest stays."""
    if replace not in grams:
        raise InvalidMeasure(f"{replace!r} is not in the formula", f"it holds {', '.join(grams)}")
    mass = use.measure.to("g")
    new: dict[str, Measure] = {}
    for item, amount in grams.items():
        key, value = (name, mass) if item == replace else (item, amount)
        new[key] = new[key] + value if key in new else value
    return new


def _ends(measure: Measure) -> tuple[float, float]:
    """Ends of a difference, which may lie below zero."""
    return measure.value - COVERAGE * measure.spread, measure.value + COVERAGE * measure.spread


def _by_weight(
    amount: Measure, ratio: Measure, density_replace: Measure | None, density_use: Measure | None, unit: str | None
) -> Sum:
    by_volume = dimension(amount.unit) == "volume"
    before = to_mass(amount, density_replace) if by_volume else Sum(amount)
    share = ratio.to("dimensionless")
    mass = before.measure * share
    lines = [*before.working, line(f"{said(before.measure)} × {plain(share.value)} by weight", mass)]
    wanted = unit or (amount.unit if by_volume and density_use is not None else mass.unit)
    if dimension(wanted) == "mass":
        return Sum(mass.to(wanted), tuple(lines))
    after = to_volume(mass, density_use, wanted)
    return Sum(after.measure, (*lines, *after.working))


def _by_volume(
    amount: Measure, ratio: Measure, density_replace: Measure | None, density_use: Measure | None, unit: str | None
) -> Sum:
    share = ratio.to("dimensionless")
    lines: list[str] = []
    if dimension(amount.unit) == "mass":
        if density_replace is None:
            raise NoKnowledge(
                "this swap goes by volume and no density is known for what is replaced", "give a spoonful"
            )
        level = to_volume(amount, density_replace, density_replace.unit.partition("/")[2])
        lines += level.working
        amount = level.measure
    volume = amount * share
    lines.append(line(f"{said(amount)} × {plain(share.value)} by volume", volume))
    if unit is None or dimension(unit) == "volume":
        return Sum(volume.to(unit or volume.unit), tuple(lines))
    after = to_mass(volume, density_use)
    return Sum(after.measure.to(unit), (*lines, *after.working))
