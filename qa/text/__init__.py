"""String helpers that know nothing of baking."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known spelling closest to a word, or None if nothing is close.

    >>> nearest("sourse", ["source", "note"])
    'source'
    """
    found = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def folded(text: str) -> str:
    """Lower case without accents, for comparing names.

    >>> folded("Crème FRAÎCHE")
    'creme fraiche'
    """
    if text.isascii():
        return text.lower()
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in decomposed if not unicodedata.combining(c))


_NOT_STORABLE = re.compile("[\x00\ud800-\udfff]")


def storable(text: str) -> str:
    r"""Without what no database can hold: NUL goes, a lone half of a surrogate pair becomes U+FFFD.

    >>> storable("a\x00b \ud83d")
    'ab \ufffd'
    """
    if text.isascii() and "\x00" not in text:
        return text
    return _NOT_STORABLE.sub(lambda found: "" if found[0] == "\x00" else "\ufffd", text)


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words as a list in a sentence.

    >>> listed(["flax", "chia", "psyllium"])
    'flax, chia and psyllium'
    """
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def word_set(words: str) -> frozenset[str]:
    """The distinct words of a text parted by spaces, for lists of words written as a paragraph.

    >>> sorted(word_set("flax chia  flax"))
    ['chia', 'flax']
    """
    return frozenset(words.split())


_UNITS = "zero|nought|naught|nil|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_TEENS = "thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_LARGE = "hundreds?|thousands?|millions?|billions?|dozens?"
_PARTS = (
    "half|halves|halved|halve|halving|quarters?|quartered|thirds|fourths|fifths|sixths|sevenths|eighths|ninths|tenths|"
    "sixteenths|hundredths"
)
_TIMES = "twice|thrice|doubl(?:e|es|ed|ing)|tripl(?:e|es|ed|ing)|quadrupl(?:e|es|ed|ing)|couple"
_FOLD = f"(?:{_UNITS}|{_TEENS}|{_TENS}|ten|hundred)[- ]?fold"
_A_PART = "(?<=a )(?:third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)"
_COMPOUND = f"(?:{_TENS})[- ]?(?:one|two|three|four|five|six|seven|eight|nine)"
_BEGIN = (
    "ze|n[oai]|on|t[wher]|f[oi]|s[ie]|e[il]|h[ua]|mi|bi|do|qu|co"  # how all of them begin: a word is passed over sooner
)
_NUMBER_WORD = re.compile(
    rf"\b(?={_BEGIN})(?:{_FOLD}|{_COMPOUND}|{_UNITS}|{_TEENS}|{_TENS}|{_LARGE}|{_PARTS}|{_TIMES}|{_A_PART})\b",
    re.IGNORECASE,
)
# "one" as a pronoun is no number: "the one you want", "no one", "one another", "which one?"
_POINTS_AT = frozenset("the this that which each another either other wrong right same".split())
_GOES_ON = frozenset("you i we they he she it that to who which with is was has can will for".split())
_BEFORE = re.compile(r"([^\W\d_]+) $")
_AFTER = re.compile(r"(?: ([^\W\d_]+)|[.,;:!?)]|$)")


def number_spans(text: str) -> list[tuple[int, int]]:
    """Where numbers stand in a text: numerals of any script, fractions, and English number words; pronouns are none.

    >>> [text[a:b] for text in ["About ½ cup, twice; the one you want."] for a, b in number_spans(text)]
    ['½', 'twice']
    """
    return sorted({*_numerals(text), *_number_words(text)})


def _numerals(text: str) -> Iterator[tuple[int, int]]:
    """Runs of digits, fractions and numerals of any script."""
    start = None
    for i, character in enumerate(text):
        if character.isnumeric():
            start = i if start is None else start
        elif start is not None:
            yield start, i
            start = None
    if start is not None:
        yield start, len(text)


def _number_words(text: str) -> Iterator[tuple[int, int]]:
    for match in _NUMBER_WORD.finditer(text):
        if match.group().casefold() == "one" and _is_pronoun(text, *match.span()):
            continue
        yield match.span()


def _is_pronoun(text: str, start: int, end: int) -> bool:
    before, after = _BEFORE.search(text[max(0, start - 20) : start]), _AFTER.match(text[end : end + 20])
    previous = before.group(1).casefold() if before else ""
    following = (after.group(1) or "").casefold() if after else "?"
    if previous in {"no", "any", "every"} or following == "another":
        return True
    return previous in _POINTS_AT and (following in _GOES_ON or (after is not None and not following))
