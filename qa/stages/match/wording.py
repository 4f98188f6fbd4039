"""How alike an ask is worded to each standing answer: to its phrasings and to asks it was right for before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.records import Ask, Mention
from qa.similarity import Views
from qa.similarity.plain import plain_words
from qa.similarity.views import letter_runs, words_and_pairs
from qa.stages.match.alike import Likeness
from qa.stages.match.bare import told_at
from qa.stages.match.meaning import Meaning
from qa.text.pairs import role_in

Floats = NDArray[np.float32]
Flags = NDArray[np.bool_]
# Rows of asks that are compared at a time, so that what is dense stays small.
_AT_ONCE = 512
# What stands around an ask is looked at as well, up to so many characters.
_AROUND = 150
# So many of an answer's known texts are its nearest few.
_FEW = 3
# The logarithm of how many asks make an answer one that is given often.
_OFTEN = 4.0


class Worded(NamedTuple):
    """An ask's words in several ways.

    Attributes:
        marked: with every ingredient as X.
        named: with every ingredient by its id.
        around: the ask with what stands around it, ingredients by their ids; a short comment as a whole.
        whole: the whole comment, ingredients by their ids.
        dish: what is being baked, or ''.
        role: 1 if only what is replaced is named, -1 if only what is used instead, else 0.
    """

    marked: str
    named: str
    around: str
    whole: str
    dish: str = ""
    role: int = 0


class Known(NamedTuple):
    """A text that a standing answer is right for: a phrasing of its own, or an ask of a labelled comment.

    Attributes:
        answer: the answer's place in the library.
        source: what it comes from; the same for all that must be left out together.
        viewer: whether a viewer asked so.
    """

    answer: int
    words: Worded
    source: str
    viewer: bool = False


class Nearness(NamedTuple):
    """For some asks (rows) how near each standing answer (columns) is, all 0 to 1.

    Attributes:
        named: how alike the most alike known text is, ingredients by their ids, or as X where it leaves them open.
        told: how much of what a known text says stands in the comment.
        covered: how much of what the ask says stands in the answer or its phrasings.
        covered_around: the same of the ask with its surroundings.
        strange: how much the most telling word of the ask tells that the answer does not speak of, 1 for the rarest.
        heard: how often viewers' asks were answered so before, on a logarithmic scale.
        dish: 1 if the answer speaks of the asker's dish, -1 if it does not, 0 if the asker names none.
        meant: how near in meaning the nearest known text is, whatever its words.
        meant_around: the same of the ask with its surroundings.
        meant_few: how near in meaning the nearest few known texts are on average.
        role: 1 if the answer is asked for by what is replaced and so does the asker, or by what is used and so they do;
            -1 if it is the other way round.
    """

    named: Floats
    told: Floats
    covered: Floats
    covered_around: Floats
    strange: Floats
    heard: Floats
    dish: Floats
    meant: Floats
    meant_around: Floats
    meant_few: Floats
    role: Floats


@dataclass(frozen=True, slots=True)
class Wording:
    """The known texts as rows, sorted by answer, and what the answers speak of.

    Attributes:
        named: views and rows of the known texts.
        meaning: what the known texts mean.
        likeness: what their single words mean.
        sources: where each row comes from.
        viewers: which rows are viewers' own words.
        blocks: where each answer's rows begin.
        columns: which column each plain word is counted in.
        rarity: how much each column tells.
        told: known texts as shares of what they say.
        spoken: which words each answer and its phrasings hold, answers as rows.
        roles: the mean role in each answer's phrasings.
    """

    named: tuple[Views, Any]
    meaning: Meaning
    likeness: Likeness
    sources: NDArray[np.str_]
    viewers: Flags
    blocks: NDArray[np.int64]
    columns: dict[str, int]
    rarity: Floats
    told: Any
    spoken: Any
    roles: Floats

    @classmethod
    def of(cls, known: Sequence[Known], bodies: Sequence[str]) -> Wording:
        """Fit on known texts and on the answers' bodies, in the library's order; every answer needs one text."""
        rows = sorted(known, key=lambda one: one.answer)
        named = _views().fit([one.words.named for one in rows])
        sizes = np.bincount([one.answer for one in rows], minlength=len(bodies))
        held = [_bag(one.words.named) for one in rows]
        spoken = [set(_bag(body)) for body in bodies]
        for one, words in zip(rows, held, strict=True):
            if not one.viewer:  # else an ask that is learned from would be covered by itself
                spoken[one.answer] |= words
        columns = {word: place for place, word in enumerate(sorted(set().union(*spoken)))}
        having = np.bincount([columns[word] for words in spoken for word in words], minlength=len(columns))
        rarity = np.log((1 + len(bodies)) / (1 + having)).astype(np.float32) + np.float32(0.1)
        told = _binary(held, columns).multiply(rarity).tocsr()
        total = np.asarray(told.sum(axis=1)).ravel()
        told.data /= np.repeat(np.maximum(total, 1e-6), np.diff(told.indptr)).astype(np.float32)
        texts, sources = [one.words.named for one in rows], np.array([one.source for one in rows])
        blocks = np.cumsum([0, *sizes])[:-1]
        return cls(
            named=(named, named.rows(texts)),
            meaning=Meaning.fit(texts, np.array([one.answer for one in rows])),
            likeness=Likeness.fit(texts, blocks, sources),
            sources=sources,
            viewers=np.array([one.viewer for one in rows]),
            blocks=blocks,
            columns=columns,
            rarity=rarity,
            told=told,
            spoken=_binary(spoken, columns),
            roles=_roles([one for one in rows if not one.viewer], len(bodies)),
        )

    def near(self, asked: Sequence[Worded], leave_out: Sequence[str] = ()) -> Nearness:
        """How near each answer is to each ask; known texts from the source in `leave_out`, if given, do not count."""
        parts = [
            self._near(asked[at : at + _AT_ONCE], leave_out[at : at + _AT_ONCE])
            for at in range(0, len(asked), _AT_ONCE)
        ]
        return Nearness(*(np.concatenate(columns) for columns in zip(*parts, strict=True)))

    def _near(self, asked: Sequence[Worded], leave_out: Sequence[str]) -> Nearness:
        marked, named = [one.marked for one in asked], [one.named for one in asked]
        out = self.sources[None, :] == np.array(leave_out)[:, None] if leave_out else None
        by_name = _product(self.named[0].rows(named), self.named[1])
        if open_too := [row for row, (one, other) in enumerate(zip(marked, named, strict=True)) if one != other]:
            left_open = _product(self.named[0].rows([marked[row] for row in open_too]), self.named[1])
            by_name[open_too] = np.maximum(by_name[open_too], left_open)
        said = _binary([_bag(one.whole) for one in asked], self.columns)
        told = self._block(_product(said, self.told), out)
        best = self._block(by_name, out)
        around = [one.around for one in asked]
        covered, covered_around = self._covered(named), self._covered(around)
        strange, heard = self._strange(named), self._heard(len(asked), out)
        meant = self._meant(named, out)
        most_meant, few_meant = self._block(meant, None), self._best_few(meant)
        around_meant = most_meant.copy()
        if more := [row for row, (one, other) in enumerate(zip(named, around, strict=True)) if one != other]:
            wider = self._meant([around[row] for row in more], None if out is None else out[more])
            around_meant[more] = self._block(wider, None)
        return Nearness(
            best, told, covered, covered_around, strange, heard, self._dish(asked),
            most_meant, around_meant, few_meant, np.outer([one.role for one in asked], self.roles),
        )  # fmt: skip

    def _meant(self, texts: Sequence[str], out: Flags | None) -> Floats:
        """How near each text is in meaning to each known text, 0 for those left out."""
        near: Floats = np.maximum(self.meaning.of(texts) @ self.meaning.rows.T, 0)
        if out is not None:
            near[out] = 0
        return near

    def _best_few(self, near: Floats) -> Floats:
        """The mean of the best few of each answer's known texts."""
        ends = [*self.blocks[1:], near.shape[1]]
        columns = []
        for begin, end in zip(self.blocks, ends, strict=True):
            few = min(_FEW, end - begin)
            columns.append(np.partition(near[:, begin:end], end - begin - few, axis=1)[:, -few:].mean(axis=1))
        return np.stack(columns, axis=1)

    def _block(self, rows: Floats, out: Flags | None) -> Floats:
        """The best of each answer's known texts."""
        if out is not None:
            rows[out] = 0
        return np.maximum.reduceat(rows, self.blocks, axis=1)

    def _strange(self, texts: Sequence[str]) -> Floats:
        """The most telling word of each text that an answer does not speak of; "fish" where an answer is about cake."""
        spoken, most = self.spoken.tocsc(), max(float(self.rarity.max(initial=0.0)), 1e-6)
        rows = []
        for text in texts:
            words = _bag(text)
            known = [self.columns[word] for word in sorted(words) if word in self.columns]
            unheard = 1.0 if len(known) < len(words) else 0.0
            unsaid = (1 - spoken[:, known].toarray()) * self.rarity[known] / most
            rows.append(np.maximum(unsaid.max(axis=1, initial=0.0), unheard))
        return np.array(rows, dtype=np.float32).reshape(len(texts), self.spoken.shape[0])

    def _heard(self, count: int, out: Flags | None) -> Floats:
        """How often each answer was right before, as far as those left out do not tell."""
        asked = np.broadcast_to(self.viewers, (count, len(self.viewers)))
        if out is not None:
            asked = asked & ~out
        return (np.log1p(np.add.reduceat(asked.astype(np.int32), self.blocks, axis=1)) / _OFTEN).astype(np.float32)

    def _covered(self, texts: Sequence[str]) -> Floats:
        """How much of each text the answers speak of; a word that no answer knows tells as much as the rarest."""
        most = float(self.rarity.max(initial=1.0))
        said = [_bag(text) for text in texts]
        rows = _binary(said, self.columns).multiply(self.rarity).tocsr()
        strange = np.array([sum(word not in self.columns for word in words) for words in said]) * most
        total = np.asarray(rows.sum(axis=1)).ravel() + strange
        return (_product(rows, self.spoken) / np.maximum(total, 1e-6)[:, None]).astype(np.float32)

    def _dish(self, asked: Sequence[Worded]) -> Floats:
        """Whether the answers speak of each asker's dish."""
        rows = _binary([_bag(one.dish) for one in asked], self.columns)
        speaks = _product(rows, self.spoken) > 0
        named = np.array([bool(one.dish) for one in asked])[:, None]
        return np.where(named, np.where(speaks, 1.0, -1.0), 0.0).astype(np.float32)


def worded(ask: Ask, mentions: Sequence[Mention], text: str) -> Worded:
    """An ask's words, with the mentions of the comment whose text is given."""
    at, to = told_at(ask, text)
    marked, named = written(
        text[at:to], [(m.start - at, m.end - at, m.item) for m in mentions if at <= m.start and m.end <= to]
    )
    start, end = _window(ask, text)
    near = [(m.start - start, m.end - start, m.item) for m in mentions if start <= m.start and m.end <= end]
    _, around = written(text[start:end], near)
    everything, whole = written(text, [(m.start, m.end, m.item) for m in mentions])
    return Worded(marked, named, around, whole, ask.dish, role_in(marked, everything))


def _roles(phrasings: Sequence[Known], answers: int) -> Floats:
    """The mean role in each answer's phrasings."""
    at = [one.answer for one in phrasings]
    total = np.bincount(at, weights=[one.words.role for one in phrasings], minlength=answers)
    return (total / np.maximum(np.bincount(at, minlength=answers), 1)).astype(np.float32)


def _window(ask: Ask, text: str) -> tuple[int, int]:
    """Where the ask stands with what goes before it; "is it correct, please?" means little alone."""
    if len(text) <= _AROUND:
        return 0, len(text)
    start = max(0, min(ask.start, ask.end - _AROUND))
    while 0 < start < ask.start and not text[start - 1].isspace():
        start += 1
    return start, ask.end


def written(text: str, spots: Sequence[tuple[int, int, str]]) -> tuple[str, str]:
    """A text with what stands at some spots as X, and with the items that stand there.

    >>> written("is cornflour a starch", [(3, 12, "maize.starch")])
    ('is X a starch', 'is maize starch a starch')
    """
    marked, named, at = [], [], 0
    for start, end, item in spots:
        if start < at:
            continue
        marked += [text[at:start], "X"]
        named += [text[at:start], item.replace(".", " ").replace("-", "")]
        at = end
    return "".join([*marked, text[at:]]), "".join([*named, text[at:]])


def _views() -> Views:
    """What texts are compared by; the product of two rows is 0 to 1."""
    return Views((plain_words, 0.4**0.5), (words_and_pairs, 0.3**0.5), (letter_runs, 0.3**0.5))


def _bag(text: str) -> set[str]:
    """The distinct plain words of a text; marks and numbers say nothing of its subject."""
    return {word for word in plain_words(text) if word[-1].isalpha()}


def _binary(bags: Sequence[set[str]], columns: dict[str, int]) -> Any:
    from scipy.sparse import csr_matrix

    places = [sorted(columns[word] for word in words if word in columns) for words in bags]
    ends = np.cumsum([0, *map(len, places)])
    at = np.array([place for own in places for place in own], dtype=np.int32)
    return csr_matrix((np.ones(len(at), dtype=np.float32), at, ends), shape=(len(bags), len(columns)))


def _product(rows: Any, others: Any) -> Floats:
    found: Floats = (rows @ others.T).toarray()
    return found
