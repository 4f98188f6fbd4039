"""The asker's own sum: a ratio, share, conversion or weight checked; a dough's hydration with its hidden water."""

from __future__ import annotations

from dataclasses import replace

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen import formulas
from qa.kitchen.check_sum import Checked, check_text
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount, find_amounts
from qa.measures.show import plain
from qa.measures.units import dimension
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import Named, named_amounts, theirs

_FLOURS = frozenset(("flour", "starch"))
# Within one in the hundred, or half of the claim's last digit: as check_sum has it.
_NEAR = 0.01
# A larger share of anything in a recipe is likelier a sum that we misread; it is asked about, not corrected.
_MOST_PERCENT = 300.0


def checked(asked: Asked, part: str) -> Figure | str:
    """A part of the checked sum: its 'verdict' and 'kind' in words, its 'line' of working, the right 'result'."""
    found = _found(asked)
    asked.assume(found.assumed)
    if part == "verdict":
        return "right" if found.right else "wrong"
    if part == "kind":
        return found.kind
    result = figure(found.sum)
    if part == "line":
        return replace(result, text=found.sum.working[0])
    return result


def _found(asked: Asked) -> Checked:
    try:
        found = check_text(asked.showing("sum"), asked.region or None, _density(asked))
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault
    if found is None:
        raise Missing("missing_detail", "the ask shows no sum")
    if not found.right and found.kind == "conversion" and "+" in asked.showing("sum"):
        raise Missing("missing_detail", "several things are added up, of which only some were read")
    if found.kind == "percent" and not found.right and found.sum.measure.to("percent").value > _MOST_PERCENT:
        raise Missing("missing_detail", "the share reads so large that it is likelier misread")
    return found


def _density(asked: Asked) -> Measure | None:
    """For a claim about a spoonful's weight: the density of the one ingredient asked about, by the spoon said."""
    if not asked.ask.items or not asked.library.has(asked.ask.items[0]):
        return None
    spoon = next(
        (a.unit for a in find_amounts(asked.showing("sum")) if a.unit.endswith(("tbsp", "tsp", "cup"))), "us_tbsp"
    )
    try:
        return asked.density(asked.item("first"), spoon if "_" in spoon else f"us_{spoon}")
    except NoKnowledge:
        return None


def dough(asked: Asked, part: str) -> Figure | str:
    """A part of a dough's sum.

    'plain' counts flour and water alone, 'total' all water; 'verdict' judges the hydration that was claimed; 'hidden'
    names what else holds water, with its 'amount', the 'share' of water in it and that 'water' in grams.
    """
    lines = _masses(asked)
    flours = [item for item in lines if _is_flour(item, asked.library)]
    if not flours:
        raise Missing("missing_ingredient", "the dough has no flour")
    shares = {item: share for item in lines if item not in flours and (share := _water_share(item, asked.library))}
    hidden = next((item for item in shares), "")
    if part == "hidden":
        return asked.library.name(hidden, asked.region or None) if hidden else ""
    if part in ("amount", "share", "water"):
        return _hidden(asked, part, hidden, lines, shares)
    claimed = next((a for a in find_amounts(asked.showing("dough")) if a.unit == "percent"), None)
    if part == "claimed":
        if claimed is None:
            raise Missing("missing_amount", "no hydration was claimed")
        return theirs(asked.showing("dough"), claimed.start, claimed.end, claimed)
    masses = {("water" if item.startswith("water") else item): mass for item, mass in lines.items()}
    bare = {name: mass for name, mass in masses.items() if name not in shares}
    counted = shares if part == "total" or "water" not in bare else {}
    try:
        found = formulas.hydration(masses if counted else bare, flours, counted)
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault
    if part == "verdict":
        return _verdict(claimed, found)
    if part == "line":
        wet = sum(mass.value for name, mass in masses.items() if name == "water")
        flour = sum(masses[name].value for name in flours)
        shown = figure(found)
        return replace(shown, text=f"{plain(wet)} ÷ {plain(flour)} = {shown.text}") if not counted else shown
    return figure(found)


def _verdict(claimed: Amount | None, found: Sum) -> str:
    if claimed is None:
        return ""
    near = max(_NEAR * found.measure.value, 0.5, 2 * found.measure.spread)
    return "right" if abs(claimed.value - found.measure.value) <= near + 1e-9 else "wrong"


def _hidden(asked: Asked, part: str, hidden: str, lines: dict[str, Measure], shares: dict[str, Measure]) -> Figure:
    if not hidden:
        raise Missing("missing_ingredient", "nothing else in the dough is known to hold water")
    share = shares[hidden].to("percent")
    if part == "share":
        return figure(Sum(share, (f"{hidden} is {plain(share.value)} % water",)))
    if part == "amount":
        said = next(named.amount for named in _named(asked) if named.item == hidden)
        return theirs(asked.showing("dough"), said.start, said.end, said)
    water = (lines[hidden] * share).to("g")
    left = f"{plain(lines[hidden].value)} g × {plain(share.value)} % water = {plain(water.value)} g"
    return figure(Sum(water, (left,)))


def _named(asked: Asked) -> tuple[Named, ...]:
    return named_amounts(asked.showing("dough"), asked.library, asked.region)


def _masses(asked: Asked) -> dict[str, Measure]:
    """Grams of everything named with its amount; a plain number counts grams, as bakers write it."""
    found: dict[str, Measure] = {}
    for amount, item in _named(asked):
        if amount.unit in ("percent", "degC", "degF", "min", "h"):
            continue
        mass = _grams(amount, item, asked)
        found[item] = found[item] + mass if item in found else mass
    if not found:
        raise Missing("missing_amount", "the ask gives no amounts with their ingredients")
    return found


def _grams(amount: Amount, item: str, asked: Asked) -> Measure:
    unit = amount.unit or ("each" if amount.value <= 12 and asked.library.facts(item, "piece weight") else "g")
    written = replace(amount, unit=unit)
    if dimension(asked.resolved(written).unit) not in ("mass", "volume", "count"):
        raise Missing("missing_measure", f"{amount.value:g} {amount.unit} is no weight")
    return asked.grams(written, item).measure.to("g")


def _is_flour(item: str, library: Library) -> bool:
    return library.ingredient(item).family in _FLOURS


def _water_share(item: str, library: Library) -> Measure | None:
    """The share of water in what is not water itself, flour or salt: a fact, or nothing."""
    if item.startswith("water") or library.ingredient(item).family in ("salt", "yeast", "leavener"):
        return None
    fact = next((f for f in library.facts(item, "water") if f.measure is not None), None)
    return fact.measure if fact else None
