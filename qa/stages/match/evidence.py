"""What speaks for each standing answer that could serve an ask."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.measures.units import BARE, dimension, known
from qa.records import Ask, AskType
from qa.stages.match import alike
from qa.stages.match.fit import BARRED, UNSAID, fit, met
from qa.stages.match.wording import Floats, Nearness
from qa.text.phrases import phrases

# What sort of amount a figure's recipe needs from the asker.
_THEIRS = re.compile(
    r"\b(?:weigh|measure|convert) asked(?: to (?:degC|degF|mL|g)\b)?|\b(?:asked|theirs)\b"
    r"|^(?:labels?|checked|dough|said|oven)\b"
)
_NEEDS = {
    "weigh asked": "volume",
    "measure asked": "mass",
    "convert asked to degC": "temperature",
    "convert asked to degF": "temperature",
    "convert asked to mL": "volume",
    "convert asked to g": "mass",
}
_WEIGHED = ("weigh asked", "measure asked")
# How likely an ask must be of another type for that type's answers to be looked at.
_LIKELY_ENOUGH = 0.08
_ANY_SWAP = re.compile(r"swap .+ of first for second$")
_DEGREES = frozenset(("degC", "degF", "gas_mark"))
# Which ingredient of the ask a recipe speaks of.
_NAMED = (("first", 1), ("second", 2))
# Both are to be left away: neither is used in place of the other.
_NEITHER = phrases("without .. (or|nor|and)")
# An answer for another type of ask, or one whose conditions were not said, is looked at if it is worded so much alike.
_ALIKE_ANYWAY = 0.45
# So are this many of those nearest in meaning.
_NEAREST = 10
# Of the answers for its types no more than this many are looked at: those nearest in words and meaning.
_MOST = 60
# How closely an answer fits that is about both of two things, in whatever form.
_OF_BOTH = 0.85
# An answer is the other way round if so many of its phrasings name the other of the two: none of 13 judged was right.
_OTHER_WAY_ROUND = -0.3


class Candidate(NamedTuple):
    """A standing answer that could serve an ask.

    Attributes:
        place: which of the library's answers it is.
        type: what the ask is taken to want if this is its answer.
        evidence: what speaks for it, each 0 to 1 (or -1 to 1), as `EVIDENCE` names it.
    """

    place: int
    type: AskType
    evidence: tuple[float, ...]


EVIDENCE = (
    "serves", "first", "fit", "named", "told", "covered", "covered around", "strange", "heard", "lacks", "amounts",
    "weighable", "dish", "sure of type", "asks back", "general", "meant", "meant around", "meant few", "role",
    "fit and named", "fit and meant", "serves and meant", "said", "said and meant",
    "ahead in meant", "ahead in meant around", "ahead in meant few", "ahead in named", *alike.EVIDENCE,
)  # fmt: skip


def candidates(
    ask: Ask, library: Library, near: Nearness, row: int, likeness: Callable[[Sequence[int]], Floats]
) -> list[Candidate]:
    """The standing answers that could serve an ask.

    Args:
        ask: what is wanted.
        library: the answers.
        near: how near they are to several asks.
        row: which of these asks it is.
        likeness: how alike its words are to the answers at some places, piece by piece.
    """
    found = _without_likeness(ask, library, near, row)
    alike_too = likeness([one.place for one in found])
    return [
        one._replace(evidence=(*one.evidence, *map(float, more))) for one, more in zip(found, alike_too, strict=True)
    ]


def _without_likeness(ask: Ask, library: Library, near: Nearness, row: int) -> list[Candidate]:
    found = []
    swap_known = _swap_known(ask, library)
    likely = {ask.type: ask.sureness, **{type_: p for type_, p in ask.others if p >= _LIKELY_ENOUGH}}
    read_as = {type_: ask if type_ == ask.type else replace(ask, type=type_) for type_ in likely}
    answers = library.knowledge.answers
    anyway = _alike(near, row)
    ahead = [_ahead(table[row]) for table in (near.meant, near.meant_around, near.meant_few, near.named)]
    of_type = {place for type_ in likely for place in library.answer_places(type_)}
    for place in sorted({*anyway, *_closest(near, row, of_type)}):
        answer = answers[place]
        type_ = max(answer.asks, key=lambda one: likely.get(one, 0.0))
        serves = likely.get(type_, 0.0)
        named = float(near.named[row, place])
        if type_ == "swap" != ask.type and len(ask.items) > 1:
            continue  # which of the two is replaced was not looked for
        if type_ == "swap" and near.role[row, place] < _OTHER_WAY_ROUND:
            continue  # "can I use ghee?" is not answered by what to use in its place
        said = met(ask, answer)
        if said == BARRED or (said == UNSAID and place not in anyway):
            continue
        close = fit(read_as.get(type_, ask), answer, library) if _workable(answer, swap_known=swap_known) else 0.0
        if close > 0:
            meant = float(near.meant[row, place])
            found.append(
                Candidate(
                    place,
                    type_ if serves else ask.type,
                    (
                        float(ask.type in answer.asks),
                        float(type_ == answer.asks[0]),
                        close,
                        named,
                        float(near.told[row, place]),
                        float(near.covered[row, place]),
                        float(near.covered_around[row, place]),
                        float(near.strange[row, place]),
                        float(near.heard[row, place]),
                        _lacks(ask, answer),
                        _amounts_fit(ask, answer),
                        _weighable(ask, answer, library),
                        float(near.dish[row, place]),
                        serves,
                        float(answer.asks_back),
                        float(set(answer.about) <= {"any", "none"}),
                        meant,
                        float(near.meant_around[row, place]),
                        float(near.meant_few[row, place]),
                        float(near.role[row, place]),
                        close * named,
                        close * meant,
                        meant * serves,
                        said,
                        said * meant,
                        *(float(lead[place]) for lead in ahead),
                    ),
                )
            )
    if len(ask.items) > 1 and any(_speaks_of_both(one, answers[one.place]) for one in found):
        return [one for one in found if not _of_any_swap(answers[one.place])]
    return found


def _speaks_of_both(one: Candidate, answer: Answer) -> bool:
    """Whether an answer is about the very two that are swapped, under the asker's conditions."""
    close, said = (one.evidence[EVIDENCE.index(name)] for name in ("fit", "said"))
    return one.type == "swap" and close >= _OF_BOTH and said > UNSAID and not _of_any_swap(answer)


def _of_any_swap(answer: Answer) -> bool:
    """Whether an answer works out whatever swap is known, and says nothing of the two but their ratio."""
    return any(_ANY_SWAP.match(recipe) for _, recipe in answer.figures)


def _alike(near: Nearness, row: int) -> set[int]:
    """The answers that are worded alike or nearest in meaning, whatever else speaks for them."""
    nearest = (np.argsort(-table[row], kind="stable")[:_NEAREST] for table in (near.meant, near.meant_around))
    return set(np.flatnonzero(near.named[row] >= _ALIKE_ANYWAY).tolist()).union(*(own.tolist() for own in nearest))


def _closest(near: Nearness, row: int, places: set[int]) -> list[int]:
    """Those of the places that are nearest in words and meaning together."""
    among = np.array(sorted(places), dtype=np.int64)
    close = near.named[row, among] + near.covered[row, among] + near.meant[row, among]
    return [int(place) for place in among[np.argsort(-close, kind="stable")[:_MOST]]]


def _ahead(values: Floats) -> Floats:
    """How far each value is ahead of the best of the others, or behind it."""
    best = int(values.argmax())
    others = np.full(len(values), values[best])
    others[best] = np.delete(values, best).max(initial=0.0)
    ahead: Floats = values - others
    return ahead


def _swap_known(ask: Ask, library: Library) -> bool:
    """Whether a swap of the two things asked about is known, and not known to fail in the asker's dish."""
    if len(ask.items) < 2 or _NEITHER.search(ask.text):
        return False
    rule = library.swap(*ask.items[:2])
    return rule is not None and not (ask.dish and ask.dish.removesuffix("s") in rule.not_when)


def _workable(answer: Answer, *, swap_known: bool) -> bool:
    """Whether an answer that works out any swap has one to work out."""
    return swap_known or not _of_any_swap(answer)


def _lacks(ask: Ask, answer: Answer) -> float:
    """1 if the answer works with ingredients that the ask does not name."""
    needed = max((place for _, recipe in answer.figures for name, place in _NAMED if name in recipe.split()), default=0)
    return float(len(ask.items) < needed)


def _amounts_fit(ask: Ask, answer: Answer) -> float:
    """Whether the answer works with an amount of the kind that the asker gave, or with the very sum they showed."""
    if any(name == "shows" for name, _ in answer.when):
        return 1.0  # `met` lets it through only where the sum is there
    needed = {_NEEDS.get(m.group(), "any") for _, recipe in answer.figures for m in _THEIRS.finditer(recipe)}
    given = {_kind(amount.unit) for amount in ask.amounts} - {"time", "length"}
    if not needed and not given:
        return 0.5
    units, into = {amount.unit for amount in ask.amounts}, _converted_into(answer)
    if units & _DEGREES and into and units & _DEGREES <= into:
        return 0.0  # it is in that unit already
    return float(bool(given) and (bool(needed & given) or "any" in needed))


def _weighable(ask: Ask, answer: Answer, library: Library) -> float:
    """1 if all is there to turn a measure into a weight or back as the answer does, -1 if not, 0 if it does not."""
    kinds = {_NEEDS[verb] for _, recipe in answer.figures for verb in _WEIGHED if recipe.startswith(verb)}
    if not kinds:
        return 0.0
    known = bool(ask.items) and bool(library.density(ask.items[0]))
    return 1.0 if known and kinds & {_kind(amount.unit) for amount in ask.amounts} else -1.0


def _converted_into(answer: Answer) -> set[str]:
    """The oven scales that an answer converts into."""
    return {
        unit
        for _, recipe in answer.figures
        for unit in _DEGREES
        if recipe in {f"oven {unit}", f"convert asked to {unit}"}
    }


def _kind(unit: str) -> str:
    """What sort of amount a unit makes, bare spoons and cups included."""
    if unit in BARE or not known(unit):  # a stick, a pinch: filled, not weighed
        return "volume" if unit else "number"
    return dimension(unit).strip("[]")


def as_rows(found: Sequence[Candidate]) -> NDArray[np.float64]:
    """The evidence of candidates as rows."""
    return np.array([one.evidence for one in found], dtype=float).reshape(len(found), len(EVIDENCE))
