"""Read what two names share, and forms said apart from the name: "oat or almond flour", "psyllium, the powder"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from qa.records import Mention
from qa.stages.extract.index import BY_FORM, NameIndex, Word, mention_of
from qa.text import word_set

# Words that two names may share, said once: "oat or almond flour", "almond flour or oat".
_SHARED = word_set("flour milk oil sugar starch chocolate cream yeast yogurt yoghurt vinegar syrup")
_SHARED_BEFORE = _SHARED - word_set("sugar syrup vinegar")
# Foods of their own, whatever stands beside them: "almond milk or butter".
_ALONE = word_set("butter cream water sugar honey egg salt jam berry")
_ALONE_AFTER = _ALONE | {"milk"}
# A choice takes so many words at most, the next name's first among them.
_JOINERS = 3
# "wheat flour (atta)": what stands in brackets tells what is meant.
_EXPLAINS = re.compile(r"\s?\(\s?(?:i\.?e\.?,?\s)?")
# What stands between names that are set against each other.
_CHOICE = re.compile(
    r"\s?[/,]\s?|,?\s(?:or|and|vs\.?|versus|not|than|instead of|rather than|to)\s(?:the\s|with\s)?", re.IGNORECASE
)
# After a name's first word alone the sentence ends or goes on without the shared word.
_ENDS = re.compile(
    r"[^\w-]*$|[.,;:!?)(/]|\s(?:for|in|is|are|as|would|will|does|do|work|be|better|best|instead|here|and|or|if|which|can|to|with)\b",
    re.IGNORECASE,
)
# A form right beside its name: "psyllium (the powder".
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


def _with_shared_heads(text: str, words: Sequence[Word], found: list[Mention], index: NameIndex) -> list[Mention]:
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
                by_start[word.start] = mention_of(text, word.start, word.end, readings, "", BY_FORM)
    return [by_start[start] for start in sorted(by_start)]


def _explained(text: str, found: list[Mention]) -> list[Mention]:
    """Take the form from what explains a name: "wheat flour (atta)"."""
    return [
        replace(one, form=after.form)
        if not one.form and after.ingredient == one.ingredient and _EXPLAINS.fullmatch(text, one.end, after.start)
        else one
        for one, after in zip(found, [*found[1:], *found[-1:]], strict=True)
    ]


def _shorn(text: str, words: Sequence[Word], first: int, last: int) -> Iterator[Word]:
    """The words, before a name or after it, that a choice joins to it."""
    for word in words[max(0, first - _JOINERS) : first]:
        if _CHOICE.fullmatch(text, word.end, words[first].start) and word.bare not in _ALONE:
            yield word
    if words[last].bare in _SHARED_BEFORE:
        for word in words[last + 1 : last + 1 + _JOINERS]:
            joined = _CHOICE.fullmatch(text, words[last].end, word.start)
            if joined and word.bare not in _ALONE_AFTER and _ENDS.match(text, word.end):
                yield word


def with_forms(text: str, words: Sequence[Word], found: list[Mention], index: NameIndex) -> list[Mention]:
    """The mentions of a text with the forms that stand apart from them, and those that share a word with a neighbour.

    Args:
        text: the text.
        words: its words.
        found: the names found in it, in order.
        index: all names.
    """
    return _said_apart(text, words, _explained(text, _with_shared_heads(text, words, found, index)), index)


def _said_apart(text: str, words: Sequence[Word], found: list[Mention], index: NameIndex) -> list[Mention]:
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
            extra.append(Mention(word.start, word.end, said, last.ingredient, form, None, BY_FORM))
    taken = {m.start for m in extra}
    return sorted([m for m in found if m.start not in taken] + extra, key=lambda m: m.start)
