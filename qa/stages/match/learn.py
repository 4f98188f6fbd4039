"""Learn how wording and subject tell the right standing answer from the others, and how sure to be of it."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.knowledge.names import name_key
from qa.measures.parse import find_amounts
from qa.records import ASK_TYPES, Ask, AskType, Mention
from qa.similarity.choice import fit_choice
from qa.similarity.forest import Forest
from qa.similarity.odds import Odds
from qa.stages.match.evidence import Candidate, as_rows, candidates
from qa.stages.match.spoken import Spoken
from qa.stages.match.wording import Known, Worded, Wording, worded, written
from qa.text.pairs import role_in
from qa.text.phrases import phrases

_WORD = re.compile(r"\{\w+\}|[^\W\d_]+(?:'[^\W\d_]+)?|\b00\b")
# What only the maker of the video knows: "what size of tin did you use", "how many does this make".
_OF_THE_MAKER = phrases(
    """(did|do|have|had|are|were|will|would) (you|u|ya|y'all) (use*|bake*|do|get|make|have|add|put|buy|weigh|mean|grind|
        leave|chill|rest|roll|going|planning|using|ever) | your (recipe|video|cup|tin|pan|oven|one|ones|version|batter|
        dough|bread|loaf|cake|cookies|kitchen|flour) | yours | (this|it|that|recipe) (make|makes|serve|serves|yield*) |
        in the video | on screen | (this|the) recipe | this (one|cake|bread|loaf|bake)"""
)
_LONGEST_NAME = 4
# Every so many phrasings is asked as if it were not known.
_PHRASINGS_ASKED = 12
# Every so many asks are asked once more with their answers taken away: not every question has been answered yet, and
# what lies next to the right answer is then what must not be taken for it.
_UNANSWERED = 2
# What a phrasing counts for beside an ask that a reader judged: it resembles its answer more than viewers' words do.
_WEIGHT_OF_PHRASINGS = 0.2
# From so many judged asks on, how sure to be is learned from them alone.
_ENOUGH_JUDGED = 200


class Judged(NamedTuple):
    """An ask as we understood it, with the standing answers that a reader would sign; () where none would do.

    Attributes:
        text: the whole comment.
        voice: who wrote it.
    """

    ask: Ask
    mentions: tuple[Mention, ...]
    text: str
    signable: tuple[str, ...]
    voice: str


class Sureness(NamedTuple):
    """How likely the first of a ranking is right, by a weighted sum of what speaks for it and by a forest.

    The sum is steady where little was seen, the forest sees what counts only together; their mean errs least.
    """

    odds: Odds
    forest: Forest

    def of(self, evidence: Sequence[float]) -> float:
        """The probability, 0 to 1."""
        return float((self.odds.of([evidence])[0] + self.forest.of([evidence])[0]) / 2)


@dataclass(frozen=True, slots=True)
class AnswerModel:
    """What was learned of the standing answers.

    Attributes:
        wording: how alike asks are worded; None if there are no answers.
        worth: what each piece of evidence counts for in ranking the candidates.
        best: how likely the first of the ranking is right.
        spoken: how much words tell of what an answer speaks of.
    """

    wording: Wording | None
    worth: NDArray[np.float64] | None = None
    best: Sureness | None = None
    spoken: Spoken | None = None


class _Case(NamedTuple):
    """An ask to learn from, the places of the answers that are right for it, and what it counts for."""

    ask: Ask
    words: Worded
    right: frozenset[int]
    source: str
    weight: float


def learn_answers(library: Library, judged: Sequence[Judged] = ()) -> AnswerModel:
    """Fit on asks that a reader judged and on the phrasings, each asked in turn as if its writer had not been heard."""
    answers = library.knowledge.answers
    if not answers:
        return AnswerModel(None)
    phrased = phrased_asks(library)
    cases = [
        _Case(one.ask, one.known.words, frozenset((one.known.answer,)), one.known.source, _WEIGHT_OF_PHRASINGS)
        for one in phrased[::_PHRASINGS_ASKED]
    ]
    places = {answer.id: place for place, answer in enumerate(answers)}
    heard: list[Known] = []
    for one in judged:
        words = worded(one.ask, one.mentions, one.text)
        right = frozenset(places[key] for key in one.signable if key in places)
        heard += (Known(place, words, one.voice, viewer=True) for place in sorted(right))
        cases.append(_Case(one.ask, words, right, one.voice, 1.0))
    wording = Wording.of([*(one.known for one in phrased), *heard], [" ".join(answer.bodies) for answer in answers])
    near = wording.near([case.words for case in cases], [case.source for case in cases])
    found = [
        candidates(case.ask, library, near, row, partial(wording.likeness.to, case.words.named, leave_out=case.source))
        for row, case in enumerate(cases)
    ]
    worth = fit_choice(
        [
            ([one.evidence for one in own], [one.place in case.right for one in own])
            for case, own in zip(cases, found, strict=True)
        ],
        [case.weight for case in cases],
        strength=20.0,
    )
    spoken = Spoken.of([body for answer in answers for body in answer.bodies])
    return AnswerModel(wording, worth, _certainty(list(zip(cases, found, strict=True)), worth), spoken)


def _certainty(cases: Sequence[tuple[_Case, list[Candidate]]], worth: NDArray[np.float64]) -> Sureness | None:
    """How likely the first of a ranking is right: by what readers judged, or by phrasings if they judged too little."""
    judged = [(case, own) for case, own in cases if case.weight == 1 and own]
    asked = judged if len(judged) >= _ENOUGH_JUDGED else cases
    answered = [(case, own) for case, own in asked if case.right][::_UNANSWERED]
    without = [(case, [one for one in own if one.place not in case.right]) for case, own in answered]
    judged = [(case, own) for case, own in (*asked, *without) if own]
    firsts = [(case, _ranking(own, worth)) for case, own in judged]
    evidence = [_evidence(case.ask, scored) for case, scored in firsts]
    right = [scored[0][1].place in case.right for case, scored in firsts]
    if len(set(right)) < 2:
        return None
    return Sureness(Odds.fit(evidence, right, strength=10.0), Forest.fit(evidence, right))


def _ranking(found: Sequence[Candidate], worth: NDArray[np.float64]) -> list[tuple[float, Candidate]]:
    """Candidates with the logarithm of their odds against each other, best first."""
    scores = as_rows(found) @ worth
    return sorted(
        ((float(score), one) for score, one in zip(scores, found, strict=True)),
        key=lambda pair: (-pair[0], pair[1].place),
    )


def _evidence(ask: Ask, scored: Sequence[tuple[float, Candidate]]) -> tuple[float, ...]:
    """What speaks for the first of a ranking: its share and lead, how it was asked, and its own evidence."""
    score, first = scored[0]
    lead = min(score - scored[1][0], 4.0) if len(scored) > 1 else 4.0
    share = 1 / sum(math.exp(other - score) for other, _ in scored)
    words = ask.text.split()
    of_the_maker = float(_OF_THE_MAKER.search(ask.text) is not None)
    kind = (float(first.type == one) for one in ASK_TYPES)  # "where to buy" is answered in one way, "how to" in many
    form = (float("?" in ask.text), of_the_maker, min(len(words), 20) / 20)
    return (score, lead, share, ask.sureness, *form, *kind, *first.evidence)


class Ranked(NamedTuple):
    """A standing answer, how likely it is right, and what the ask is then taken to want."""

    answer: str
    sureness: float
    type: AskType


def ranked(ask: Ask, found: Sequence[Candidate], library: Library, model: AnswerModel) -> list[Ranked]:
    """The candidates with the probability that each is right, best first."""
    if not found or model.worth is None:
        return []
    scored = _ranking(found, model.worth)
    sure = model.best.of(_evidence(ask, scored)) if model.best is not None else 0.5
    odds: NDArray[np.float64] = np.exp([score - scored[0][0] for score, _ in scored])
    shares = [sure, *((1 - sure) * odds[1:] / max(float(odds[1:].sum()), 1e-9))]
    return [
        Ranked(library.knowledge.answers[one.place].id, round(min(float(share), sure), 4), one.type)
        for (_, one), share in zip(scored, shares, strict=True)
    ]


def spoken_of(ask: Ask, answer: Answer, model: AnswerModel) -> tuple[float, ...]:
    """How much of the ask each of the answer's bodies speaks of, 0 to 1; 0 where nothing was learned."""
    return model.spoken.shares(ask.text, answer.bodies) if model.spoken else (0.0,) * len(answer.bodies)


class Phrased(NamedTuple):
    """A phrasing of a standing answer as an ask."""

    ask: Ask
    known: Known


def phrased_asks(library: Library) -> list[Phrased]:
    """All phrasings, answer by answer; an answer without any is asked by its id."""
    names = phrased_names(library)
    found = []
    for place, answer in enumerate(library.knowledge.answers):
        subjects = open_items(answer, library)
        for number, phrasing in enumerate(answer.phrasings or (answer.id.replace("-", " "),)):
            ask, words = _as_asked(answer, phrasing, names, subjects)
            found.append(Phrased(ask, Known(place, words, f"{answer.id} {number}")))
    return found


def phrased_names(library: Library) -> dict[str, str]:
    """The items that English phrasings can name; a foreign name may be a small English word ("the", "per")."""
    spoken = (entry for entry in reversed(library.names()) if entry[0].language == "en" and len(entry[0].text) > 2)
    return {name_key(name.text): item for name, item in spoken}


def open_items(answer: Answer, library: Library) -> tuple[str, ...]:
    """What {ingredient} and {other} stand for: what the answer is about, else what no closer answer speaks of."""
    named = tuple(s for s in answer.about if ":" not in s and s not in {"any", "none"})
    if named:
        return named
    closer = {s for other in library.answers(answer.asks[0]) if other is not answer for s in other.about}
    families = {s.removeprefix("family:") for s in answer.about if ":" in s}
    spoken_of = {s.partition(".")[0] for s in closer}
    free = [
        one.id
        for one in library.knowledge.ingredients
        if one.id not in spoken_of and (one.family in families if families else f"family:{one.family}" not in closer)
    ]
    return tuple(free) or tuple(one.id for one in library.knowledge.ingredients)


def _as_asked(answer: Answer, phrasing: str, names: Mapping[str, str], subjects: Sequence[str]) -> tuple[Ask, Worded]:
    """A phrasing as an ask, with its wordings; placeholders stand for the subjects."""
    words = [(m.start(), m.end(), name_key(m.group())) for m in _WORD.finditer(phrasing)]
    spots: list[tuple[int, int, str]] = []
    left_open: list[str] = []
    place = 0
    while place < len(words):
        start, end, word = words[place]
        if word.startswith("{"):
            left_open.append(subjects[(1 if word == "{other}" else 0) % len(subjects)])
            spots.append((start, end, "X"))
        elif count := _name_length([key for _, _, key in words[place : place + _LONGEST_NAME]], names):
            key = " ".join(key for _, _, key in words[place : place + count])
            spots.append((start, words[place + count - 1][1], names.get(key) or names[key.removesuffix("s")]))
            place += count - 1
        place += 1
    found = list(dict.fromkeys([*left_open, *(item for _, _, item in spots if item != "X")]))
    if answer.fits == "swap":  # phrasings name the two in either order, an ask always the replaced one first
        replaced = answer.about[0]
        found.sort(key=lambda item: (item != replaced, item.partition(".")[0] != replaced.partition(".")[0]))
    when = {name: value.split(",")[0].split("|")[0].strip() for name, value in answer.when}
    when = {name: value for name, value in when.items() if value != "none" and not value.startswith("not ")}
    ask = Ask(answer.asks[0], 0, len(phrasing), phrasing, tuple(found), tuple(find_amounts(phrasing)),
              dish=when.get("dish", ""), symptom=when.get("symptom", ""), region=when.get("region", ""))  # fmt: skip
    marked, by_name = written(phrasing, spots)
    return ask, Worded(marked, by_name, by_name, by_name, ask.dish, role_in(marked, marked))


def _name_length(words: Sequence[str], names: Mapping[str, str]) -> int:
    """How many of the words a name takes that begins with the first of them."""
    runs = ((count, " ".join(words[:count])) for count in range(len(words), 0, -1))
    return next((count for count, run in runs if run in names or run.removesuffix("s") in names), 0)
