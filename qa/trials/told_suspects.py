"""The suspects of an outcome in the contract's shape, each with what is said of it and what to ask."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from qa.contract import SuspectShape, SuspectsShape, worked_shape
from qa.knowledge.library import Library
from qa.measures.show import plain
from qa.text import listed
from qa.trials.chance import chance_words
from qa.trials.suspects import LESS, Batch, Suspect


def told(
    outcome: str,
    batches: Sequence[Batch],
    unsaid: int,
    found: Sequence[Suspect],
    asked: Mapping[str, str],
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


def _suspect(outcome: str, one: Suspect, item: str, asked: Mapping[str, str], library: Library) -> SuspectShape:
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
        "corrected": worked_shape(one.corrected) if one.corrected else None,
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


def _question(key: str, item: str, asked: Mapping[str, str], library: Library) -> str:
    """What to ask whoever did not report it."""
    kind = key.partition(":")[0]
    if kind in asked:
        return asked[kind]
    name, ingredient = name_of(item.removeprefix(LESS), library), key.partition(".")[0]
    if "." in key and library.has(ingredient):
        forms = listed((library.name(f"{ingredient}.{form.id}") for form in library.ingredient(ingredient).forms), "or")
        return f"Which one did you use: {forms}?"
    return f"Did you use {name}, and how many grams of it?"
