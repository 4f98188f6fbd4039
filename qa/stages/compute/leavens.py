"""Soda and acids: what an acid uses up, what is left, and what stands in for baking powder."""

from __future__ import annotations

from qa.errors import Missing, NoKnowledge
from qa.kitchen import leavening, weights
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.show import plain
from qa.measures.units import dimension
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import named_amounts, theirs

SODA, TARTAR, POWDER = "baking-soda.powder", "cream-of-tartar.powder", "baking-powder.powder"


def neutralising_value(item: str, library: Library) -> Measure:
    """Grams of soda that a gram of an acid uses up: the sharpest of the facts, since titrated values are rounded."""
    facts = [fact.measure for fact in library.facts(library.usual(item), "neutralising value") if fact.measure]
    if not facts:
        raise NoKnowledge(f"nobody has given the neutralising value of {item}", "add one to knowledge/ingredients")
    return min(facts, key=lambda measure: measure.spread / measure.value).to("")


def mass_of(asked: Asked, amount: str, item: str) -> Measure:
    """Grams of an amount of an item; `theirs` is what the asker says of that very item."""
    if amount != "theirs":
        return asked.grams(asked.written(amount), item).measure.to("g")
    said = [
        named
        for named in named_amounts(asked.showing("soda and tartar", "powder"), asked.library, asked.region)
        if named.item == item
    ]
    if not said:
        raise Missing("missing_amount", f"the ask gives no amount of {item}")
    return asked.grams(said[0].amount, item).measure.to("g")


def said_of(asked: Asked, item: str) -> Figure:
    """The asker's own amount of an item."""
    for amount, named in named_amounts(asked.showing("soda and tartar", "powder"), asked.library, asked.region):
        if named == asked.library.usual(item):
            return theirs(asked.showing("soda and tartar", "powder"), amount.start, amount.end, amount)
    raise Missing("missing_amount", f"the ask gives no amount of {item}")


def spent(asked: Asked, soda: str, acid: str, item: str) -> Figure:
    """The share of an amount of soda that an amount of an acid uses up, in percent."""
    return figure(balance_of(asked, soda, acid, item).share)


def balance_of(asked: Asked, soda: str, acid: str, item: str) -> leavening.Balance:
    """Soda against one acid."""
    name = asked.library.name(item)
    part = (name, mass_of(asked, acid, item), neutralising_value(item, asked.library))
    return leavening.balance(mass_of(asked, soda, SODA), [part])


def enough(asked: Asked, soda: str, acid: str, item: str) -> str:
    """'spare soda', 'spare acid' or 'even', within a tenth."""
    found = balance_of(asked, soda, acid, item)
    if found.signs:
        return "spare soda"
    needed = leavening.acid_needed(mass_of(asked, soda, SODA), neutralising_value(item, asked.library)).measure
    return "spare acid" if mass_of(asked, acid, item).value > 1.1 * needed.value else "even"


def acid_ratio(asked: Asked, item: str) -> Figure:
    """Grams of an acid for one gram of soda."""
    value = neutralising_value(item, asked.library)
    ratio = Measure.exact(1.0, "dimensionless") / value
    return figure(Sum(ratio, (f"1 ÷ {plain(value.value)} g soda per g = {plain(ratio.value)} g per g soda",)))


def to_spend(asked: Asked, item: str, soda: str, unit: str) -> Figure:
    """How much of an acid uses up an amount of soda, in grams or by the spoon."""
    needed = leavening.acid_needed(mass_of(asked, soda, SODA), neutralising_value(item, asked.library))
    return figure(_in(asked, needed, item, unit))


def for_powder(asked: Asked, amount: str, which: str, unit: str) -> Figure:
    """Soda or cream of tartar, the two of which stand in for an amount of baking powder."""
    home = home_powder(asked, amount)
    found, item = (home.soda, SODA) if which == "soda" else (home.tartar, TARTAR)
    return figure(_in(asked, found, item, unit))


def home_powder(asked: Asked, amount: str) -> leavening.HomePowder:
    """Soda and cream of tartar by weight that lift like an amount of baking powder."""
    return leavening.without_powder(mass_of(asked, amount, POWDER))


def _in(asked: Asked, found: Sum, item: str, unit: str) -> Sum:
    if dimension(unit) == "mass":
        return Sum(found.measure.to(unit), found.working)
    spoons = weights.to_volume(found.measure, asked.density(item, unit), unit)
    return Sum(spoons.measure, (*found.working, *spoons.working))
