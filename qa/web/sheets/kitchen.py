"""The kitchen: each trial with its readings, what it gave, and what to test next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from qa.errors import Place
from qa.knowledge.facts import Trial
from qa.knowledge.library import Library
from qa.measures.show import plain, unit_name
from qa.trials import agree, compare, readings
from qa.web.drawn import Row, forest
from qa.web.sheets.slips import Slip, slips
from qa.web.words import date_words


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """The readings of one quantity at one level; times is how many times the first level, '' for that itself."""

    level: str
    values: str
    mean: str
    spread: str
    times: str
    single: bool


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity that was read, level by level, with a plot of the means and what can be told apart."""

    name: str
    unit: str
    lines: tuple[ReadingLine, ...]
    plot: Markup
    words: str


@dataclass(frozen=True, slots=True)
class TrialPart:
    """One trial as it lies in its file, with the facts it gave.

    Attributes:
        fair: the verdict; fair_words: why.
        agreement: where what it gave disagrees with what was known; elsewhere the slips say enough.
    """

    id: str
    title: str
    question: str
    day: str
    factor: str
    levels: str
    dose: str
    constant: tuple[str, ...]
    quantities: tuple[Quantity, ...]
    observations: tuple[tuple[str, str], ...]
    fair: str
    fair_words: tuple[str, ...]
    agreement: tuple[str, ...]
    gave: tuple[Slip, ...]
    invented: bool
    place: Place


@dataclass(frozen=True, slots=True)
class PlanPart:
    """A test worth making, in words."""

    topic: str
    question: str
    standing: str
    hypothesis: str
    levels: str
    dose: str
    constant: str
    read: str
    repeats: str
    working: str
    order: str


@dataclass(frozen=True, slots=True)
class KitchenSheet:
    """All trials, newest first, and the plans for what is asked most and known least."""

    trials: tuple[TrialPart, ...]
    plans: tuple[PlanPart, ...]


def kitchen_sheet(library: Library, plans: Sequence[Mapping[str, Any]]) -> KitchenSheet:
    """The kitchen's sheet from the trials of the larder and the plans as the workbench gives them."""
    trials = sorted(library.knowledge.trials, key=lambda trial: trial.date, reverse=True)
    return KitchenSheet(tuple(_trial(trial, library) for trial in trials), tuple(map(_plan, plans)))


def _trial(trial: Trial, library: Library) -> TrialPart:
    fair = compare.fairness(trial, library)
    gave = (fact.id for fact in library.knowledge.facts if fact.source == trial.id)
    return TrialPart(
        id=trial.id,
        title=trial.title,
        question=trial.question,
        day=date_words(trial.date),
        factor=trial.factor,
        levels=", ".join(trial.levels),
        dose=trial.dose,
        constant=trial.constant,
        quantities=tuple(_quantity(one) for one in readings.read(trial)),
        observations=trial.observations,
        fair=fair.verdict,
        fair_words=tuple(told.words for told in fair.reasons),
        agreement=tuple(told.words for one in agree.agreed(trial, library) if one.apart for told in one.told),
        gave=slips(gave, library),
        invented=trial.invented,
        place=trial.place,
    )


def _quantity(one: readings.Quantity) -> Quantity:
    lines, rows = [], []
    for level, times in zip(one.levels, one.times, strict=True):
        low, high = level.ends
        spread = "" if level.single else f"±\N{NO-BREAK SPACE}{level.mean.spread:.2g}"
        values = ", ".join(plain(value) for value in level.values)
        lines.append(
            ReadingLine(level.name, values, level.figure.text, spread, times.text if times else "", level.single)
        )
        rows.append(Row(level.name, low, level.mean.value, high))
    unit = unit_name(one.unit, 2.0)
    return Quantity(one.name, unit, tuple(lines), forest(rows, unit), "; ".join(one.words))


def _plan(plan: Mapping[str, Any]) -> PlanPart:
    asked = plan["askers"]
    return PlanPart(
        topic=plan["topic"],
        question=plan["question"],
        standing=f"{asked} ask{'s' * (asked == 1)}, {plan['growth_words']}; {plan['known_words']}",
        hypothesis=plan["hypothesis"],
        levels=", ".join(plan["levels"]),
        dose=plan["dose"],
        constant=", ".join(plan["constant"]),
        read=", ".join(plan["read"]),
        repeats=plan["repeats"]["text"],
        working=plan["repeats"]["working"],
        order=", ".join(plan["order"]),
    )
