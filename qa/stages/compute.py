"""The figures an answer needs, worked out for one ask from facts in the library.

A recipe for a figure is a line such as `weigh 1 us_tbsp of flax.ground`; the verbs are listed in knowledge/README.md.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen import swaps, weights
from qa.kitchen.sums import Sum, figure
from qa.knowledge.facts import Answer, Fact, Swap
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount, parse_amount
from qa.measures.resolve import resolve
from qa.measures.units import dimension
from qa.records import Ask, Computed, Figure, quoted


@dataclass(slots=True)
class Asked:
    """One ask with what is needed to work out its figures; it notes what had to be assumed on the way."""

    ask: Ask
    library: Library
    region: str
    assumed: list[str] = field(default_factory=list)

    @property
    def assumption(self) -> str:
        """What had to be assumed, as a clause, or ''."""
        return "; ".join(self.assumed)

    def named(self, word: str) -> str:
        """The item a recipe means: `first`, `second`, or an id."""
        if word not in {"first", "second"}:
            return word
        position = ("first", "second").index(word)
        if position >= len(self.ask.items):
            raise Missing("missing_ingredient", "the ask names too few ingredients")
        return self.ask.items[position]

    def item(self, word: str) -> str:
        """The same, in its usual form where the ask leaves it open."""
        return self.library.usual(self.named(word))

    def amount(self, words: str) -> Measure:
        """The amount a recipe means: `asked`, or an amount with a unit that names its region."""
        try:
            measure, assumption = resolve(self.written(words), self.region or None)
        except InvalidMeasure as fault:
            raise Missing("missing_measure", str(fault)) from fault
        if assumption and assumption not in self.assumed:
            self.assumed.append(assumption)
        return measure

    def filling(self, words: str, item: str, density: Fact) -> Measure | None:
        """What 'heaped' or 'sifted' does to that amount; a measure weighed filled like that, or level, only varies."""
        manner = self.written(words).manner
        weighed_so = manner and manner in density.condition("packing")
        found = self.library.measure_word("level" if weighed_so or not manner else manner, item)
        return found.factor if found else None

    def written(self, words: str) -> Amount:
        """The amount before it is resolved."""
        if words != "asked":
            return parse_amount(words)
        usable = [a for a in self.ask.amounts if a.unit] or self._pieces()
        if not usable:
            raise Missing("missing_amount", "the ask gives no amount")
        return usable[0]

    def _pieces(self) -> list[Amount]:
        """Plain numbers as pieces ("3 eggs") where the ingredient comes in pieces that somebody weighed."""
        counted = self.ask.items and self.library.facts(self.item("first"), "piece weight")
        return [replace(amount, unit="each") for amount in self.ask.amounts] if counted else []

    def weighed(self, item: str, unit: str, packing: str = "") -> Fact:
        """The fact that serves an amount in that unit best; NoKnowledge if nobody has weighed the item."""
        found = self.library.density(item, unit, packing)
        if not found:
            raise NoKnowledge(f"nobody has given a bulk density of {item}", "add one to knowledge/ingredients")
        return found[0]

    def density(self, item: str, unit: str) -> Measure | None:
        """Its value."""
        return self.weighed(item, unit).measure


def compute(ask: Ask, answer: Answer, library: Library, region: str) -> Computed:
    """Work out every figure the answer asks for.

    Args:
        ask: one ask; its own region leads over the channel's.
        answer: the standing answer whose recipes are followed.
        library: where the facts are.
        region: the region the channel's audience mostly measures in, or ''.

    Raises:
        Missing: the ask does not give what a recipe needs.
        NoKnowledge: a fact is not there.

    """
    asked = Asked(ask, library, ask.region or region)
    figures = {name: follow(recipe, asked) for name, recipe in answer.figures}
    return Computed(figures, asked.assumption, forms_of(ask, library))


def forms_of(ask: Ask, library: Library) -> tuple[str, ...]:
    """The items asked about with the forms the answer is about: those of the swap if there is one, else the usual."""
    rule = library.swap(*ask.items[:2]) if ask.type == "swap" and len(ask.items) > 1 else None
    usual = tuple(library.usual(item) for item in ask.items)
    return (rule.replace, rule.use, *usual[2:]) if rule else usual


def follow(recipe: str, asked: Asked) -> Figure:
    """One figure from its recipe; InvalidMeasure if no verb reads like that."""
    for pattern, work in _VERBS:
        if found := pattern.fullmatch(recipe.strip()):
            return work(asked, *found.groups())
    raise InvalidMeasure(f"no recipe for a figure reads {recipe!r}", "the verbs are listed in knowledge/README.md")


def weigh(asked: Asked, amount: str, item: str) -> Figure:
    """Grams of an amount of an item."""
    measure, form = asked.amount(amount), asked.item(item)
    if dimension(measure.unit) == "mass":
        return figure(Sum(measure.to("g"), (f"{measure.value:g} {measure.unit} in grams",)))
    if dimension(measure.unit) == "count":
        return figure(_pieces(measure, form, asked.library))
    density = asked.weighed(form, measure.unit, asked.written(amount).manner)
    return figure(weights.to_mass(measure, density.measure, fill=asked.filling(amount, form, density)))


def _pieces(measure: Measure, form: str, library: Library) -> Sum:
    facts = [f for f in library.facts(form, "piece weight") if f.measure]
    if not facts or facts[0].measure is None:
        raise NoKnowledge(f"nobody has given the weight of one {form}", "add a piece weight to knowledge/ingredients")
    each = facts[0].measure
    total = Measure(each.quantity * measure.value)
    return Sum(total, (f"{measure.value:g} × {each.value:g} g = {total.value:g} g",))


def spoons(asked: Asked, amount: str, item: str, unit: str) -> Figure:
    """Spoons or cups that hold an amount of an item."""
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
    """An amount in another unit of the same kind."""
    measure = asked.amount(amount)
    if (kind := dimension(measure.unit)) != dimension(unit):
        raise Missing("missing_ingredient", f"{kind} cannot become {dimension(unit)} without an ingredient")
    other = measure.to(unit)
    return figure(Sum(other, (f"{measure.value:g} {measure.unit} = {other.value:.6g} {unit} by definition",)))


def definition(asked: Asked, unit: str, other: str) -> Figure:
    """What a unit is by definition."""
    return convert(asked, f"1 {unit}", other)


_ITEM = r"([a-z0-9.-]+)"
_VERBS: tuple[tuple[re.Pattern[str], Callable[..., Figure]], ...] = (
    (re.compile(rf"weigh (.+) of {_ITEM}"), weigh),
    (re.compile(rf"measure (.+) of {_ITEM} in (\w+)"), spoons),
    (re.compile(rf"swap (.+) of {_ITEM} for {_ITEM}"), swap),
    (re.compile(rf"ratio {_ITEM} to {_ITEM}"), ratio),
    (re.compile(rf"property (.+) of {_ITEM}"), prop),
    (re.compile(r"theirs (\d)"), theirs),
    (re.compile(r"convert (.+) to (\w+)"), convert),
    (re.compile(r"definition (\w+) in (\w+)"), definition),
)
