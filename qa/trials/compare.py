"""Was it a fair test? What else changed with the factor, by how much, and what equal weights would have been.

Equal spoonfuls of powders that differ in density are unequal doses. docs/trials.md has examples that run.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from qa.errors import Place
from qa.kitchen.sums import Sum, figure, said
from qa.kitchen.weights import normalised_error, to_mass, to_volume
from qa.knowledge.facts import Dose, Fact, Trial
from qa.knowledge.library import Library
from qa.knowledge.trials import JOIN
from qa.measures.measure import Measure
from qa.measures.units import dimension
from qa.records import Figure
from qa.text import listed

Verdict = Literal["fair", "not fair", "cannot tell"]


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence and the figures in it."""

    words: str
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Weighed:
    """One dose with its grams, None where no density is known, and the density that says so."""

    dose: Dose
    name: str
    grams: Sum | None
    density: Fact | None


@dataclass(frozen=True, slots=True)
class Change:
    """What a level got beside what the first level got; one side is None for what was added or left out."""

    now: Weighed | None
    before: Weighed | None

    @property
    def swapped(self) -> bool:
        """One thing stands in for another."""
        return self.now is not None and self.before is not None and self.now.dose.item != self.before.dose.item

    @property
    def times(self) -> Sum | None:
        """How many times the first level's dose it is, by weight."""
        mine, theirs = (one.grams if one else None for one in (self.now, self.before))
        if mine is None or theirs is None or not theirs.measure.value:
            return None
        ratio = (mine.measure / theirs.measure).to("dimensionless")
        return Sum(ratio, (f"{said(mine.measure)} ÷ {said(theirs.measure)} = {ratio.value:.3g}",))

    @property
    def equal(self) -> bool | None:
        """Whether both doses weigh the same within their spreads (a normalised error of at most 1); None: unknown."""
        found = self.times
        return None if found is None else abs(normalised_error(found.measure, Measure.exact(1, "dimensionless"))) <= 1

    @property
    def even(self) -> Sum | None:
        """How much would weigh as much as the first level's dose, in the measure it was dosed with."""
        if self.now is None or self.before is None or self.before.grams is None:
            return None
        weight, unit = self.before.grams.measure, self.now.dose.measure.unit
        if dimension(unit) == "mass":
            return Sum(weight, self.before.grams.working)
        return to_volume(weight, self.now.density.measure, unit) if self.now.density else None

    @property
    def names(self) -> str:
        """What was changed, in words."""
        names = [one.name for one in (self.now, self.before) if one]
        return " for ".join(dict.fromkeys(names))


@dataclass(frozen=True, slots=True)
class Fairness:
    """Whether the levels differ in one thing only, and why not.

    Attributes:
        first: the doses of the first level.
        changes: by level, every dose beside the first level's.
    """

    verdict: Verdict
    reasons: tuple[Told, ...]
    first: tuple[Weighed, ...] = ()
    changes: tuple[tuple[str, tuple[Change, ...]], ...] = ()


def fairness(trial: Trial, library: Library) -> Fairness:
    """Hold every level beside the first: what changed besides the factor?

    Densities are the trial's own where it weighed spoonfuls, else the library's first choice.
    """
    unsaid = [] if trial.constant else [Told("Nothing is said to have been held constant.")]
    if trial.varied:
        return _screened(trial, unsaid)
    if not trial.doses:
        told = Told("The doses are not given item by item (doses: level, item, amount), so nobody can compare them.")
        return Fairness("cannot tell", (told, *unsaid))
    by_level = {
        level: [weighed(dose, library, trial.id) for dose in trial.doses if dose.level == level]
        for level in trial.levels
    }
    first = by_level.pop(trial.levels[0])
    if not by_level:
        unsaid.append(Told("There is a single level, so nothing is compared."))
    changes = {level: _changes(first, own) for level, own in by_level.items()}
    faults = [told for level, found in changes.items() for told in _faults(level, found, trial)]
    doubts = [told for level, found in changes.items() for told in _doubts(level, found, trial)]
    if any(change.swapped and change.equal is False for found in changes.values() for change in found):
        faults += (*_evened(first, [c for found in changes.values() for c in found]), *_untouched(trial))
    verdict: Verdict = "not fair" if faults else "cannot tell" if doubts or unsaid else "fair"
    return Fairness(verdict, (*faults, *doubts, *unsaid), tuple(first), tuple(changes.items()))


def _screened(trial: Trial, unsaid: list[Told]) -> Fairness:
    """A screening test changes several things on purpose, which is fair as long as each varies independently."""
    runs = [level.split(JOIN) for level in trial.levels]
    columns = {name: [1 if name in run else -1 for run in runs] for name in trial.varied}
    uneven = [name for name, column in columns.items() if sum(column)]
    mixed = [
        f"{one} with {other}"
        for one, other in combinations(trial.varied, 2)
        if sum(a * b for a, b in zip(columns[one], columns[other], strict=True))
    ]
    faults = [Told(f"Not as often there as not: {listed(uneven)}.")] if uneven else []
    faults += [Told(f"Not varied independently, so their effects are mixed: {listed(mixed)}.")] if mixed else []
    if faults:
        return Fairness("not fair", (*faults, *unsaid))
    on_purpose = Told("Several things changed on purpose, as often there as not, independently of the others.")
    return Fairness("cannot tell" if unsaid else "fair", (on_purpose, *unsaid))


def weighed(dose: Dose, library: Library, own: str = "") -> Weighed:
    """A dose in grams, by what the trial of that id weighed itself or else by the library's first choice."""
    known = library.density(dose.item, dose.measure.unit) if library.has(dose.item) else ()
    density = next((fact for fact in known if fact.source == own), known[0] if known else None)
    name = library.name(dose.item) if library.has(dose.item) else dose.item
    grams = None
    if density or dimension(dose.measure.unit) == "mass":
        grams = to_mass(dose.measure, density.measure if density else None)
    return Weighed(dose, name, grams, density)


def _changes(first: Sequence[Weighed], own: Sequence[Weighed]) -> tuple[Change, ...]:
    """Every dose of a level beside the first level's; a single stranger stands in for a single one that is missing."""
    before, now = ({one.dose.item: one for one in level} for level in (first, own))
    both = [Change(one, before[item]) for item, one in now.items() if item in before]
    new = [one for item, one in now.items() if item not in before]
    gone = [one for item, one in before.items() if item not in now]
    if len(new) == len(gone) == 1:
        return (*both, Change(new[0], gone[0]))
    return (*both, *(Change(one, None) for one in new), *(Change(None, one) for one in gone))


def _real(changes: Iterable[Change]) -> list[Change]:
    """Those that change anything: another item, or another dose of the same."""
    return [c for c in changes if c.swapped or c.now is None or c.before is None or c.equal is False]


def _faults(level: str, changes: Sequence[Change], trial: Trial) -> list[Told]:
    real = _real(changes)
    found = [_unequal(change) for change in real if change.swapped and change.equal is False]
    if len(real) > 1:
        things = listed(change.names for change in real)
        found.append(Told(f"Between {trial.levels[0]} and {level} more than one thing changed: {things}."))
    return found


def _doubts(level: str, changes: Sequence[Change], trial: Trial) -> list[Told]:
    dark = [one.name for c in changes for one in (c.now, c.before) if one and one.grams is None]
    found = [Told(f"No bulk density of {name} is known, so its dose has no weight.") for name in dict.fromkeys(dark)]
    if not _real(changes) and not dark:
        found.append(Told(f"By its doses {level} is the same as {trial.levels[0]}."))
    return found


def _unequal(change: Change) -> Told:
    """Whose dose was larger and by how much."""
    assert change.now is not None  # noqa: S101 - asked for an unequal swap
    assert change.before is not None  # noqa: S101
    assert change.times is not None  # noqa: S101
    shown, amount, other = figure(change.times), change.now.dose, change.before.dose
    same = (amount.measure.value, amount.measure.unit) == (other.measure.value, other.measure.unit)
    lead = "Equal measures were unequal doses" if same else "The doses were unequal"
    return Told(f"{lead}: {amount.level} had {shown.text} times as much as {other.level} by weight.", (shown,))


def _evened(first: Sequence[Weighed], changes: Sequence[Change]) -> list[Told]:
    """What equal weights would be, where every level got one thing alone and its weight is known."""
    uneven = [change for change in changes if change.now and change.even]
    if len(first) != 1 or first[0].grams is None or len(uneven) != len(changes):
        return []
    weight, amounts = figure(first[0].grams), [figure(Sum(first[0].dose.measure, (first[0].dose.amount,)))]
    amounts += [figure(change.even) for change in uneven if change.even]
    names = [first[0].name, *(change.now.name for change in uneven if change.now)]
    parts = listed(f"{amount.text} of {name}" for amount, name in zip(amounts, names, strict=True))
    return [Told(f"Equal weights, {weight.text} of each, would be {parts}.", (weight, *amounts))]


def equal_weights(items: Sequence[str], library: Library) -> Told | None:
    """What weighs as much as a level US tablespoon of the first item, as a help to dose by; None if nobody knows."""
    spoon = Measure.exact(1, "us_tbsp")
    doses = [Dose(library.name(item), item, "1 us tbsp", spoon, Place("", 0)) for item in items if library.has(item)]
    if len(doses) < max(len(items), 2):
        return None
    first, *rest = (weighed(dose, library) for dose in doses)
    found = _evened([first], [Change(one, first) for one in rest])
    return found[0] if found else None


def _untouched(trial: Trial) -> list[Told]:
    """Readings that weigh the dose itself are none the worse for unequal doses."""
    own = dict.fromkeys(given.quantity for given in trial.gives if given.property == "bulk density")
    return [Told(f"The readings of {name} are none the worse: they weigh the dose itself.") for name in own]
