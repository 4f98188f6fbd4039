"""Learn from the standing answers' own phrasings how likeness and fit tell the right answer."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from qa.knowledge.facts import Answer
from qa.knowledge.library import Library, name_key
from qa.records import Ask, Mention
from qa.similarity.score import Views
from qa.stages.match.fit import fit

_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)?")
_LONGEST_NAME = 4
_SEED = 20260302


@dataclass(frozen=True, slots=True)
class Candidate:
    """A standing answer that could serve an ask: how closely it is about it, and how alike it is worded."""

    answer: Answer
    fit: float
    alike: float


@dataclass(frozen=True, slots=True)
class AnswerModel:
    """What was learned: the phrasings as rows, whose they are, and how evidence turns into a probability.

    Attributes:
        views: turns texts into rows; None if there are no standing answers.
        rows: one for each phrasing.
        owners: ids of the standing answers the rows belong to, in blocks.
        blocks: where each answer's block of rows begins.
        pairs: how likely one candidate is right, for ranking.
        best: how likely the first of the ranking is right.
    """

    views: Views | None
    rows: Any
    owners: tuple[str, ...]
    blocks: NDArray[np.int64]
    pairs: Any
    best: Any

    def alike(self, texts: Sequence[str]) -> list[Mapping[str, float]]:
        """For each text how alike it is to the nearest phrasing of each standing answer, 0 to 1."""
        if self.views is None or not texts:
            return [dict.fromkeys(self.owners, 0.0) for _ in texts]
        near = np.maximum.reduceat((self.views.rows(texts) @ self.rows.T).toarray(), self.blocks, axis=1)
        return [dict(zip(self.owners, map(float, row), strict=True)) for row in near]


def wording(ask: Ask, mentions: Sequence[Mention]) -> str:
    """An ask's words with every ingredient as X, as phrasings are compared."""
    parts, at = [], ask.start
    for mention in mentions:
        if at <= mention.start and mention.end <= ask.end:
            parts += [ask.text[at - ask.start : mention.start - ask.start], "X"]
            at = mention.end
    return "".join([*parts, ask.text[at - ask.start :]])


def learn_answers(library: Library) -> AnswerModel:
    """Fit on the phrasings: each is asked in turn as if unknown, with and without its own answer in the race."""
    answers = library.knowledge.answers
    if not answers:
        return AnswerModel(None, None, (), np.zeros(0, dtype=np.int64), None, None)
    names = {name_key(name.text) for name, _ in library.names() if len(name.text) > 2}
    texts = [[_phrased(phrasing, names) for phrasing in answer.phrasings] or [answer.id] for answer in answers]
    flat = [text for own in texts for text in own]
    blocks = np.cumsum([0, *map(len, texts)])[:-1]
    views = Views().fit(flat)
    rows = views.rows(flat)
    model = AnswerModel(views, rows, tuple(a.id for a in answers), blocks, None, None)
    kernel = (rows @ rows.T).toarray()
    np.fill_diagonal(kernel, 0.0)
    near = np.maximum.reduceat(kernel, blocks, axis=1)
    owner = np.repeat(np.arange(len(answers)), list(map(len, texts)))
    asks = [[_as_asked(answer, kind) for kind in answer.asks] for answer in answers]
    trials = [
        (own, [(j, close, near[row, j]) for j, close in _rivals(ask, library, answers)])
        for row, own in enumerate(owner)
        for ask in asks[own][:1]
    ]
    pairs = _fitted([(c[1:], c[0] == own) for own, found in trials for c in found])
    outcomes = []
    for own, found in trials:
        scored = sorted(((_score(pairs, c[1:]), c) for c in found), reverse=True)
        outcomes.append((_evidence(scored), bool(scored) and scored[0][1][0] == own))
        without = [entry for entry in scored if entry[1][0] != own]
        if without and not _general(answers[without[0][1][0]]):  # a general answer may well serve in its place
            outcomes.append((_evidence(without), False))
    best = _fitted([(evidence, right) for evidence, right in outcomes if evidence is not None])
    return AnswerModel(model.views, rows, model.owners, blocks, pairs, best)


def _phrased(phrasing: str, names: set[str]) -> str:
    """A phrasing as wording() would give it."""
    text = phrasing.replace("{ingredient}", "X").replace("{other}", "X")
    words = [(m.start(), m.end(), name_key(m.group())) for m in _WORD.finditer(text)]
    parts, at, i = [], 0, 0
    while i < len(words):
        count = _name_length([word for _, _, word in words[i : i + _LONGEST_NAME]], names)
        if count:
            parts += [text[at : words[i][0]], "X"]
            at = words[i + count - 1][1]
        i += count or 1
    return "".join([*parts, text[at:]])


def _name_length(words: Sequence[str], names: set[str]) -> int:
    """How many of the words a name takes that begins with the first of them."""
    runs = ((count, " ".join(words[:count])) for count in range(len(words), 0, -1))
    return next((count for count, run in runs if run in names or run.removesuffix("s") in names), 0)


def _as_asked(answer: Answer, kind: Any) -> Ask:
    """An ask that the answer is for."""
    items = tuple(
        subject for subject in answer.about if not subject.startswith("family:") and subject not in {"any", "none"}
    )
    when = dict(answer.when)
    first = {name: value.split(",")[0].split("|")[0].strip() for name, value in when.items()}
    return Ask(kind, 0, 0, "", items, dish=first.get("dish", ""), symptom=first.get("symptom", ""),
               region=first.get("region", ""))  # fmt: skip


def _rivals(ask: Ask, library: Library, answers: Sequence[Answer]) -> list[tuple[int, float]]:
    """All answers that could serve an ask; where it names no ingredient, those about any or none."""
    found = []
    for place, answer in enumerate(answers):
        if ask.type not in answer.asks:
            continue
        close = fit(ask, answer, library) if ask.items else _open_fit(answer)
        if close > 0:
            found.append((place, float(close)))
    return found


def _general(answer: Answer) -> bool:
    return bool({"any", "none"} & set(answer.about)) or any(subject.startswith("family:") for subject in answer.about)


def _open_fit(answer: Answer) -> float:
    """How closely an answer is about an ask whose ingredient could be any."""
    subjects = {subject.partition(":")[0] for subject in answer.about}
    worth = (("none", 0.6), ("family", 0.55), ("any", 0.4))
    return max((value for subject, value in worth if subject in subjects), default=0.0)


def _fitted(cases: Sequence[tuple[Any, bool]]) -> Any:
    from sklearn.linear_model import LogisticRegression

    labels = [right for _, right in cases]
    if len(set(labels)) < 2:
        return None
    return LogisticRegression(C=10.0, max_iter=1000, random_state=_SEED).fit([list(e) for e, _ in cases], labels)


def _score(pairs: Any, evidence: Sequence[float]) -> float:
    """The log odds that a candidate is right."""
    if pairs is None:
        return float(sum(evidence))
    return float(np.dot(pairs.coef_[0], evidence) + pairs.intercept_[0])


def _evidence(scored: Sequence[tuple[float, Any]]) -> tuple[float, float, float, float] | None:
    if not scored:
        return None
    score, (_, close, alike) = scored[0]
    lead = score - scored[1][0] if len(scored) > 1 else 4.0
    return (score, min(lead, 4.0), close, float(alike))


def ranked(candidates: Sequence[Candidate], model: AnswerModel) -> list[tuple[str, float]]:
    """Ids of the candidates with the probability that each is right, best first."""
    scored = sorted(
        ((_score(model.pairs, (c.fit, c.alike)), (c.answer.id, c.fit, c.alike)) for c in candidates), reverse=True
    )
    evidence = _evidence(scored)
    if evidence is None:
        return []
    sure = float(model.best.predict_proba([evidence])[0, 1]) if model.best is not None else 0.5
    odds = np.exp([score - scored[0][0] for score, _ in scored])
    shares = [sure, *((1 - sure) * odds[1:] / max(float(odds[1:].sum()), 1e-9))]
    return [(entry[0], round(min(float(share), sure), 4)) for (_, entry), share in zip(scored, shares, strict=True)]
