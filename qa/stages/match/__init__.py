"""Match: the standing answer for each ask, with a calibrated probability, or the reason for none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from qa.knowledge.library import Library
from qa.records import Ask, Matched, Understood
from qa.settings import Settings
from qa.stages.match.aligned import aligned
from qa.stages.match.evidence import candidates
from qa.stages.match.learn import AnswerModel, Judged, Ranked, learn_answers, ranked, spoken_of
from qa.stages.match.limits import forbidden, unsettled
from qa.stages.match.wording import worded

__all__ = ["AnswerModel", "Judged", "aligned", "learn_answers", "match", "spoken_of"]

# Languages that replies can be written in; a text too short to tell is taken as English.
_SPOKEN = frozenset(("en", "und"))
_RUNNERS_UP = 4
# What viewers reported is told from this sureness on, if `draft_from` is not lower.
_TOLD_FROM = 0.45
# Asks that are no sum yet without an ingredient.
_NEEDS_INGREDIENT = frozenset(("weight", "convert", "swap", "carbs", "same_thing"))


def match(
    understood: Sequence[Understood], library: Library, model: AnswerModel, settings: Settings
) -> list[tuple[Matched, ...]]:
    """The standing answer for each ask of each comment; below `settings.draft_from` there is a reason instead."""
    places = [(i, ask) for i, one in enumerate(understood) for ask in one.asks]
    found: list[list[Matched]] = [[] for _ in understood]
    if places and model.wording is not None:
        words = [worded(ask, understood[i].mentions, understood[i].text) for i, ask in places]
        near, likeness = model.wording.near(words), model.wording.likeness
        orders = [
            ranked(ask, candidates(ask, library, near, row, partial(likeness.to, words[row].named)), library, model)
            for row, (_, ask) in enumerate(places)
        ]
    else:
        orders = [[] for _ in places]
    for (i, ask), order in zip(places, orders, strict=True):
        found[i].append(_decided(ask, understood[i], order, library, settings))
    return [tuple(own) for own in found]


def _decided(ask: Ask, one: Understood, order: Sequence[Ranked], library: Library, settings: Settings) -> Matched:
    sure = order[0].sureness if order else 0.0
    runners_up = tuple((other.answer, other.sureness) for other in order)
    reason = _kept_back(ask, one) or ("" if order else _nothing_known(ask, library))
    if not reason and sure < _wanted(order[0], library, settings):
        reason = unsettled(ask)
    if reason:
        return Matched(ask, None, sure, runners_up[:_RUNNERS_UP], reason)
    best = order[0]
    read_so = ask if best.type == ask.type else replace(ask, type=best.type)
    return Matched(read_so, best.answer, sure, runners_up[1 : 1 + _RUNNERS_UP])


def _wanted(best: Ranked, library: Library, settings: Settings) -> float:
    """How sure to be of an answer; less where it only says what viewers reported, since that claims nothing else."""
    if best.type == "tried" and library.answer(best.answer).asks == ("tried",):
        return min(settings.draft_from, _TOLD_FROM)
    return settings.draft_from


def _kept_back(ask: Ask, one: Understood) -> str:
    if one.conflict and ask.type == "episode":
        return "recipe_conflict"
    return forbidden(ask, one.text) or ("" if one.language in _SPOKEN else "other_language")


def _nothing_known(ask: Ask, library: Library) -> str:
    if any(not library.has(item) for item in ask.items):
        return "unknown_ingredient"
    return "missing_ingredient" if not ask.items and ask.type in _NEEDS_INGREDIENT else "no_knowledge"
