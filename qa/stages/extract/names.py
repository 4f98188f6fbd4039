"""Find ingredient names in a text: by region and language, misspelt, glued together or apart, in the plural."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from qa.records import Mention
from qa.stages.extract.forms import with_forms
from qa.stages.extract.index import BY_FORM, NO_SPACES, WORD, NameIndex, Reading, Word, bare, mention_of
from qa.stages.extract.words import (
    FOODS,
    HEADS,
    IDIOMS,
    IN_THE_PLURAL,
    NEVER_BESIDE,
    ONLY_BESIDE,
    ORDINARY,
    USED_OTHERWISE,
    unknown_food,
)

_LONGEST_NAME = 6
# Names of other languages shorter than this are left alone in English texts ("mais", "papa", "sal").
_SHORTEST_FOREIGN = 6
_STRANGE = frozenset(FOODS.values())
# "gluten-free" and the like say what a thing is sold as; "egg-free" is said of the egg.
_ONLY_CLAIMED = frozenset({"gluten", "lactose", "nut", "dairy", "soy", "soya"})
# How sure a mention is that was spelt right, and one that was joined, parted or misspelt.
_AS_WRITTEN, _GLUED = 1.0, 0.92


def find_mentions(text: str, language: str, region: str, index: NameIndex) -> list[Mention]:
    """Mentions in order of the text, never overlapping; foods that the library does not know carry their own name."""
    if index.unspaced and not text.isascii() and NO_SPACES.search(text):
        return [mention_of(text, m.start(), m.end(), index.readings[m.group()], region, 1.0)
                for m in index.unspaced.finditer(text)]  # fmt: skip
    words = [Word(_as_written(m.group()), m.start(), m.end()) for m in WORD.finditer(text)]
    idle = _idle(text)
    found: list[Mention] = []
    at = 0
    while at < len(words):
        key, used, sureness = _name_at(text, words, at, index)
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
                found.append(mention_of(text, start, end, readings, region, sureness))
        at += used or 1
    return with_forms(text, words, found, index)


def _as_written(word: str) -> str:
    """A word bare, but for the few that name an ingredient in the plural only."""
    return word.lower() if word.lower() in IN_THE_PLURAL else bare(word)


def _unknown(text: str, words: Sequence[Word], at: int, used: int, index: NameIndex) -> Mention | None:
    """A food that no name of the library covers, where a word and "flour" or the like show one."""
    if used > 1 or at + 1 >= len(words):
        return None
    word, head = words[at], words[at + 1]
    joined = text[word.end : head.start]
    written = text[word.start : word.end].lower()  # bare, "this" is no word that we know as none of food
    food = unknown_food(word.bare, head.bare) if joined in {" ", "-"} and unknown_food(written, head.bare) else ""
    if not food or (word.bare not in FOODS and (word.bare in index.readings or word.bare in index.firsts)):
        return None
    return Mention(word.start, head.end, text[word.start : head.end], food, head.bare, None, BY_FORM)


def _name_at(text: str, words: Sequence[Word], at: int, index: NameIndex) -> tuple[str, int, float]:
    """The longest name that begins at a word: the name, how many words it takes, how sure the spelling is."""
    first = words[at].bare
    within = first if first in index.firsts else _repaired(first, index.within, index)
    longest = min(index.firsts.get(within, 0), len(words) - at, _LONGEST_NAME)
    for count in range(longest, 1, -1):
        if "," in text[words[at].end : words[at + count - 1].start]:
            continue  # "butter, oil" is a list
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
