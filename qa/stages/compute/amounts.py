"""Amounts: weights, spoons, swaps, facts as they are, conversions."""

from __future__ import annotations

from qa.errors import Missing, NoKnowledge
from qa.kitchen import swaps, weights
from qa.kitchen.sums import Sum, figure
from qa.knowledge.facts import Swap
from qa.measures.units import dimension
from qa.records import Figure, quoted
from qa.stages.compute import turned
from qa.stages.compute.asked import Asked


def weigh(asked: Asked, amount: str, item: str) -> Figure:
    """Grams of an amount of an item; the asker's own is read with what is added to it, in the weight they want."""
    if amount == "asked" and item == "first" and (found := turned.asked_part(asked, "weights")):
        part, named, text = found
        grams = turned.grams_of(asked, part, asked.library.usual(named), text)
        return figure(Sum(grams.measure.to(turned.weight_wanted(text)), grams.working))
    return figure(asked.grams(asked.written(amount), asked.item(item)))


def spoons(asked: Asked, amount: str, item: str, unit: str) -> Figure:
    """Spoons or cups that hold an amount of an item, by the asker's own measures where the unit names no region's."""
    unit = turned.own(asked, unit)
    if amount == "asked" and item == "first" and (found := turned.asked_part(asked, "measures")):
        part, named, text = found
        form = asked.library.usual(named)
        measure = turned.grams_of(asked, part, form, text).measure
    else:
        measure, form = asked.amount(amount), asked.item(item)
    if dimension(measure.unit) != "mass":
        measure = weights.to_mass(measure, asked.density(form, measure.unit)).measure
    return figure(weights.to_volume(measure, asked.density(form, unit), unit))


def swap(asked: Asked, amount: str, item: str, use: str) -> Figure:
    """How much of one item stands in for an amount of another, by the swap in the library."""
    found = _rule(asked, item, use)
    form, other = found.replace, found.use
    measure = asked.amount(amount)
    if dimension(measure.unit) == "mass" and found.by == "weight":
        return figure(swaps.swap(measure, found.ratio, found.by, None, None, "g"))
    densities = (asked.density(form, measure.unit), asked.density(other, measure.unit))
    unit = measure.unit if dimension(measure.unit) == "volume" else "g"
    return figure(swaps.swap(measure, found.ratio, found.by, *densities, unit))


def ratio(asked: Asked, item: str, use: str) -> Figure:
    """The swap's ratio itself."""
    found = _rule(asked, item, use)
    return figure(Sum(found.ratio, (f"{found.use} for one of {found.replace}, by {found.by}",)))


def _rule(asked: Asked, item: str, use: str) -> Swap:
    """The swap in the library, whatever form of an open item it is about."""
    form, other = asked.named(item), asked.named(use)
    found = asked.library.swap(form, other)
    if found is None:
        raise NoKnowledge(f"no swap of {form} for {other} is known", "add it under the ingredient that is replaced")
    return found


def prop(asked: Asked, name: str, item: str) -> Figure:
    """A fact as it is, in numbers or in words."""
    form = asked.item(item)
    fact = next(iter(asked.library.facts(form, name)), None)
    if fact is None:
        raise NoKnowledge(f"nobody has given the {name} of {form}", "add it to knowledge/ingredients")
    working = f"{name} of {form}, {fact.where or fact.source}"
    if fact.measure is None:
        return Figure(fact.words, 0.0, 0.0, 0.0, "words", (fact.id,), working)
    return figure(Sum(fact.measure, (working,)))


def theirs(asked: Asked, position: str) -> Figure:
    """The asker's own number, quoted back and marked as theirs."""
    index = int(position) - 1
    if index >= len(asked.ask.amounts):
        raise Missing("missing_amount", "the ask gives too few amounts")
    return quoted(asked.ask.amounts[index], asked.ask)


def convert(asked: Asked, amount: str, unit: str) -> Figure:
    """An amount in another unit of the same kind; the asker's own in the unit it has already is no question."""
    found = turned.asked_part(asked, "units", with_item=False) if amount == "asked" else None
    if found is not None:
        return figure(turned.same_sort(asked, found[0], unit))
    measure = asked.amount(amount)
    if amount == "asked" and measure.unit == unit:
        raise Missing("missing_detail", f"the amount is in {unit} already")
    if (kind := dimension(measure.unit)) != dimension(unit):
        raise Missing("missing_ingredient", f"{kind} cannot become {dimension(unit)} without an ingredient")
    other = measure.to(unit)
    return figure(Sum(other, (f"{measure.value:g} {measure.unit} = {other.value:.6g} {unit} by definition",)))


def definition(asked: Asked, unit: str, other: str) -> Figure:
    """What a unit is by definition."""
    return convert(asked, f"1 {unit}", other)
