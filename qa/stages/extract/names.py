"""Find ingredient names in a text: by region and language, misspelt, glued together or apart, in the plural."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from qa.knowledge.facts import Ingredient, Name
from qa.records import Mention
from qa.stages.extract.words import (
    FOODS,
    HEADS,
    IDIOMS,
    IN_THE_PLURAL,
    NEVER_A_NAME,
    NEVER_BESIDE,
    ONLY_BESIDE,
    ORDINARY,
    SHORT,
    USED_OTHERWISE,
    unknown_food,
)
from qa.text import folded, word_set

# Figures tell amounts, but for the fineness of Italian flour.
_WORD = re.compile(r"[^\W\d_]+|(?<![\d.,:/])00(?![\d.,:/])")
_NO_SPACES = re.compile("[\u3040-\u30ff\u3400-\u9fff]")
_LONGEST_NAME = 6
# Names of other languages shorter than this are left alone in English texts ("mais", "papa", "sal").
_SHORTEST_FOREIGN = 6
# Words within a form's name that tell nothing of the form ("half-and-half").
_JOINING = frozenset({"and", "with", "for"})
_STRANGE = frozenset(FOODS.values())
# "gluten-free" and the like say what a thing is sold as; "egg-free" is said of the egg.
_ONLY_CLAIMED = frozenset({"gluten", "lactose", "nut", "dairy", "soy", "soya"})
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
            key = " ".join(bare(word) for word in _WORD.findall(name.text)) or name.text
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
    keys = {key: tuple(found) for key, found in readings.items() if not _NO_SPACES.search(key)}
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
    unspaced = sorted((key for key in readings if _NO_SPACES.search(key)), key=len, reverse=True)
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
    """Mentions in order of the text, never overlapping; foods that the library does not know carry their own name."""
    if index.unspaced and not text.isascii() and _NO_SPACES.search(text):
        return [_mention(text, m.start(), m.end(), index.readings[m.group()], region, 1.0)
                for m in index.unspaced.finditer(text)]  # fmt: skip
    words = [_Word(_as_written(m.group()), m.start(), m.end()) for m in _WORD.finditer(text)]
    idle = _idle(text)
    found: list[Mention] = []
    at = 0
    while at < len(words):
        key, used, sureness = _name_at(words, at, index)
        unknown = _unknown(text, words, at, used, index) if language == "en" else None
        if unknown:
            found.append(unknown)
            at += 2
            continue
        readings = [r for r in index.readings.get(key, ()) if _speaks(r, key, language)]
        if used and readings and readings[0].item in _STRANGE and at + used < len(words):
            used += words[at + used].bare in HEADS  # "tiger nut flour" is none of wheat
        if used and readings:
            start, end = words[at].start, words[at + used - 1].end
            if not _excused(text, key, start, end, idle):
                found.append(_mention(text, start, end, readings, region, sureness))
        at += used or 1
    found = _explained(text, _with_shared_heads(text, words, found, index))
    return _with_forms(text, words, found, index)


def _as_written(word: str) -> str:
    """A word bare, but for the few that name an ingredient in the plural only."""
    return word.lower() if word.lower() in IN_THE_PLURAL else bare(word)


def _unknown(text: str, words: Sequence[_Word], at: int, used: int, index: NameIndex) -> Mention | None:
    """A food that no name of the library covers, where a word and "flour" or the like show one."""
    if used > 1 or at + 1 >= len(words):
        return None
    word, head = words[at], words[at + 1]
    joined = text[word.end : head.start]
    written = text[word.start : word.end].lower()  # bare, "this" is no word that we know as none of food
    food = unknown_food(word.bare, head.bare) if joined in {" ", "-"} and unknown_food(written, head.bare) else ""
    if not food or (word.bare not in FOODS and (word.bare in index.readings or word.bare in index.firsts)):
        return None
    return Mention(word.start, head.end, text[word.start : head.end], food, head.bare, None, _BY_FORM)


def _name_at(words: Sequence[_Word], at: int, index: NameIndex) -> tuple[str, int, float]:
    """The longest name that begins at a word: the name, how many words it takes, how sure the spelling is."""
    first = words[at].bare
    within = first if first in index.firsts else _repaired(first, index.within, index)
    longest = min(index.firsts.get(within, 0), len(words) - at, _LONGEST_NAME)
    for count in range(longest, 1, -1):
        rest = [bare(word.bare) if word.bare in IN_THE_PLURAL else word.bare for word in words[at + 1 : at + count]]
        key = " ".join([within, *(_as_in_names(word, index) for word in rest)])
        if key in index.readings:
            right = key == " ".join([first, *rest])
            return key, count, _AS_WRITTEN if right else _GLUED
    if at + 1 < len(words):
        pair = first + words[at + 1].bare
        if len(pair) > 6 and pair in index.readings and words[at + 1].start - words[at].end == 1:
            return pair, 2, _GLUED
    if first in index.readings:
        return first, 1, _AS_WRITTEN
    single = index.glued.get(first) or _repaired(first, index.single, index)
    single = index.glued.get(single, single)
    return (single, 1, _GLUED) if single in index.readings else ("", 0, 0.0)


def _as_in_names(word: str, index: NameIndex) -> str:
    """The second and later words of a name may be misspelt, or misheard: "oat flower"."""
    return "flour" if word in {"flower", "floor", "flou", "flr"} else _repaired(word, index.within, index)


def _repaired(word: str, aims: Mapping[str, tuple[str, ...]], index: NameIndex) -> str:
    """The name's word that a misspelt word is most like; worked out once for each distinct word."""
    key = (word, aims is index.single)
    found = index.repaired.get(key)
    if found is None:
        found = _nearest(word, aims.get(word[0], ()), index)
        if len(index.repaired) < 500_000:
            index.repaired[key] = found
    return found


def _nearest(word: str, aims: Sequence[str], index: NameIndex) -> str:
    if len(word) < 5 or len(word) > 24 or word in ORDINARY or word in aims or word in index.readings:
        return word
    from rapidfuzz import fuzz, process  # here so that start-up stays light

    best = process.extractOne(word, aims, scorer=fuzz.ratio, score_cutoff=100 * index.likeness)
    return word if best is None or abs(len(best[0]) - len(word)) > 2 else str(best[0])


def _speaks(reading: Reading, key: str, language: str) -> bool:
    """Whether a name of that language is understood in a text of this one."""
    if reading.language in {language, "en"}:
        return True
    return language in {"en", "und"} and len(key) >= _SHORTEST_FOREIGN and key not in ORDINARY


def _idle(text: str) -> list[tuple[int, int]]:
    """Where names are not about ingredients: turns of speech, dishes, what is done with a thing, somebody's name."""
    found = [m.span() for m in IDIOMS.finditer(text)]
    return found + [m.span(m.lastindex) for m in USED_OTHERWISE.finditer(text) if m.lastindex]


def _excused(text: str, key: str, start: int, end: int, idle: Sequence[tuple[int, int]]) -> bool:
    """Whether the name is not about the ingredient: "gluten-free", within an idiom, or a short form by itself."""
    after = text[end : end + 5].lower()
    if after[:1] in {"-", " "} and after[1:5] == "free" and key in _ONLY_CLAIMED:
        return True
    beside, never = ONLY_BESIDE.get(key), NEVER_BESIDE.get(key)
    around = text[:start] + " | " + text[end:] if beside or never else ""
    if (beside and not beside.search(around)) or (never and never.search(text)):
        return True
    return any(a <= start and end <= b for a, b in idle)


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


# Words that two names may share, said once: "oat or almond flour", "almond flour or oat".
_SHARED = word_set("flour milk oil sugar starch chocolate cream yeast yogurt yoghurt vinegar syrup")
_SHARED_BEFORE = _SHARED - word_set("sugar syrup vinegar")
# Foods of their own, whatever stands beside them: "almond milk or butter".
_ALONE = word_set("butter cream water sugar honey egg salt jam berry")
_ALONE_AFTER = _ALONE | {"milk"}
# A choice takes so many words at most, the next name's first among them.
_JOINERS = 3
_EXPLAINS = re.compile(r"\s?\(\s?(?:i\.?e\.?,?\s)?")
_CHOICE = re.compile(
    r"\s?[/,]\s?|,?\s(?:or|and|vs\.?|versus|not|than|instead of|rather than|to)\s(?:the\s|with\s)?", re.IGNORECASE
)
_ENDS = re.compile(
    r"[^\w-]*$|[.,;:!?)(/]|\s(?:for|in|is|are|as|would|will|does|do|work|be|better|best|instead|here|and|or|if|which|can|to|with)\b",
    re.IGNORECASE,
)


def _with_shared_heads(text: str, words: Sequence[_Word], found: list[Mention], index: NameIndex) -> list[Mention]:
    """Read a name whose last words stand with its neighbour only: "oat or almond flour", "almond milk or oat"."""
    by_start = {m.start: m for m in found}
    covered = {place for m in found for place in range(m.start + 1, m.end)}
    places = {word.start: place for place, word in enumerate(words)}
    for whole in found:
        first = last = places[whole.start]
        while last + 1 < len(words) and words[last + 1].end <= whole.end:
            last += 1
        if last == first or words[last].bare not in _SHARED:
            continue
        shared = " ".join(word.bare for word in words[first + 1 : last + 1])
        for word in _shorn(text, words, first, last):
            readings = [r for r in index.readings.get(f"{word.bare} {shared}", ()) if r.language == "en"]
            own = by_start.get(word.start)
            if readings and word.start not in covered and (own is None or own.end == word.end):
                by_start[word.start] = _mention(text, word.start, word.end, readings, "", _BY_FORM)
    return [by_start[start] for start in sorted(by_start)]


def _explained(text: str, found: list[Mention]) -> list[Mention]:
    """Take the form from what explains a name: "wheat flour (atta)"."""
    return [
        replace(one, form=after.form)
        if not one.form and after.ingredient == one.ingredient and _EXPLAINS.fullmatch(text, one.end, after.start)
        else one
        for one, after in zip(found, [*found[1:], *found[-1:]], strict=True)
    ]


def _shorn(text: str, words: Sequence[_Word], first: int, last: int) -> Iterator[_Word]:
    """The words, before a name or after it, that a choice joins to it."""
    for word in words[max(0, first - _JOINERS) : first]:
        if _CHOICE.fullmatch(text, word.end, words[first].start) and word.bare not in _ALONE:
            yield word
    if words[last].bare in _SHARED_BEFORE:
        for word in words[last + 1 : last + 1 + _JOINERS]:
            joined = _CHOICE.fullmatch(text, words[last].end, word.start)
            if joined and word.bare not in _ALONE_AFTER and _ENDS.match(text, word.end):
                yield word


_BESIDE = re.compile(r"^[\s(,]{1,3}(?:the\s)?$")
# After these a form alone stands for its ingredient: "potato starch or flour".
_JOINED = re.compile(
    r"\b(?:or|and|vs|versus|not|than|instead of|rather than)\s(?:the\s|just\s|plain\s)?$", re.IGNORECASE
)
# After these too, if the form is a thing of its own: "use the powder", "10 g powder".
_THING = re.compile(
    r"(?:\b(?:the|my|your|a|with|use|used|using|of|have|only|is|that|this|as|in|more|less|g|grams?|tbsp|tsp|spoons?|cups?)"
    r"|[\d,(])\s?$",
    re.IGNORECASE,
)
_THINGS = word_set("powder husk flake chip seed yolk syrup meal starch extract crystal kernel pearl bran")


def _with_forms(text: str, words: Sequence[_Word], found: list[Mention], index: NameIndex) -> list[Mention]:
    """Read forms said apart from the name: "psyllium, the powder", "potato starch or flour", "is the husk ok"."""
    if not found:
        return found
    place_of = {m.start: place for place, m in enumerate(found)}
    spans = [(m.start, m.end) for m in found]
    last: Mention | None = None
    extra: list[Mention] = []
    for word in words:
        before = text[max(word.start - 24, 0) : word.start]
        covered = any(start <= word.start < end for start, end in spans)
        is_form = not covered or (word.bare == "flour" and bool(_JOINED.search(before)))
        if word.start in place_of and not (is_form and last and "flour" in index.forms.get(last.ingredient, {})):
            last = found[place_of[word.start]]
        if last is None or not is_form:
            continue
        form = index.forms.get(last.ingredient, {}).get(word.bare, "")
        if not form or form == last.form:
            continue
        place = place_of.get(last.start)
        if not last.form and place is not None and _BESIDE.match(text[last.end : word.start]):
            last = replace(last, end=word.end, text=text[last.start : word.end], form=form)
            found[place] = last
        elif _JOINED.search(before) or (word.bare in _THINGS and _THING.search(before)):
            said = text[word.start : word.end]
            extra.append(Mention(word.start, word.end, said, last.ingredient, form, None, _BY_FORM))
    taken = {m.start for m in extra}
    return sorted([m for m in found if m.start not in taken] + extra, key=lambda m: m.start)
