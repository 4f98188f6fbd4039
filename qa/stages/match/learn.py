"""Learn from the standing answers' own phrasings how wording and fit tell the right answer from the others."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.knowledge.names import name_key
from qa.measures.parse import find_amounts
from qa.measures.units import BARE, dimension, known
from qa.records import Ask, Mention
from qa.similarity import Views, text_views
from qa.similarity.odds import Odds
from qa.stages.match.fit import fit

Floats = NDArray[np.float32]

_WORD = re.compile(r"\{\w+\}|[^\W\d_]+(?:'[^\W\d_]+)?")
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
_LONGEST_NAME = 4
# Another answer of the same type is taken to be as right as an answer's own if it is worded this much alike, since
# standing answers overlap.
_AS_ALIKE = 0.7
# An answer for another type of ask is still looked at if it is worded this much alike.
_ALIKE_ANYWAY = 0.5
# Every so many phrasings is asked once more with its answer taken away: not every question has been answered yet.
_UNANSWERED = 2
# Every so many phrasings is asked with its type misread, since types are sometimes misread.
_MISREAD = 8


class Candidate(NamedTuple):
    """What speaks for a standing answer, all 0 to 1.

    Attributes:
        place: which of the library's answers it is.
        serves: 1 if it serves the ask's type.
        fit: how closely it is about the ingredients.
        alike: how alike it is worded with every ingredient as X.
        named: how alike it is worded with the ingredients by their ids, or as X where a phrasing leaves them open.
        amounts: 1 if an amount was said and it needs one, 0 if only one of the two, between if neither.
    """

    place: int
    serves: float
    fit: float
    alike: float
    named: float
    amounts: float

    @property
    def evidence(self) -> tuple[float, ...]:
        """What a linear model may weigh: wording tells the more the closer the subject."""
        return (self.serves, self.fit, self.alike, self.named, self.fit * self.named, self.amounts)


@dataclass(frozen=True, slots=True)
class AnswerModel:
    """What was learned of the standing answers.

    Attributes:
        marked, named: phrasings as rows, with ingredients as X and by their ids; None if there are no answers.
        blocks: where each answer's rows begin.
        pairs: how likely a candidate is right, for ranking.
        best: how likely the first of the ranking is right.
    """

    marked: tuple[Views, Any] | None
    named: tuple[Views, Any] | None
    blocks: NDArray[np.int64]
    pairs: Odds | None
    best: Odds | None


def wordings(ask: Ask, mentions: Sequence[Mention]) -> tuple[str, str]:
    """An ask's words with every ingredient as X, and with every ingredient by its id."""
    spots = [
        (m.start - ask.start, m.end - ask.start, m.item) for m in mentions if ask.start <= m.start and m.end <= ask.end
    ]
    return _written(ask.text, spots)


def _written(text: str, spots: Sequence[tuple[int, int, str]]) -> tuple[str, str]:
    marked, named, at = [], [], 0
    for start, end, item in spots:
        if start < at:
            continue
        marked += [text[at:start], "X"]
        named += [text[at:start], item.replace(".", " ").replace("-", "")]
        at = end
    return "".join([*marked, text[at:]]), "".join([*named, text[at:]])


def learn_answers(library: Library) -> AnswerModel:
    """Fit on the phrasings: each is asked in turn as if it were not known."""
    answers = library.knowledge.answers
    nothing = AnswerModel(None, None, np.zeros(0, dtype=np.int64), None, None)
    if not answers:
        return nothing
    names = phrased_names(library)
    asked = [
        _as_asked(answer, phrasing, names, open_items(answer, library))
        for answer in answers
        for phrasing in answer.phrasings or (answer.id,)
    ]
    sizes = [max(len(answer.phrasings), 1) for answer in answers]
    owner, blocks = np.repeat(np.arange(len(answers)), sizes), np.cumsum([0, *sizes])[:-1]
    marked, alike = _rows([marked for _, marked, _ in asked])
    named, by_name = _rows([named for _, _, named in asked])
    views, rows = named
    by_name = np.maximum(
        by_name, np.where(_others(len(asked)), (views.rows([m for _, m, _ in asked]) @ rows.T).toarray(), 0)
    )
    near = [np.maximum.reduceat(kernel, blocks, axis=1) for kernel in (alike, by_name)]
    trials = []
    for row, (ask, _, _) in enumerate(asked):
        read = replace(ask, type="other") if row % _MISREAD == 0 else ask
        trials.append((int(owner[row]), candidates(read, library, near[0][row], near[1][row])))
    pairs = _fitted([(c.evidence, c.place == own) for own, found in trials for c in found])
    unanswered = [(own, [one for one in found if one.place != own]) for own, found in trials[::_UNANSWERED]]
    outcomes = []
    for own, found in (*trials, *unanswered):
        scored = _ranking(found, pairs)
        if evidence := _evidence(scored):
            outcomes.append((evidence, scored[0][1].place == own or _as_good(scored[0][1])))
    return AnswerModel(marked, named, blocks, pairs, _fitted(outcomes))


def _rows(texts: Sequence[str]) -> tuple[tuple[Views, Any], Floats]:
    """Texts as rows, and how alike each is to each other one (not to itself)."""
    views = text_views().fit(texts)
    rows = views.rows(texts)
    kernel: Floats = (rows @ rows.T).toarray()
    np.fill_diagonal(kernel, 0.0)
    return (views, rows), kernel


def _others(count: int) -> NDArray[np.bool_]:
    return ~np.eye(count, dtype=bool)


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


def _as_asked(answer: Answer, phrasing: str, names: Mapping[str, str], subjects: Sequence[str]) -> tuple[Ask, str, str]:
    """A phrasing as an ask, with its two wordings; placeholders stand for the subjects."""
    words = [(m.start(), m.end(), name_key(m.group())) for m in _WORD.finditer(phrasing)]
    spots: list[tuple[int, int, str]] = []
    open_items: list[str] = []
    place = 0
    while place < len(words):
        start, end, word = words[place]
        if word.startswith("{"):
            open_items.append(subjects[(1 if word == "{other}" else 0) % len(subjects)])
            spots.append((start, end, "X"))
        elif count := _name_length([key for _, _, key in words[place : place + _LONGEST_NAME]], names):
            key = " ".join(key for _, _, key in words[place : place + count])
            spots.append((start, words[place + count - 1][1], names.get(key) or names[key.removesuffix("s")]))
            place += count - 1
        place += 1
    found = list(dict.fromkeys([*open_items, *(item for _, _, item in spots if item != "X")]))
    if answer.fits == "swap":  # phrasings name the two in either order, an ask always the replaced one first
        replaced = answer.about[0]
        found.sort(key=lambda item: (item != replaced, item.partition(".")[0] != replaced.partition(".")[0]))
    when = {name: value.split(",")[0].split("|")[0].strip() for name, value in answer.when}
    ask = Ask(answer.asks[0], 0, 0, phrasing, tuple(found), tuple(find_amounts(phrasing)), dish=when.get("dish", ""),
              symptom=when.get("symptom", ""), region=when.get("region", ""))  # fmt: skip
    return ask, *_written(phrasing, spots)


def _name_length(words: Sequence[str], names: Mapping[str, str]) -> int:
    """How many of the words a name takes that begins with the first of them."""
    runs = ((count, " ".join(words[:count])) for count in range(len(words), 0, -1))
    return next((count for count, run in runs if run in names or run.removesuffix("s") in names), 0)


def nearness(asks: Sequence[tuple[str, str]], model: AnswerModel) -> tuple[Floats, Floats]:
    """For each ask, in both wordings, how alike it is to the nearest phrasing of each standing answer."""
    assert model.marked is not None  # the caller looks first  # noqa: S101
    assert model.named is not None  # noqa: S101
    marked, named = [one for one, _ in asks], [other for _, other in asks]

    def near(part: tuple[Views, Any], texts: Sequence[str]) -> Floats:
        return np.maximum.reduceat((part[0].rows(texts) @ part[1].T).toarray(), model.blocks, axis=1)

    return near(model.marked, marked), np.maximum(near(model.named, named), near(model.named, marked))


def candidates(ask: Ask, library: Library, alike: Floats, named: Floats) -> list[Candidate]:
    """The standing answers that could serve an ask."""
    found = []
    for place, answer in enumerate(library.knowledge.answers):
        serves = ask.type in answer.asks
        if not serves and named[place] < _ALIKE_ANYWAY:
            continue
        close = fit(ask, answer, library)
        if close > 0:
            amounts = _amounts_fit(ask, answer)
            found.append(Candidate(place, float(serves), close, float(alike[place]), float(named[place]), amounts))
    return found


def _amounts_fit(ask: Ask, answer: Answer) -> float:
    """Whether the answer works with an amount of the kind that the asker gave, or with the very sum they showed."""
    if any(name == "shows" for name, _ in answer.when):
        return 1.0  # `fit` lets it through only where the sum is there
    needed = {_NEEDS.get(m.group(), "any") for _, recipe in answer.figures for m in _THEIRS.finditer(recipe)}
    given = {_kind(amount.unit) for amount in ask.amounts} - {"time", "length"}
    if not needed and not given:
        return 0.5
    return float(bool(given) and (bool(needed & given) or "any" in needed))


def _kind(unit: str) -> str:
    """What sort of amount a unit makes, bare spoons and cups included."""
    if unit in BARE or not known(unit):  # a stick, a pinch: filled, not weighed
        return "volume" if unit else "number"
    return dimension(unit).strip("[]")


def _as_good(one: Candidate) -> bool:
    """Whether an answer that is not the phrasing's own would do as well, being worded nearly the same."""
    return one.serves > 0 and one.named >= _AS_ALIKE


def _fitted(cases: Sequence[tuple[Sequence[float], bool]]) -> Odds | None:
    labels = [right for _, right in cases]
    return Odds.fit([list(e) for e, _ in cases], labels, strength=10.0) if len(set(labels)) > 1 else None


def _ranking(found: Sequence[Candidate], pairs: Odds | None) -> list[tuple[float, Candidate]]:
    """Candidates with the log odds that they are right, best first."""
    if pairs is None:
        return sorted(((float(sum(c.evidence)), c) for c in found), reverse=True)
    return sorted(((float(np.dot(pairs.weights, c.evidence)) + pairs.base, c) for c in found), reverse=True)


def _evidence(scored: Sequence[tuple[float, Candidate]]) -> tuple[float, ...] | None:
    """What speaks for the first of a ranking: its own evidence and its lead."""
    if not scored:
        return None
    score, first = scored[0]
    lead = min(score - scored[1][0], 4.0) if len(scored) > 1 else 4.0
    return (score, lead, *first.evidence)


def ranked(found: Sequence[Candidate], library: Library, model: AnswerModel) -> list[tuple[str, float]]:
    """Ids of the candidates with the probability that each is right, best first."""
    scored = _ranking(found, model.pairs)
    evidence = _evidence(scored)
    if evidence is None:
        return []
    sure = float(model.best.of([evidence])[0]) if model.best is not None else 0.5
    odds = np.exp([score - scored[0][0] for score, _ in scored])
    shares = [sure, *((1 - sure) * odds[1:] / max(float(odds[1:].sum()), 1e-9))]
    ids = [library.knowledge.answers[c.place].id for _, c in scored]
    return [(answer, round(min(float(share), sure), 4)) for answer, share in zip(ids, shares, strict=True)]
