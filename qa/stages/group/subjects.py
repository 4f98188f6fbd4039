"""What an ask is about: from the narrowest subject that others may share to the widest."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import log
from typing import NamedTuple

from qa.knowledge.library import Library
from qa.records import Ask, AskType
from qa.similarity.plain import plain_words
from qa.text import listed, word_set

_WORDS: dict[AskType, str] = {
    "same_thing": "names and kinds of {}",
    "swap": "doing without {}",
    "weight": "the weight of {}",
    "convert": "converting {}",
    "check": "sums about {}",
    "tried": "results with {}",
    "went_wrong": "what went wrong: {}",
    "colour": "the colour: {}",
    "carbs": "carbohydrate of {}",
    "nutrition": "what {} contains",
    "storage": "keeping {}",
    "safety": "the safety of {}",
    "health": "health and {}",
    "allergy": "allergies and {}",
    "where_to_buy": "where to buy {}",
    "equipment": "pans and tools for {}",
    "method": "handling {}",
    "scaling": "other sizes of {}",
    "purpose": "the purpose of {}",
    "episode": "what the episode says of {}",
    "other": "other: {}",
}
# For asks that name nothing they are about: the subject is the word that tells most of what is asked.
_BY_WORD: dict[AskType, str] = {
    "same_thing": "names and kinds",
    "swap": "swaps",
    "weight": "weights",
    "convert": "conversions",
    "check": "sums",
    "tried": "others' results",
    "went_wrong": "what went wrong",
    "colour": "the colour",
    "carbs": "carbohydrate",
    "nutrition": "what is in it",
    "storage": "keeping it",
    "safety": "safety",
    "health": "health",
    "allergy": "allergies",
    "where_to_buy": "where to buy it",
    "equipment": "pans and tools",
    "method": "how to do it",
    "scaling": "other sizes",
    "purpose": "what it is for",
    "episode": "what the episode showed",
    "other": "other",
}
# What goes wrong is known by how it looks before it is known by what is in it.
_BY_SYMPTOM = frozenset(("went_wrong", "colour"))

_WORD = re.compile(r"[^\W\d_]{3,}")
# Words that stand in any question and tell nothing of its subject.
_IDLE = word_set(
    "about actually after again all also always and any anybody anyone are ask back because been before being "
    "best better both but came can cannot cant come could day did didn does doesn doing don done down else even "
    "ever every find fine for from get give goes going gone good got had happen has have hello help her here hey "
    "him his hope how idea instead into isn its just keep know last least less let like little long look lot love "
    "made make many may maybe mean might mine more most much must need never next nice not now off okay old once "
    "one only other our out over own people please pls question quite rather real really recipe right said same "
    "say see seen shall she should show since some someone something sorry still stuff such sure take tell than "
    "thank thanks that the their them then there these they thing think this those though time today too tried "
    "try under until use used using very video wait want was wasn watch way well went were what whats when where "
    "whether which while who whole why will wish with without won wonder work would yes yet you your"
)
# A subject is shared by at least so many asks, or the next wider one is taken.
_SHARED = 2


class Subject(NamedTuple):
    """An identity for a topic and its name in plain words."""

    id: str
    name: str
    items: tuple[str, ...] = ()


def subject_of(ask: Ask) -> str:
    """The narrowest identity of what is asked.

    >>> subject_of(Ask("swap", 0, 9, "", ("flax.ground", "chia")))
    'swap:chia+flax'
    """
    return next(_chain(ask))


def _chain(ask: Ask) -> Iterator[str]:
    """Identities from narrow to wide; the last is that of asks of a type which name nothing."""
    items, dish, symptom = ask.ingredients, ask.dish, ask.symptom
    if ask.type in _BY_SYMPTOM and symptom:
        if items or dish:
            yield f"{ask.type}:{symptom} {'+'.join(sorted(items)) or dish}"
        yield f"{ask.type}:{symptom}"
        return
    if items:
        if len(items) == 1 and ask.items != items:
            yield f"{ask.type}:{'+'.join(sorted(set(ask.items)))}"  # forms of one ingredient are told apart first
        yield f"{ask.type}:{'+'.join(sorted(items))}"
        if len(items) > 1:
            yield f"{ask.type}:{items[0]}"
        return
    if about := symptom or dish:
        yield f"{ask.type}:{about}"
        return
    yield f"{ask.type}:in general"


def subjects(asks: Sequence[Ask], library: Library) -> list[Subject]:
    """The subject of each ask: the narrowest that others ask about too; the same whatever the order of the asks."""
    chains = [tuple(_chain(ask)) for ask in asks]
    asked = Counter(key for chain in chains for key in chain)
    keys = [next((key for key in chain if asked[key] >= _SHARED), chain[-1]) for chain in chains]
    loose: dict[AskType, list[int]] = defaultdict(list)
    for place, (ask, key) in enumerate(zip(asks, keys, strict=True)):
        if key.endswith(":in general"):
            loose[ask.type].append(place)
    found = [_named(ask, key, library) for ask, key in zip(asks, keys, strict=True)]
    rarity, spelt = _rarity(ask.text for ask in asks)
    for type_, places in loose.items():
        words = telling_words([asks[place].text for place in places], rarity)
        for place, word in zip(places, words, strict=True):
            name = f"{_BY_WORD[type_]}: {spelt[word]}" if word else f"{_BY_WORD[type_]}, various"
            found[place] = Subject(f"{type_}:{word or 'in general'}", name)
    return found


def _named(ask: Ask, key: str, library: Library) -> Subject:
    """The subject in plain words, the same for all who ask about it."""
    about = key.partition(":")[2]
    items = (
        []
        if about in {ask.symptom, ask.dish}
        else [one for one in (*ask.items, *ask.ingredients) if one in about.split("+")]
    )
    names = dict.fromkeys(_name(item, library) for item in items)
    ids = tuple(sorted({item.partition(".")[0] for item in items}))
    if ask.type == "swap" and len(names) > 1:
        replaced, used, *_ = names
        return Subject(key, f"{used} instead of {replaced}", ids)
    if ask.type == "same_thing" and len(names) > 1:
        return Subject(key, listed(names, "or"), ids)
    if ask.type in _BY_SYMPTOM and ask.symptom:
        where = listed(names) or (ask.dish if about != ask.symptom else "")
        return Subject(key, _WORDS[ask.type].format(f"{ask.symptom}, {where}" if where else ask.symptom), ids)
    return Subject(key, _WORDS[ask.type].format(listed(names) or ask.symptom or ask.dish or "the recipe"), ids)


def _name(item: str, library: Library) -> str:
    if not library.has(item):
        return item.partition(".")[0].replace("-", " ")
    return library.name(item) if "." in item else library.ingredient(item).name


def _rarity(texts: Iterable[str]) -> tuple[dict[str, float], dict[str, str]]:
    """How rare each stem is among the texts, as the logarithm of one in so many (the IDF), and its usual spelling."""
    spellings: dict[str, Counter[str]] = defaultdict(Counter)
    count = 0
    for text in texts:
        for stem, word in _stems(text).items():
            spellings[stem][word] += 1
        count += 1
    rarity = {stem: log((1 + count) / (1 + words.total())) for stem, words in spellings.items()}
    return rarity, {stem: min(words, key=lambda w: (-words[w], w)) for stem, words in spellings.items()}


def telling_words(texts: Sequence[str], rarity: Mapping[str, float]) -> list[str]:
    """For each text the word that gathers it with others like it, or '' where no word is shared.

    The word with the greatest sum of TF-IDF weights takes all texts that have it, then the next among those left.

    >>> asked = ["does it freeze", "can I freeze it raw", "which shelf", "top shelf?", "hm"]
    >>> telling_words(asked, {"freez": 2.0, "raw": 3.0, "which": 1.0, "shelf": 2.0, "top": 3.0})
    ['freez', 'freez', 'shelf', 'shelf', '']
    """
    holding: dict[str, set[int]] = defaultdict(set)
    for place, text in enumerate(texts):
        for word in _stems(text):
            holding[word].add(place)
    chosen = [""] * len(texts)
    while holding:
        word, places = max(holding.items(), key=lambda pair: (len(pair[1]) * rarity.get(pair[0], 0.0), pair[0]))
        if len(places) < _SHARED:
            holding.pop(word)
            holding = {other: own for other, own in holding.items() if len(own) >= _SHARED}
            continue
        for place in places:
            chosen[place] = word
        gone = set(places)
        holding = {other: left for other, own in holding.items() if len(left := own - gone) >= _SHARED}
    return chosen


def _stems(text: str) -> dict[str, str]:
    """A text's telling words by their stems."""
    words = (word.lower() for word in _WORD.findall(text))
    return {plain_words(word)[0]: word for word in words if word not in _IDLE}
