"""Every ingredient name as a run of bare words, ready to be looked up."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from qa.knowledge.facts import Ingredient, Name
from qa.records import Mention
from qa.stages.extract.words import FOODS, IN_THE_PLURAL, NEVER_A_NAME, ORDINARY, SHORT
from qa.text import folded

# Figures tell amounts, but for the fineness of Italian flour.
WORD = re.compile(r"[^\W\d_]+|(?<![\d.,:/])00(?![\d.,:/])")
NO_SPACES = re.compile("[\u3040-\u30ff\u3400-\u9fff]")
# How sure a mention is that was only named by its form.
BY_FORM = 0.75
# Words within a form's name that tell nothing of the form ("half-and-half").
_JOINING = frozenset({"and", "with", "for"})


@dataclass(frozen=True, slots=True)
class Reading:
    """One thing a name can mean, and where it does."""

    item: str
    regions: tuple[str, ...]
    language: str


@dataclass(slots=True)
class NameIndex:
    """Every name as a run of bare words, ready to be looked up; made once for a library.

    Attributes:
        readings: by name.
        firsts: the most words a name has that begins with this word.
        glued: names of several words written as one.
        single: names of one word, or of several written as one, by their first letter: what spelling is repaired to.
        within: words of longer names, by their first letter; a repair to one needs the rest of the name beside it.
        forms: for each ingredient its forms by the words that name them ("ground", "powder", "husk").
        repaired: spelling repairs already made, by word and aim.
        likeness: how alike, 0 to 1, a misspelt word and a name's word must be.
    """

    readings: dict[str, tuple[Reading, ...]]
    firsts: dict[str, int]
    glued: dict[str, str]
    single: dict[str, tuple[str, ...]]
    within: dict[str, tuple[str, ...]]
    forms: dict[str, dict[str, str]]
    unspaced: re.Pattern[str] | None
    likeness: float
    repaired: dict[tuple[str, bool], str] = field(default_factory=dict)


@lru_cache(maxsize=4)
def index_of(ingredients: tuple[Ingredient, ...], likeness: float) -> NameIndex:
    """Gather all names of all ingredients and forms; kept, with the spellings it has repaired, for the next batch."""
    readings: dict[str, dict[Reading, None]] = {}
    forms: dict[str, dict[str, str]] = {}
    for ingredient in ingredients:
        forms[ingredient.id] = _form_words(ingredient)
        for item, name in _names_of(ingredient):
            key = " ".join(bare(word) for word in WORD.findall(name.text)) or name.text
            if key not in NEVER_A_NAME:
                readings.setdefault(key, {})[Reading(item, name.regions, name.language)] = None
    known = {reading.item for found in readings.values() for reading in found}
    for short, item in (*SHORT.items(), *IN_THE_PLURAL.items()):
        key = short if short in IN_THE_PLURAL else " ".join(bare(word) for word in short.split())
        meant = next((one for one in (item, item.partition(".")[0]) if one in known), "")
        if meant:
            readings[key] = {Reading(meant, (), "en"): None} | readings.get(key, {})
    for food, item in FOODS.items():
        readings.setdefault(" ".join(map(bare, food.split())), {Reading(item, (), "en"): None})
    keys = {key: tuple(found) for key, found in readings.items() if not NO_SPACES.search(key)}
    firsts: dict[str, int] = {}
    for key in keys:
        first, *rest = key.split()
        firsts[first] = max(firsts.get(first, 0), 1 + len(rest))
    glued = {key.replace(" ", ""): key for key in keys if " " in key and len(key) > 6}
    english = [key for key, found in keys.items() if any(one.language == "en" and one.item in known for one in found)]
    single = {key for key in english if " " not in key and len(key) > 4 and key not in IN_THE_PLURAL} | {
        whole for whole in glued if len(whole) > 7
    }
    within = {word for key in english if " " in key for word in key.split() if len(word) > 3}
    unspaced = sorted((key for key in readings if NO_SPACES.search(key)), key=len, reverse=True)
    return NameIndex(
        readings={key: tuple(found) for key, found in readings.items()},
        firsts=firsts,
        glued={whole: key for whole, key in glued.items() if whole not in keys},
        single=_by_letter(single - ORDINARY),
        within=_by_letter(within),
        forms=forms,
        unspaced=re.compile("|".join(map(re.escape, unspaced))) if unspaced else None,
        likeness=likeness,
    )


def _by_letter(words: Iterable[str]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for word in sorted(words):
        found.setdefault(word[0], []).append(word)
    return {letter: tuple(own) for letter, own in found.items()}


@lru_cache(maxsize=200_000)
def bare(word: str) -> str:
    """A word folded and without its plural ending, the same way for names and texts.

    >>> [bare(word) for word in ("Eggs", "potatoes", "berries", "molasses", "Crème")]
    ['egg', 'potato', 'berry', 'molasse', 'creme']
    """
    word = folded(word)
    if len(word) < 4 or not word.endswith("s") or word.endswith("ss"):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("oes", "xes", "ches", "shes")) else word[:-1]


def _names_of(ingredient: Ingredient) -> Iterator[tuple[str, Name]]:
    """Item and name of each name, and of each English form name under the ingredient's other names."""
    own = [Name(ingredient.name), Name(ingredient.id.replace("-", " ")), *ingredient.names]
    english = [name for name in own if name.language == "en"]
    for name in own:
        yield ingredient.id, name
    for form in ingredient.forms:
        item = f"{ingredient.id}.{form.id}"
        for name in (Name(form.name), *form.names):
            yield item, name
            if name.language == "en":
                yield from ((item, other) for other in _renamed(name, english))


def _renamed(name: Name, english: Sequence[Name]) -> Iterator[Name]:
    """A form's name with the ingredient in it called otherwise: "ground flaxseed" is also "ground linseed"."""
    for whole in english:
        within = re.compile(rf"\b{re.escape(whole.text)}\b", re.IGNORECASE)
        if within.search(name.text):
            for other in english:
                if other.text.lower() != whole.text.lower():
                    yield Name(within.sub(other.text, name.text), other.regions or name.regions)


def _form_words(ingredient: Ingredient) -> dict[str, str]:
    """Words that tell an ingredient's forms apart when they stand beside its name."""
    names = {bare(word) for word in WORD.findall(f"{ingredient.name} {ingredient.id}")}
    found: dict[str, str] = {}
    for form in ingredient.forms:
        for word in [*form.id.split("-"), *WORD.findall(form.name)]:
            key = bare(word)
            if len(key) > 2 and key not in names and key not in _JOINING:
                found[key] = form.id if found.get(key, form.id) == form.id else ""
    return {word: form for word, form in found.items() if form}


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a text, bare, and where it stands."""

    bare: str
    start: int
    end: int


def mention_of(text: str, start: int, end: int, readings: Sequence[Reading], region: str, sureness: float) -> Mention:
    """Choose among the readings of a name by region; what stays open is kept."""
    local = [r for r in readings if region and region in r.regions]
    everywhere = [r for r in readings if not r.regions]
    chosen = local or everywhere or list(readings)
    items = list(dict.fromkeys(r.item for r in [*chosen, *readings]))
    fitting = list(dict.fromkeys(r.item for r in chosen))
    ingredient, _, form = fitting[0].partition(".")
    if len(fitting) > 1:
        sureness *= 0.8
        if all(item.partition(".")[0] == ingredient for item in fitting):
            form = "" if ingredient not in fitting else form
    others = tuple(item for item in items if item != (f"{ingredient}.{form}" if form else ingredient))
    return Mention(start, end, text[start:end], ingredient, form, None, round(sureness, 4), others)
