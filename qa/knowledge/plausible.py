"""Whether values can be right: by themselves, as parts of a whole, and beside their kin."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations
from math import hypot
from typing import NamedTuple

from qa.errors import Problem
from qa.knowledge.facts import PROPERTIES, Fact
from qa.knowledge.library import Library
from qa.knowledge.spreads import COMPOSITION, factor_of, spreads_apart
from qa.measures.measure import Measure

LIGHTEST, HEAVIEST = 0.05, 1.6  # g/mL: puffed rice is near the first, dense syrups stay below the second
KIN_SPREADS = 3.0
ROUNDING = 0.005  # g/g: rounded parts may sum to half a gram more than 100 g

_CARBOHYDRATE = ("carbohydrate with fibre", "carbohydrate without fibre")
_PARTS = ("water", "fat", "protein", "ash", "polyols")
_WITHIN = (("fibre", _CARBOHYDRATE[0]), ("sugars", _CARBOHYDRATE[0]), ("sugars", _CARBOHYDRATE[1]))


class Share(NamedTuple):
    """A part of a food, in grams per gram, with one standard spread."""

    fact: Fact
    value: float
    spread: float


def values_are_believable(library: Library) -> Iterator[Problem]:
    """Densities like food's, nothing negative that cannot be, no pH beyond the scale."""
    for fact in library.knowledge.facts:
        if fact.measure is None:
            continue
        if fact.property == "bulk density" and not _is_food(fact.measure):
            message = f"a bulk density of {fact.measure.to('g/mL').value:.3g} g/mL is not believable"
            yield Problem(
                fact.place, message, f"check value and unit; food lies between {LIGHTEST} and {HEAVIEST} g/mL"
            )
        elif PROPERTIES[fact.property].measures != "temperature" and fact.measure.value < 0:
            yield Problem(fact.place, f"{fact.property} cannot be negative", "check the value")
        elif fact.property == "acidity" and fact.measure.value > 14:
            yield Problem(fact.place, f"a pH of {fact.measure.value:g} is not believable", "check the value")


def _is_food(density: Measure) -> bool:
    return LIGHTEST <= density.value * factor_of(density.quantity.units, "g/mL") <= HEAVIEST


def parts_make_no_more_than_the_whole(library: Library) -> Iterator[Problem]:
    """Composition by one source sums to at most 100 g in 100 g, within its own spread; a note may explain an excess."""
    groups: dict[tuple[str, str, object], dict[str, Share]] = defaultdict(dict)
    for fact in library.knowledge.facts:
        if fact.measure is not None and fact.property in COMPOSITION:
            scale, variant = factor_of(fact.measure.quantity.units, ""), fact.id.partition(":")[2]
            found = groups[fact.item, fact.source, (fact.conditions, variant)]
            found[fact.property] = Share(fact, fact.measure.value * scale, fact.measure.spread * scale)
    for found in groups.values():
        yield from _too_much(found)
        for part, whole in _WITHIN:
            if part in found and whole in found and _exceed([found[part]], found[whole]):
                message = f"more {part} than {whole}, which holds it"
                yield Problem(found[part].fact.place, message, "check both values, or explain in 'note'")


def _too_much(found: dict[str, Share]) -> Iterator[Problem]:
    """Carbohydrate counts once, with its fibre if it is printed without."""
    with_fibre, without = _CARBOHYDRATE
    names = (*_PARTS, with_fibre) if with_fibre in found else (*_PARTS, without, "fibre")
    parts = [found[name] for name in names if name in found]
    if parts and _exceed(parts, None):
        total, fact = sum(part.value for part in parts), parts[-1].fact
        message = f"the parts of {fact.item} by {fact.source} sum to {100 * total:.1f} g in 100 g"
        yield Problem(fact.place, message, "check the values, or explain in 'note'")


def _exceed(parts: Sequence[Share], whole: Share | None) -> bool:
    """Whether parts exceed the whole (or 1) beyond three combined spreads and half a gram, and no note says why."""
    if any(part.fact.note for part in parts):
        return False
    limit, spread = (whole.value, whole.spread) if whole else (1.0, 0.0)
    excess = sum(part.value for part in parts) - limit
    return excess > 3 * hypot(spread, *(part.spread for part in parts)) + ROUNDING


def kin_agree(library: Library) -> Iterator[Problem]:
    """Facts on the same property, item and conditions lie within three combined spreads, unless a note says why not."""
    groups: dict[tuple[str, str, object], list[Fact]] = defaultdict(list)
    for fact in library.knowledge.facts:
        if fact.measure is not None and (fact.property != "bulk density" or _is_food(fact.measure)):
            groups[fact.item, fact.property, fact.conditions].append(fact)
    for kin in groups.values():
        complained: set[str] = set()
        for first, second in combinations(kin, 2):
            if first.note or second.note or second.id in complained:
                continue
            if (far := spreads_apart(first, second)) > KIN_SPREADS:
                complained.add(second.id)
                message = f"{second.id} lies {far:.0f} spreads from {first.id} ({first.place})"
                yield Problem(second.place, message, "check both; if both stand, say why they differ in 'note'")
