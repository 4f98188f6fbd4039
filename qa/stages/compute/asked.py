"""One ask with what is needed to work out its figures."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen.eggs import EU_GRAMS, edible_in
from qa.kitchen.shows import shows
from qa.kitchen.sums import Sum
from qa.kitchen.weights import to_mass
from qa.knowledge.facts import Fact
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount, parse_amount
from qa.measures.resolve import resolve
from qa.measures.units import dimension
from qa.records import Ask

# Measures that are pieces where somebody weighed one.
_PIECES = frozenset(("packet", "clove"))
# Where eggs are sold by the weight classes of the EU.
_EGGS_BY_EU_CLASS = frozenset(("UK", "IE", "EU"))


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

    def showing(self, *sums: str) -> str:
        """The words that show one of some sums: the asking itself, else the whole comment, else the asking."""
        fitting = (text for text in (self.ask.text, self.ask.context) if not shows(text).isdisjoint(sums))
        return next(fitting, self.ask.text)

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
        return self.resolved(self.written(words))

    def resolved(self, amount: Amount) -> Measure:
        """An amount as the asker measures it; Missing where only they can know."""
        try:
            measure, assumption = resolve(amount, self.region or None)
        except InvalidMeasure as fault:
            raise Missing("missing_measure", str(fault)) from fault
        self.assume(assumption)
        return measure

    def assume(self, words: str) -> None:
        """Note what was taken for granted, once."""
        if words and words not in self.assumed:
            self.assumed.append(words)

    def grams(self, amount: Amount, item: str) -> Sum:
        """What an amount of an item weighs, filled as its writer says; pieces by the weight of one."""
        if amount.unit in _PIECES and self.library.facts(self.library.usual(item), "piece weight"):
            return self.pieces(amount, item)
        measure = self.resolved(amount)
        if dimension(measure.unit) == "mass":
            return Sum(measure.to("g"), (f"{measure.value:g} {measure.unit} in grams",))
        if dimension(measure.unit) == "count":
            return self._counted(measure, item)
        density = self.weighed(item, measure.unit, amount.manner)
        found = to_mass(measure, density.measure, fill=self.filling(amount.manner, item, density))
        return replace(found, working=(*self._in_our_kitchen(density), *found.working))

    def _in_our_kitchen(self, density: Fact) -> tuple[str, ...]:
        """What our own kitchen measured leads, and the working says so."""
        if density.tier != "measured":
            return ()
        source = self.library.source(density.source)
        return (f"measured in our kitchen{' (invented)' * source.invented}: {source.citation}",)

    def _counted(self, measure: Measure, item: str) -> Sum:
        return self.pieces(Amount(measure.value, measure.value, measure.value, "each"), item)

    def pieces(self, amount: Amount, item: str, sort: str = "") -> Sum:
        """What a number of pieces weighs: of a size ("medium"), or a packet, where the facts tell them apart."""
        item = self.library.usual(item)
        if self.region in _EGGS_BY_EU_CLASS and item == "egg.whole" and sort in EU_GRAMS:
            each = edible_in(self.region, sort)
        else:
            facts = [fact for fact in self.library.facts(item, "piece weight") if fact.measure]
            if not facts:
                raise NoKnowledge(
                    f"nobody has given the weight of one {item}", "add a piece weight to knowledge/ingredients"
                )
            # The end of the size tells ("US medium"); the first fact is what is meant where no size was said.
            fact = next((f for f in facts if sort and f.condition("size").endswith(f" {sort}")), facts[0])
            assert fact.measure is not None  # noqa: S101  # filtered above
            each = fact.measure
        total = each * amount.value
        return Sum(total, (f"{amount.value:g} × {each.value:.4g} g = {total.value:.4g} g",))

    def filling(self, manner: str, item: str, density: Fact) -> Measure | None:
        """What 'heaped' or 'sifted' does to a measure; one weighed filled like that, or level, only varies."""
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
