"""Find ingredient names in a text: by region and language, misspelt, glued together or apart, in the plural."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from qa.knowledge.facts import Ingredient, Name
from qa.records import Mention
from qa.stages.extract.words import IDIOMS, NEVER_A_NAME, ORDINARY
from qa.text import folded

_WORD = re.compile(r"[^\W\d_]+")
_NO_SPACES = re.compile("[\u3040-\u30ff\u3400-\u9fff]")
_LONGEST_NAME = 6
# Names of other languages shorter than this are left alone in English texts ("mais", "papa", "sal").
_SHORTEST_FOREIGN = 6
# Words within a form's name that tell nothing of the form ("half-and-half").
_JOINING = frozenset({"and", "with", "for"})
# How sure a mention is that was spelt right, joined or parted, misspelt, or only named by its form.
_AS_WRITTEN, _GLUED, _BY_FORM = 1.0, 0.92, 0.75


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
        aims: single words that stand in some name, by their first letter: what spelling is repaired to.
        forms: for each ingredient its forms by the words that name them ("ground", "powder", "husk").
        repaired: spelling repairs already made, by word.
        likeness: how alike, 0 to 1, a misspelt word and a name's word must be.
    """

    readings: dict[str, tuple[Reading, ...]]
    firsts: dict[str, int]
    glued: dict[str, str]
    aims: dict[str, tuple[str, ...]]
    forms: dict[str, dict[str, str]]
    unspaced: re.Pattern[str] | None
    likeness: float
    repaired: dict[str, str] = field(default_factory=dict)


def index_of(ingredients: Iterable[Ingredient], likeness: float) -> NameIndex:
    """Gather all names of all ingredients and forms."""
    readings: dict[str, dict[Reading, None]] = {}
    forms: dict[str, dict[str, str]] = {}
    for ingredient in ingredients:
        forms[ingredient.id] = _form_words(ingredient)
        for item, name in _names_of(ingredient):
            key = " ".join(bare(word) for word in _WORD.findall(name.text)) or name.text
            if key not in NEVER_A_NAME:
                readings.setdefault(key, {})[Reading(item, name.regions, name.language)] = None
    keys = {key: tuple(found) for key, found in readings.items() if not _NO_SPACES.search(key)}
    firsts: dict[str, int] = {}
    for key in keys:
        first, *rest = key.split()
        firsts[first] = max(firsts.get(first, 0), 1 + len(rest))
    glued = {key.replace(" ", ""): key for key in keys if " " in key and len(key) > 6}
    english = {word for key, found in keys.items() for word in key.split() if any(r.language == "en" for r in found)}
    aims = {word for word in english if len(word) > 3 and word not in ORDINARY} | {g for g in glued if len(g) > 7}
    unspaced = sorted((key for key in readings if _NO_SPACES.search(key)), key=len, reverse=True)
    return NameIndex(
        readings={key: tuple(found) for key, found in readings.items()},
        firsts=firsts,
        glued={whole: key for whole, key in glued.items() if whole not in keys},
        aims={letter: tuple(sorted(aims_of)) for letter, aims_of in _by_letter(aims).items()},
        forms=forms,
        unspaced=re.compile("|".join(map(re.escape, unspaced))) if unspaced else None,
        likeness=likeness,
    )


def _by_letter(words: Iterable[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for word in words:
        found.setdefault(word[0], []).append(word)
    return found


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
    for name in own:
        yield ingredient.id, name
    for form in ingredient.forms:
        item = f"{ingredient.id}.{form.id}"
        for name in (Name(form.name), *form.names):
            yield item, name
            if name.language != "en":
                continue
            for whole in own:  # "ground flaxseed" is also "ground linseed"
                if whole.text in name.text:
                    for other in own:
                        if other.language == "en" and other.text != whole.text:
                            regions = other.regions or name.regions
                            yield item, Name(name.text.replace(whole.text, other.text), regions)


def _form_words(ingredient: Ingredient) -> dict[str, str]:
    """Words that tell an ingredient's forms apart when they stand beside its name."""
    names = {bare(word) for word in _WORD.findall(f"{ingredient.name} {ingredient.id}")}
    found: dict[str, str] = {}
    for form in ingredient.forms:
        for word in [*form.id.split("-"), *_WORD.findall(form.name)]:
            key = bare(word)
            if len(key) > 2 and key not in names and key not in _JOINING:
                found[key] = form.id if found.get(key, form.id) == form.id else ""
    return {word: form for word, form in found.items() if form}


@dataclass(frozen=True, slots=True)
class _Word:
    bare: str
    start: int
    end: int


def find_mentions(text: str, language: str, region: str, index: NameIndex) -> list[Mention]:
    """Mentions in order of the text, never overlapping."""
    if index.unspaced and not text.isascii() and _NO_SPACES.search(text):
        return [_mention(text, m.start(), m.end(), index.readings[m.group()], region, 1.0)
                for m in index.unspaced.finditer(text)]  # fmt: skip
    words = [_Word(bare(m.group()), m.start(), m.end()) for m in _WORD.finditer(text)]
    idle = [m.span() for m in IDIOMS.finditer(text)]
    found: list[Mention] = []
    at = 0
    while at < len(words):
        key, used, sureness = _name_at(words, at, index)
        if not used:
            at += 1
            continue
        readings = [r for r in index.readings[key] if _speaks(r, key, language)]
        start, end = words[at].start, words[at + used - 1].end
        if readings and not _excused(text, start, end, idle):
            found.append(_mention(text, start, end, readings, region, sureness))
        at += used
    return _with_forms(text, words, found, index)


def _name_at(words: Sequence[_Word], at: int, index: NameIndex) -> tuple[str, int, float]:
    """The longest name that begins at a word: the name, how many words it takes, how sure the spelling is."""
    first = words[at].bare
    here = _repaired(first, index) if first not in index.firsts else first
    longest = min(index.firsts.get(here, 0), len(words) - at, _LONGEST_NAME)
    for count in range(longest, 0, -1):
        run = [here, *(_as_in_names(word.bare, index) for word in words[at + 1 : at + count])]
        key = " ".join(run)
        if key in index.readings:
            right = here == first and all(a == b.bare for a, b in zip(run[1:], words[at + 1 :], strict=False))
            return key, count, _AS_WRITTEN if right else _GLUED
    if here in index.glued:
        return index.glued[here], 1, _GLUED
    if at + 1 < len(words):
        pair = first + words[at + 1].bare
        if len(pair) > 6 and pair in index.readings and words[at + 1].start - words[at].end == 1:
            return pair, 2, _GLUED
    return "", 0, 0.0


def _as_in_names(word: str, index: NameIndex) -> str:
    """The second and later words of a name may be misspelt, or misheard: "oat flower"."""
    return "flour" if word in {"flower", "floor", "flou", "flr"} else _repaired(word, index)


def _repaired(word: str, index: NameIndex) -> str:
    """The name's word that a misspelt word is most like; worked out once for each distinct word."""
    found = index.repaired.get(word)
    if found is None:
        found = _nearest(word, index)
        if len(index.repaired) < 500_000:
            index.repaired[word] = found
    return found


def _nearest(word: str, index: NameIndex) -> str:
    aims = index.aims.get(word[0], ())
    if len(word) < 5 or len(word) > 24 or word in ORDINARY or word in index.firsts or word in aims:
        return word
    from rapidfuzz import fuzz, process  # here so that start-up stays light

    best = process.extractOne(word, aims, scorer=fuzz.ratio, score_cutoff=100 * index.likeness)
    return word if best is None or abs(len(best[0]) - len(word)) > 2 else str(best[0])


def _speaks(reading: Reading, key: str, language: str) -> bool:
    """Whether a name of that language is understood in a text of this one."""
    if reading.language in {language, "en"}:
        return True
    return language in {"en", "und"} and len(key) >= _SHORTEST_FOREIGN and key not in ORDINARY


def _excused(text: str, start: int, end: int, idle: Sequence[tuple[int, int]]) -> bool:
    """Whether the name is not about the ingredient: "egg-free", or within an idiom."""
    after = text[end : end + 5].lower()
    return (after[:1] in {"-", " "} and after[1:5] == "free") or any(a <= start and end <= b for a, b in idle)


def _mention(text: str, start: int, end: int, readings: Sequence[Reading], region: str, sureness: float) -> Mention:
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


_BESIDE = re.compile(r"^[\s(,]{1,3}(?:the\s)?$")
_JOINED = re.compile(
    r"\b(?:or|and|vs|versus|not|than|instead of|rather than)\s(?:the\s|just\s|plain\s)?$", re.IGNORECASE
)


def _with_forms(text: str, words: Sequence[_Word], found: list[Mention], index: NameIndex) -> list[Mention]:
    """Read forms said apart from the name: "psyllium, the powder", "potato starch or flour", "is husk ok"."""
    if not found:
        return found
    taken = {m.start: place for place, m in enumerate(found)}
    inside = [(m.start, m.end) for m in found]
    last: Mention | None = None
    extra: list[Mention] = []
    for word in words:
        if word.start in taken:
            last = found[taken[word.start]]
        covered = any(a <= word.start < b for a, b in inside)
        if last is None or (covered and not (word.bare == "flour" and _JOINED.search(text[: word.start][-20:]))):
            continue
        form = index.forms.get(last.ingredient, {}).get(word.bare, "")
        if not form or form == last.form:
            continue
        place = taken.get(last.start)
        if not last.form and place is not None and _BESIDE.match(text[last.end : word.start]):
            last = replace(last, end=word.end, text=text[last.start : word.end], form=form)
            found[place] = last
        elif _JOINED.search(text[: word.start][-20:]):
            extra.append(
                Mention(word.start, word.end, text[word.start : word.end], last.ingredient, form, None, _BY_FORM)
            )
    starts = {m.start for m in extra}
    return sorted([m for m in found if m.start not in starts] + extra, key=lambda m: m.start)
