"""Trials in the contract's shapes: the list, one trial's report, a plan with its sheet."""

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
    SheetShape,
    TrialLineShape,
    TrialShape,
    WorkedShape,
    figure_shape,
    worked_shape,
)
from qa.kitchen.sums import Sum, figure
from qa.knowledge.facts import Trial
from qa.knowledge.library import Library
from qa.records import Figure
from qa.trials import agree, compare, readings, screening
from qa.trials.compare import Told
from qa.trials.designs import Plan
from qa.trials.readings import Quantity
from qa.trials.sheets import Sheet, text_of


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


def planned(plan: Plan, made: Sheet, page: str) -> SheetShape:
    """A plan with its sheet, as text and as a page."""
    text, figures = text_of(made)
    return {
        "topic": plan.topic,
        "question": plan.question,
        "levels": list(plan.levels),
        "order": list(plan.order),
        "bakes": worked_shape(plan.bakes),
        "text": text,
        "html": page,
        "figures": [figure_shape(placed) for placed in figures],
    }
