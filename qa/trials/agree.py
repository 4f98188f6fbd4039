"""What a trial gave beside published values and earlier trials, and by how much it moves the pooled value.

Two values disagree where their normalised error is beyond 1 (E_n of ISO 13528). Pooling is a diagnosis here and never
what a reply shows: replies keep sources apart. Common practice and memory stand beside, and are never pooled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from qa.kitchen.sums import Sum, figure, full_unit
from qa.knowledge.agreement import normalised_error, short_source
from qa.knowledge.facts import Fact, Trial
from qa.knowledge.library import Library
from qa.knowledge.spreads import spread_with_kin
from qa.measures.measure import COVERAGE, Measure
from qa.measures.show import plain, unit_name
from qa.records import Figure
from qa.trials.compare import Told
from qa.trials.readings import as_read

_POOLED = ("measured", "published")
_SPOONS = ("tsp", "tbsp", "cup")


@dataclass(frozen=True, slots=True)
class Other:
    """Another source's value of the same property, in the trial's unit; beyond an error of 1 it disagrees."""

    fact: Fact
    source: str
    value: Figure
    error: float

    @property
    def agrees(self) -> bool:
        """Within both spreads."""
        return self.error <= 1


@dataclass(frozen=True, slots=True)
class Agreed:
    """One fact that a trial gave, beside what was known.

    Attributes:
        value: what the trial gave.
        others: published values, earlier trials and common practice, nearest first.
        before, after: what was measured or published, pooled without the trial and with it; None where there is none.
        told: the same in sentences.
    """

    fact: Fact
    name: str
    value: Figure
    others: tuple[Other, ...]
    before: Figure | None
    after: Figure | None
    told: tuple[Told, ...]

    @property
    def apart(self) -> bool:
        """Somebody else's value disagrees."""
        return any(not other.agrees for other in self.others)


def agreed(trial: Trial, library: Library) -> tuple[Agreed, ...]:
    """Every fact with a number that a trial gave, beside what was known before it."""
    return tuple(_agreed(f, library) for f in library.knowledge.facts if f.source == trial.id and f.measure is not None)


def pooled(measures: Sequence[Measure]) -> Sum:
    """The mean weighted by one over each squared spread; its own spread widened where the values scatter beyond theirs.

    Weighted mean: Cox, Metrologia 39 (2002), 589, procedure A. Widening by Birge's ratio (Physical Review 40 (1932),
    207), never narrowing. Values must have a spread; facts behind them are kept.

    >>> found = pooled([Measure.of(10.0, "g", spread=0.3), Measure.of(11.0, "g", spread=0.4)])
    >>> round(found.measure.value, 2), round((found.ends[1] - found.measure.value) / COVERAGE, 2)
    (10.36, 0.48)
    """
    unit = measures[0].unit
    spreads = [one.to(unit).spread for one in measures]
    weights = [1 / spread**2 for spread in spreads]
    total = sum(weights)
    mean = measures[0] * (weights[0] / total)
    for one, weight in zip(measures[1:], weights[1:], strict=True):
        mean = mean + one * (weight / total)
    apart = sum(w * (one.to(unit).value - mean.value) ** 2 for one, w in zip(measures, weights, strict=True))
    birge = max(1.0, math.sqrt(apart / (len(measures) - 1))) if len(measures) > 1 else 1.0
    reach = COVERAGE * birge / math.sqrt(total)
    shown = ", ".join(
        f"{plain(one.to(unit).value)} ± {spread:.2g}" for one, spread in zip(measures, spreads, strict=True)
    )
    working = f"weighted mean of {shown} = {plain(mean.value)} {unit_name(full_unit(unit), 2.0)}".rstrip()
    widened = (f"they scatter {birge:.2g} times as much as their spreads say; the range is that much wider",)
    return Sum(mean, (working, *(widened if birge > 1 else ())), mean.value - reach, mean.value + reach)


def _agreed(own: Fact, library: Library) -> Agreed:
    assert own.measure is not None  # noqa: S101 - asked for
    unit = own.measure.unit
    others = [_other(own, fact, unit, library) for fact in _known_before(own, library)]
    others.sort(key=lambda other: (other.error, other.fact.id))
    known = [_honest(other.fact, unit) for other in others if other.fact.tier in _POOLED]
    before, after = (pooled(known), pooled([*known, _honest(own, unit)])) if known else (None, None)
    value = _figure(own, unit)
    name = f"{own.property} of {library.name(own.item)}"
    shown = [_shown(found) if found else None for found in (before, after)]
    told = _told(name, value, others, shown[0], shown[1])
    return Agreed(own, name, value, tuple(others), shown[0], shown[1], told)


def _known_before(own: Fact, library: Library) -> list[Fact]:
    """Other sources' numbers with a spread; of this kitchen's trials only the earlier ones."""
    found = (f for f in library.facts(own.item, own.property) if f.source != own.source and f.measure is not None)
    return [f for f in found if _honest(f).spread > 0 and (f.tier != "measured" or f.checked <= own.checked)]


def _other(own: Fact, fact: Fact, unit: str, library: Library) -> Other:
    assert fact.measure is not None  # noqa: S101 - only facts with a number come here
    said = [words for name, words in fact.conditions if name == "packing" and words != "not stated"]
    read, mine = (one.rpartition("/")[2] for one in (fact.measure.unit, unit))
    by = [f"by the {unit_name(read)}"] if read != mine and read.endswith(_SPOONS) else []
    source = ", ".join((short_source(fact, library), *by, *said))
    return Other(fact, source, _figure(fact, unit), normalised_error(own, fact))


def _honest(fact: Fact, unit: str = "") -> Measure:
    """A fact's value as a variable with the spread that printed digits leave out."""
    assert fact.measure is not None  # noqa: S101 - only facts with a number come here
    found = fact.measure.to(unit) if unit else fact.measure
    return Measure.of(found.value, found.unit, spread=spread_with_kin(fact, found), fact=fact.id)


def _figure(fact: Fact, unit: str) -> Figure:
    measure = _honest(fact, unit)
    return _shown(Sum(measure, (f"{fact.property} of {fact.item}, {fact.where or fact.source}",)))


def _shown(found: Sum) -> Figure:
    """A figure with the digits its spread leaves sure."""
    made = figure(found)
    low, high = found.ends
    wide = Measure.of(found.measure.value, found.measure.unit, spread=(high - low) / 2 / COVERAGE)
    return Figure(as_read(wide, made.unit), made.value, low, high, made.unit, made.facts, made.working)


def _told(
    name: str, value: Figure, others: Sequence[Other], before: Figure | None, after: Figure | None
) -> tuple[Told, ...]:
    """How it lies beside the others, and what pooling would make of it."""
    lead = name[:1].upper() + name[1:]
    if not others:
        return (Told(f"{lead}: {value.text} here; nothing else is known to hold it beside.", (value,)),)
    told = []
    if near := [other for other in others if other.agrees]:
        told.append(_beside(f"{lead}: {value.text} here agrees with", value, near))
    if apart := [other for other in others if not other.agrees]:
        told.append(_beside(f"{lead}: {value.text} here disagrees with", value, apart))
    if before is None or after is None:
        told.append(Told("No published value and no earlier trial is there to pool it with."))
    else:
        moved = _moved(before, after)
        words = f"Pooled, what was measured or published goes from {before.text} to {after.text} ({moved.text})."
        told.append(Told(words, (before, after, moved)))
    return tuple(told)


def _beside(lead: str, value: Figure, others: Sequence[Other]) -> Told:
    parts = [f"{other.value.text} by {other.source}" for other in others]
    return Told(f"{lead} {'; '.join(parts)}.", (value, *(other.value for other in others)))


def _moved(before: Figure, after: Figure) -> Figure:
    """By how much of itself the pooled value moves, in percent."""
    share = 100 * (after.value / before.value - 1) if before.value else 0.0
    text = "no change" if abs(share) < 0.5 else f"{'up' if share > 0 else 'down'} {abs(share):.0f} %"
    working = (
        f"{plain(after.value)} ÷ {plain(before.value)} = {plain(after.value / before.value)}" if before.value else ""
    )
    return Figure(text, share, share, share, "percent", after.facts, working)
