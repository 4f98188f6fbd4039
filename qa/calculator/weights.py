"""Weights and swaps as people type them.

>>> from qa.knowledge.load import load_knowledge
>>> from qa.settings import shipped
>>> library, _ = load_knowledge(shipped("knowledge"))
>>> weigh("3 us tbsp ground flax", library, "")["value"]
21.0
"""

from __future__ import annotations

from qa.calculator.words import amount_of, asked_of, item_of, plainly
from qa.contract import OtherShape, SwapShape, WeighShape, sum_shape, worked_shape
from qa.errors import InvalidMeasure
from qa.kitchen import weights, yeast
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.knowledge.spreads import spread_with_kin
from qa.measures.measure import Measure
from qa.measures.parse import Amount, parse_amount
from qa.measures.units import dimension, known, regional
from qa.records import Figure
from qa.stages.compute import Asked, figure_of
from qa.stages.compute.kitchen import YEASTS


def weigh(words: str, library: Library, region: str) -> WeighShape:
    """Grams of "2 tbsp potato starch"; spoons and cups of "100 g potato starch in tbsp" or of a weight alone.

    Where other sources weighed the same measure, they stand beside it, and where they disagree that is said.

    Raises:
        InvalidMeasure: the words hold no amount.
        NoKnowledge: the ingredient is not known, or nobody has weighed it.
    """
    wanted, unit = _unit_wanted(words, region)
    amount, item = amount_of(wanted, library, region)
    asked = asked_of(wanted, (amount,), (item,), library, region)
    others: list[OtherShape] = []
    disagreement = ""
    if unit or (known(amount.unit) and dimension(amount.unit) == "mass"):
        found = plainly(lambda: figure_of(f"measure asked of first in {unit or 'us_tbsp'}", asked))
    else:
        found = plainly(lambda: figure_of("weigh asked of first", asked))
        others, disagreement = _others(asked, found)
    shape = sum_shape(words.strip(), library.usual(item), found, asked.assumption)
    return {**shape, "others": others, "disagreement": disagreement}


def _others(asked: Asked, found: Figure) -> tuple[list[OtherShape], str]:
    """The same measure by every other source, and the words for it where two differ beyond their spread.

    A spread that is only that of printed digits gets what it leaves out, one filling beside another, before sources are
    held against each other.
    """
    measure, item, library = asked.amount("asked"), asked.item("first"), asked.library
    if dimension(measure.unit) != "volume":
        return [], ""
    others: list[OtherShape] = []
    compared: list[Sum] = []
    for fact in library.density(item, measure.unit):
        if fact.measure is None:
            continue
        honest = Measure.of(
            fact.measure.value, fact.measure.unit, spread=spread_with_kin(fact, fact.measure), fact=fact.id
        )
        compared.append(weights.to_mass(measure, honest))
        if fact.id not in found.facts:
            shown = figure(weights.to_mass(measure, fact.measure))
            source = library.source(fact.source)
            packing = fact.condition("packing")
            others.append({**worked_shape(shown), "packing": packing, "source": source.short or source.citation})
    apart = weights.disagreement(compared)
    return others, apart.words if apart else ""


def swap(words: str, use: str, library: Library, region: str) -> SwapShape:
    """How much of another ingredient stands in for "1 tbsp ground flax"."""
    amount, item = amount_of(words, library, region)
    other = item_of(use, library, region)
    asked = asked_of(words, (amount,), (item, other), library, region)
    found = plainly(lambda: figure_of("swap asked of first for second", asked))
    rule = library.swap(item, other)
    assert rule is not None  # noqa: S101 - figure_of() has just used it
    ingredient, _, form = rule.use.partition(".")
    return {
        **sum_shape(words.strip(), rule.replace, found, asked.assumption),
        "for_ingredient": ingredient,
        "for_form": form,
        "changes": rule.changes,
        "holds": rule.holds,
        "not_when": rule.not_when,
        "extra": rule.extra,
        "references": _references(rule.replace, rule.use),
    }


def _references(replace: str, use: str) -> str:
    """Where published tables of yeasts disagree, in words."""
    if replace not in YEASTS or use not in YEASTS or replace == use:
        return ""
    found = yeast.convert_yeast(Measure.exact(1.0, "g"), YEASTS[replace], YEASTS[use])
    low, high = found.ends
    return f"reference tables disagree: {low:.2f} to {high:.2f} g for one gram"


def weighed(amount: str, item: str, library: Library) -> Figure:
    """Grams of an amount that names its region ("1 us_tbsp") of an item, as a figure."""
    return figure_of(f"weigh {amount} of {item}", asked_of("", (Amount(1, 1, 1, ""),), (item,), library, ""))


def _unit_wanted(words: str, region: str) -> tuple[str, str | None]:
    """Split "100 g honey in tablespoons" into the amount and the unit asked for, the region's own, if any."""
    head, joined, tail = words.rpartition(" in ")
    if not joined:
        return words, None
    try:
        unit = parse_amount(f"1 {tail.strip()}").unit
    except InvalidMeasure:
        return words, None
    unit = regional(unit, region or None) or regional(unit, "US") or unit
    return (head, unit) if unit and known(unit) and dimension(unit) in ("mass", "volume") else (words, None)
