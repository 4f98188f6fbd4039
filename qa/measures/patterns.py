"""The shapes of amounts, put together from the words people use.

All repeats are bounded or of one kind of sign, and atomic groups keep a search from trying the same place twice, so no
text can make it slower than linear.
"""

from __future__ import annotations

import re

from qa.measures.words import LETTERS, MANNERS, NUMBER_WORDS, REGIONS, REGISTRY_NAMES, SPELLINGS, VULGAR


def _any(spellings: dict[str, str], *only: str) -> str:
    """One of several spellings, spaces kept where a pattern's own are only for reading."""
    return "|".join(spellings[key] for key in only or spellings).replace(" ", r"\ ")


def _named(spellings: dict[str, str]) -> re.Pattern[str]:
    """Which of several a spelling is: the name of the group that matches."""
    return re.compile("|".join(f"(?P<{name}>{spelling})" for name, spelling in spellings.items()), re.IGNORECASE)


UNITS, MANNERS_OF, REGIONS_OF = _named(SPELLINGS), _named(MANNERS), _named(REGIONS)

_SIGN = f"[{''.join(VULGAR)}]"
_PLAIN = r"""(?: [1-9]\d{0,2} (?:,\d{3}){1,2} (?:\.\d{1,4})?       # 1,000
              | (?:0|[1-9]\d{0,6}) (?:[.,]\d{1,4})?                # 2   2.5   2,5
              | \.\d{1,4} ) (?!\d)"""
_FRACTION = r"[1-9]\d?\s?[/⁄]\s?[1-9]\d?(?![\d/])"
_PART = r"(?:half|third|quarter|fourth|eighth)s?"
_AND_PART = rf"\s(?:and|&)\s(?:an?\s|one\s|two\s|three\s)?{_PART}\b"
_WORD = rf"(?:{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})\b".replace(" ", r"\ ")
_NUMBER = rf"""(?: [1-9]\d{{0,3}} (?:\s?[-–&]\s?|\sand\s|\s{{1,2}}) {_FRACTION}   # 1-1/2
                | {_FRACTION}
                | [1-9]\d{{0,3}}\s? (?:[-–]\s?)? {_SIGN} | {_SIGN}                 # 1½
                | {_PLAIN} (?:{_AND_PART})?
                | (?:(?:an?|one|two|three|five|seven)[ -])? {_PART}\b (?!\s(?:a\s)?dozen)
                | (?:a\s)?couple\b | a\sfew\b
                | {_WORD} (?:{_AND_PART})? )"""
_AFTERWARDS = _any(MANNERS, "packed", "sifted", "spooned", "dipped") + "|heap(?:ed|ing)|level(?:led)?"

# Where an amount may begin; what stands there is then matched by AMOUNT or PAN.
TRIGGER = re.compile(
    rf"""(?<![\w$€£\#@])
         (?: \.?\d[\d.,:/]* | {_SIGN}
           | (?: {_WORD} | half\b | quarter\b | couple\b | (?:pinch|dash|handful|splash)(?=\sof\b) ) )""",
    re.IGNORECASE | re.VERBOSE,
)
# "two of my old dessertspoons"
_WHOSE = r"(?:(?:my|your|our|his|her|their|these|those)\s(?:(?:old|own|big|little|small)\s)?)"
AMOUNT = re.compile(
    rf"""(?P<between>(?<=between\s))? (?P<low>(?>{_NUMBER}))?
         (?> (?(between) \s(?:and|to)\s | (?:\s?[-–—]\s?|\s(?:to|or|till|until)\s) ) (?P<high>{_NUMBER}) )?
         (?> (?:\s?[°º˚]|\s?degrees?\b|\sdeg\b\.?) (?:\s?(?P<scale>(?:c|f|celsius|centigrade|fahrenheit)\b))?
             (?P<degrees>)
           | [\s-]{{0,3}}+ (?:of\s{_WHOSE}?+)?+ (?:an?\s)?+ (?>(?P<manner>{_any(MANNERS)})[ -])?+
             (?>(?P<region>{_any(REGIONS)})\s)?+ (?>(?P<manner_2>{_any(MANNERS)})[ -])?+
             (?P<unit>{REGISTRY_NAMES}|{_any(SPELLINGS)})(?!\w)
             (?P<more>\sand\s(?:an?|one|three)\s{_PART}\b)?              # a cup and a half
             (?:\s?\((?P<region_2>{_any(REGIONS)})\))?
             (?:,?\s?\(?(?P<manner_3>{_AFTERWARDS})\b)?                  # 1 cup, packed
           | \s?(?P<letter>[{LETTERS}])(?![\w'’])
           | -?(?P<inch>in)\b
           | (?:\s?[x×](?!\w))? (?!\w|[:/]\s?\d) )""",
    re.IGNORECASE | re.VERBOSE,
)
_LENGTH = r"cm|mm|inch(?:es)?|in\b|\"|”"
PAN = re.compile(
    rf"""(?P<a>{_PLAIN}) (?:\s?-?(?P<unit_a>{_LENGTH}))? \s?(?:[x×]|by)\s? (?P<b>{_PLAIN})
         (?: (?:\s?-?(?:{_LENGTH}))? \s?[x×]\s? (?P<c>{_PLAIN}) )? (?:\s?-?(?P<unit>{_LENGTH}))?""",
    re.IGNORECASE | re.VERBOSE,
)
LAST_WORDS = re.compile(r"(?:gas\s)?[^\W\d_]+\s?$|(?<!\w)[-−]$", re.IGNORECASE)
GAS = re.compile(r"gas(?:\s?mark)?|gm|regulo|mark", re.IGNORECASE)
SLASH = re.compile(r"\s?[/⁄]\s?")
JOINS = re.compile(r"[\s&–-]+")
TERMS = re.compile(rf"\sand\s|\s(?=\d|{_SIGN})")
AND = re.compile(r"^\s(?:and|plus)\s")
OF_SOMETHING = re.compile(r"\s(?:the|of|my|your)\b")
VAGUELY = re.compile(
    r"(?:about|approx\.?|approximately|around|roughly|circa|ca\.|just|exactly|~|[-−])?\s*", re.IGNORECASE
)
