"""Trials in the contract's shapes: the list, one trial's report, the suspects of an outcome."""

from __future__ import annotations

from collections.abc import Sequence

from qa.contract import (
    AgreedShape,
    ChangeShape,
    DoseShape,
    EffectShape,
    FairShape,
    LevelShape,
    QuantityShape,
    SuspectShape,
    SuspectsShape,
    TrialLineShape,
    TrialShape,
    WorkedShape,
    worked_shape,
)
from qa.kitchen.sums import Sum, figure
from qa.knowledge.facts import Trial
from qa.knowledge.library import Library
from qa.measures.show import plain
from qa.records import Figure
from qa.text import listed
from qa.trials import agree, compare, readings, screening
from qa.trials.chance import chance_words
from qa.trials.compare import Told
from qa.trials.readings import Quantity
from qa.trials.suspects import LESS, Batch, Suspect


def line(trial: Trial, library: Library) -> TrialLineShape:
    """One trial in the list."""
    fair = compare.fairness(trial, library)
    return {
        "id": trial.id,
        "title": trial.title,
        "date": trial.date,
        "levels": list(trial.levels),
        "readings": len(trial.readings),
        "single": sum(level.single for one in readings.read(trial) for level in one.levels),
        "fair": fair.verdict,
        "invented": trial.invented,
    }


def report(trial: Trial, library: Library) -> TrialShape:
    """Everything a trial's readings say, and how far they can be trusted."""
    quantities = readings.read(trial)
    return {
        "id": trial.id,
        "title": trial.title,
        "question": trial.question,
        "invented": trial.invented,
        "date": trial.date,
        "episode": trial.episode,
        "factor": trial.factor,
        "levels": list(trial.levels),
        "dose": trial.dose,
        "constant": list(trial.constant),
        "quantities": [_quantity(one) for one in quantities],
        "single": _singles(quantities),
        "effects": [shape for one in quantities for shape in _effects(trial, one)],
        "fair": _fair(compare.fairness(trial, library)),
        "agreement": [_agreed(one) for one in agree.agreed(trial, library)],
        "observations": [{"level": level, "words": words} for level, words in trial.observations],
        "gives": [fact.id for fact in library.knowledge.facts if fact.source == trial.id],
    }


def _singles(quantities: Sequence[Quantity]) -> list[str]:
    """What was read once only, a quantity or a level of it: how well it repeats nobody knows."""
    found = []
    for one in quantities:
        names = [level.name for level in one.levels if level.single]
        found += [one.name] if len(names) == len(one.levels) else [f"{one.name}, {name}" for name in names]
    return found


def _quantity(one: Quantity) -> QuantityShape:
    levels: list[LevelShape] = [
        {
            "level": level.name,
            "readings": list(level.values),
            "mean": worked_shape(level.figure),
            "spread": level.mean.spread,
            "deviation": level.deviation,
            "resolution": level.resolution,
            "single": level.single,
            "times_first": worked_shape(times) if times else None,
        }
        for level, times in zip(one.levels, one.times, strict=True)
    ]
    return {
        "quantity": one.name,
        "unit": one.unit,
        "levels": levels,
        "order": list(one.order),
        "pairs": [
            {
                "greater": pair.greater,
                "lesser": pair.lesser,
                "p": _worked(pair.chance),
                "corrected": _worked(pair.corrected),
                "told_apart": pair.apart,
                "needed": _worked(pair.needed),
                "words": pair.words,
            }
            for pair in one.pairs
        ],
        "words": list(one.words),
    }


def _worked(found: Figure | None) -> WorkedShape | None:
    return worked_shape(found) if found else None


def _summed(found: Sum | None) -> WorkedShape | None:
    return worked_shape(figure(found)) if found else None


def _words(told: Sequence[Told]) -> list[str]:
    return [one.words for one in told]


def _figures(told: Sequence[Told]) -> list[WorkedShape]:
    return [worked_shape(found) for one in told for found in one.figures]


def _effects(trial: Trial, quantity: Quantity) -> list[EffectShape]:
    return [
        {
            "quantity": quantity.name,
            "suspect": effect.suspect,
            "difference": worked_shape(effect.difference),
            "p": _worked(effect.p),
            "corrected": _worked(effect.corrected),
        }
        for effect in screening.effects(trial, quantity)
    ]


def _fair(found: compare.Fairness) -> FairShape:
    doses: list[DoseShape] = [_dose(one) for one in found.first]
    changes: list[ChangeShape] = []
    for level, own in found.changes:
        doses += [_dose(change.now) for change in own if change.now]
        changes += [
            {
                "level": level,
                "change": change.names,
                "times_first": _summed(change.times),
                "equal": change.equal,
                "even": _summed(change.even),
            }
            for change in own
        ]
    return {
        "verdict": found.verdict,
        "words": _words(found.reasons),
        "figures": _figures(found.reasons),
        "doses": doses,
        "changes": changes,
    }


def _dose(one: compare.Weighed) -> DoseShape:
    return {
        "level": one.dose.level,
        "item": one.dose.item,
        "amount": one.dose.amount,
        "grams": _summed(one.grams),
    }


def _agreed(one: agree.Agreed) -> AgreedShape:
    return {
        "fact": one.fact.id,
        "what": one.name,
        "value": worked_shape(one.value),
        "others": [
            {
                "fact": other.fact.id,
                "source": other.source,
                "tier": other.fact.tier,
                "value": worked_shape(other.value),
                "normalised_error": round(other.error, 3),
                "agrees": other.agrees,
            }
            for other in one.others
        ],
        "pooled_before": _worked(one.before),
        "pooled_after": _worked(one.after),
        "words": _words(one.told),
        "figures": _figures(one.told),
    }


def suspects_shape(
    outcome: str,
    batches: Sequence[Batch],
    unsaid: int,
    found: Sequence[Suspect],
    asked: dict[str, str],
    library: Library,
) -> SuspectsShape:
    """The suspects of an outcome.

    Args:
        outcome: in a plain word.
        batches: those that tell whether it came.
        unsaid: how many results did not.
        found: the suspects.
        asked: the follow-up question for each kind of circumstance.
        library: names of ingredients.
    """
    had = sum(batch.had for batch in batches)
    shown = _shown_as(batches)
    return {
        "outcome": outcome,
        "batches": len(batches),
        "had": had,
        "had_not": len(batches) - had,
        "own": sum(not batch.reported for batch in batches),
        "unsaid": unsaid,
        "suspects": [_suspect(outcome, one, shown.get(one.key, one.key), asked, library) for one in found],
    }


def _shown_as(batches: Sequence[Batch]) -> dict[str, str]:
    """The item that the recipes mean by an ingredient, where they all mean the same: sunflower butter, not the seed."""
    items: dict[str, set[str]] = {}
    for item in {item for batch in batches for item in batch.recipe or () if "." in item}:
        items.setdefault(item.partition(".")[0], set()).add(item)
    return {ingredient: own.pop() for ingredient, own in items.items() if len(own) == 1}


def _suspect(outcome: str, one: Suspect, item: str, asked: dict[str, str], library: Library) -> SuspectShape:
    name = name_of(item, library)
    return {
        "suspect": one.key,
        "name": name,
        "with_had": one.table.with_had,
        "with_not": one.table.with_not,
        "without_had": one.table.without_had,
        "without_not": one.table.without_not,
        "by_recipe": one.silent,
        "not_reported": one.unreported,
        "p": worked_shape(one.p),
        "corrected": _worked(one.corrected),
        "odds": worked_shape(one.odds),
        "goes": one.goes,
        "words": _said(outcome, name, one),
        "question": _question(one.key, item, asked, library),
    }


def _said(outcome: str, name: str, one: Suspect) -> str:
    """The finding in a sentence, which never speaks of a cause."""
    if one.corrected is None:
        return f"{name}: too few batches tell of it to say anything"
    if one.goes == "cannot tell":
        return f"{name}: may well be chance ({chance_words(one.corrected)})"
    low, high = plain(float(f"{one.odds.low:.2g}")), plain(float(f"{one.odds.high:.2g}"))
    odds = f"odds {one.odds.text} times, {low} to {high}; {chance_words(one.corrected)}"
    return f"{outcome} {'goes with' if one.goes == 'with' else 'stays away with'} {name} ({odds})"


def name_of(key: str, library: Library) -> str:
    """A suspect in plain words.

    >>> from qa.knowledge.facts import Knowledge
    >>> name_of("pan: glass or ceramic", Library(Knowledge()))
    'pan: glass or ceramic'
    """
    item = key.removeprefix(LESS)
    name = library.name(item) if library.has(item) else item.replace("-", " ")
    return f"less or no {name}" if key.startswith(LESS) else name


def _question(key: str, item: str, asked: dict[str, str], library: Library) -> str:
    """What to ask whoever did not report it."""
    kind = key.partition(":")[0]
    if kind in asked:
        return asked[kind]
    name, ingredient = name_of(item.removeprefix(LESS), library), key.partition(".")[0]
    if "." in key and library.has(ingredient):
        forms = listed((library.name(f"{ingredient}.{form.id}") for form in library.ingredient(ingredient).forms), "or")
        return f"Which one did you use: {forms}?"
    return f"Did you use {name}, and how many grams of it?"
