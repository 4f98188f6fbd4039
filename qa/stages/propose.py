"""Propose: what comments ask and the knowledge lacks, as files to fill in, most asked first. Nothing here is knowledge.

Unknown ingredients by demand, names people type, facts that a sum lacked, questions that no answer met, and askings
that nearly met one.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field

from qa.errors import LevelspoonError
from qa.knowledge import stubs
from qa.knowledge.library import Library
from qa.knowledge.names import all_names, name_key
from qa.records import Ask, AskType, Matched, Said

# An answer nearly matched if it is at least this likely to be right. Our own choice: below it, it is a guess.
NEARLY = 0.35
# Reasons for which a standing answer could be written; the others need a person whatever the knowledge holds.
_TO_WRITE = frozenset(("unsure", "no_knowledge"))
# What no standing answer should be grown for from what people type.
_FOR_A_PERSON = frozenset(("health", "safety", "allergy"))
# The fact that an ask needs first.
_NEEDS = {
    "weight": "bulk density",
    "convert": "bulk density",
    "carbs": "carbohydrate with fibre",
    "nutrition": "energy",
    "storage": "storage life",
}


@dataclass(frozen=True, slots=True)
class Proposal:
    """A file to fill in.

    Attributes:
        file: its path below the folder of proposals.
        what: what is missing, in words.
        comments: ids of the comments that ask for it.
        text: the file's whole text.
    """

    file: str
    what: str
    comments: tuple[str, ...]
    text: str


def propose(said: Sequence[Said], library: Library, least: int = 2) -> tuple[Proposal, ...]:
    """What at least so many comments lack, most asked first; ties by file name, so that the order never changes."""
    gaps = (_ingredients, _names, _facts, _answers, _phrasings)
    wanted = (one for gap in gaps for one in gap(said, library) if len(one.comments) >= least)
    return tuple(sorted(wanted, key=lambda one: (-len(one.comments), one.file)))


@dataclass(slots=True)
class _Asked:
    """The comments that ask for one thing, with the words of each."""

    comments: dict[str, str] = field(default_factory=dict)
    words: Counter[str] = field(default_factory=Counter)

    def add(self, comment: str, quoted: str, word: str = "") -> None:
        self.comments.setdefault(comment, quoted)
        if word:
            self.words[word] += 1

    @property
    def quoted(self) -> list[str]:
        return list(dict.fromkeys(self.comments.values()))


def _ingredients(said: Sequence[Said], library: Library) -> Iterable[Proposal]:
    found: dict[str, _Asked] = defaultdict(_Asked)
    for one in said:
        for mention in one.understood.mentions:
            if not library.has(mention.ingredient):
                # A name without a Latin letter gives no file; it stays on the list of what needs a person.
                with suppress(LevelspoonError):
                    key = stubs.id_of(mention.text)
                    found[key].add(one.comment.id, _sentence(one, mention.start), mention.text.lower())
    for key, asked in found.items():
        name = asked.words.most_common(1)[0][0]
        text = stubs.ingredient_stub(name, asked.quoted)
        yield Proposal(f"ingredients/{key}.yaml", f"{name} is not known", tuple(asked.comments), text)


def _names(said: Sequence[Said], library: Library) -> Iterable[Proposal]:
    """What people type for something known, where it is no name of it yet and more than a word of one."""
    words = _words_of_names(library)
    found: dict[str, _Asked] = defaultdict(_Asked)
    for one in said:
        for mention in one.understood.mentions:
            typed = name_key(mention.text)
            new = library.has(mention.item) and not _is_known(typed, library)
            if new and not words[mention.ingredient].issuperset(_singular(typed)):
                found[mention.item].add(one.comment.id, _sentence(one, mention.start), mention.text.lower())
    for item, asked in found.items():
        what = f"{library.name(item)} is called {', '.join(word for word, _ in asked.words.most_common(3))}"
        text = stubs.names_stub(item, asked.words, asked.quoted)
        yield Proposal(f"names/{item}.yaml", what, tuple(asked.comments), text)


def _words_of_names(library: Library) -> Mapping[str, frozenset[str]]:
    """All words of all names of an ingredient and its forms."""
    found: dict[str, set[str]] = defaultdict(set)
    for name, item in all_names(library.knowledge.ingredients):
        found[item.partition(".")[0]].update(_singular(name_key(name.text)))
    return {ingredient: frozenset(words) for ingredient, words in found.items()}


def _singular(words: str) -> list[str]:
    return [word.removesuffix("s") for word in words.split()]


def _is_known(typed: str, library: Library) -> bool:
    return any(library.meanings(form) for form in (typed, typed.removesuffix("s"), typed.removesuffix("es")))


def _facts(said: Sequence[Said], library: Library) -> Iterable[Proposal]:
    """Facts without which a sum that was asked for could not be done."""
    found: dict[tuple[str, str], _Asked] = defaultdict(_Asked)
    for one, match in _unanswered(said):
        for item, name in _lacking(match, library):
            found[item, name].add(one.comment.id, match.ask.text)
    for (item, name), asked in found.items():
        text = f"# {_place(item)}: asked {len(asked.comments)} times\n" + stubs.fact_stub(item, name, asked.quoted[0])
        text += "".join(f"# {stubs.quote(words)}\n" for words in asked.quoted[1:])
        file = f"facts/{item}.{name.replace(' ', '-')}.yaml"
        yield Proposal(file, f"nobody has given the {name} of {item}", tuple(asked.comments), text)


def _place(item: str) -> str:
    return f"for the facts of ingredients/{item.partition('.')[0]}.yaml"


def _lacking(match: Matched, library: Library) -> list[tuple[str, str]]:
    """The facts nobody has given of what an ask is about."""
    name = _NEEDS.get(match.ask.type, "")
    known = [library.usual(item) for item in match.ask.items if library.has(item)]
    return [(item, name) for item in known if name and not library.facts(item, name)]


def _answers(said: Sequence[Said], library: Library) -> Iterable[Proposal]:
    """Questions on one known thing that no answer came near: an ingredient, a fault, or a dish."""
    found: dict[tuple[AskType, tuple[str, ...]], _Asked] = defaultdict(_Asked)
    near: dict[tuple[AskType, tuple[str, ...]], Counter[str]] = defaultdict(Counter)
    for one, match in _unanswered(said):
        ask = match.ask
        about = tuple(sorted(set(ask.items))) or tuple(filter(None, (ask.symptom or ask.dish,)))
        known = all(library.has(item) for item in ask.items)
        if about and known and _best(match)[1] < NEARLY and not _lacking(match, library):
            found[ask.type, about].add(one.comment.id, ask.text)
            near[ask.type, about].update(answer for answer, _ in match.runners_up[:2])
    taken = {answer.id for answer in library.knowledge.answers}
    for (kind, about), asked in found.items():
        name = stubs.id_of(" ".join((kind, *about)))
        name = f"{name}-more" if name in taken else name
        nearest = [answer for answer, _ in near[kind, about].most_common(3)]
        text = stubs.answer_stub(name, [kind], [item for item in about if library.has(item)], asked.quoted, nearest)
        what = f"no answer to {kind.replace('_', ' ')}: {', '.join(about)}"
        yield Proposal(f"answers/{name}.md", what, tuple(asked.comments), text)


def _phrasings(said: Sequence[Said], library: Library) -> Iterable[Proposal]:
    """Askings that nearly met an answer."""
    known = {answer.id for answer in library.knowledge.answers}
    found: dict[str, _Asked] = defaultdict(_Asked)
    for one, match in _unanswered(said):
        answer, sureness = _best(match)
        if match.reason == "unsure" and sureness >= NEARLY and answer in known:
            found[answer].add(one.comment.id, match.ask.text)
    for answer, asked in found.items():
        text = stubs.phrasings_stub(answer, asked.quoted)
        yield Proposal(f"phrasings/{answer}.yaml", f"{answer} nearly matched", tuple(asked.comments), text)


def _unanswered(said: Sequence[Said]) -> Iterable[tuple[Said, Matched]]:
    """Asks that a standing answer could meet and none did."""
    for one in said:
        for match in one.draft.matched:
            if match.answer is None and match.reason in _TO_WRITE and match.ask.type not in _FOR_A_PERSON:
                yield one, match


def _best(match: Matched) -> tuple[str, float]:
    return max(match.runners_up, key=lambda pair: pair[1], default=("", 0.0))


def _sentence(one: Said, at: int) -> str:
    """The ask that stands at a place, or the sentence, or the whole text."""
    parts: list[Ask | None] = [ask for ask in one.understood.asks if ask.start <= at < ask.end]
    pieces = [piece for piece in one.understood.pieces if piece.start <= at < piece.end]
    found = next(iter([*parts, *pieces]), None)
    return found.text if found else one.understood.text
