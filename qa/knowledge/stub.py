"""A fact to be filled in: the lines for its file, inert until somebody takes the marks away.

>>> print(fact_lines("flax.ground", "gel time", "how long must it soak?"), end="")
# To fill in: how long must it soak?
# Take the marks away when value, source and place are there; `levelspoon check` tells if anything is amiss.
#  - form: ground
#    property: gel time
#    value:              # for example 10 min, 8 ± 1 min or 5 to 10 min
#    source:             # an id of sources.yaml, common-practice or memory
#    where:
#    checked:
"""

from __future__ import annotations

import re

from qa.errors import LevelspoonError
from qa.knowledge.facts import PROPERTIES
from qa.text import folded

_EXAMPLES = {
    "density": "7 g/us_tbsp, 7 ± 0.3 g/us_tbsp or 6 to 8 g/us_tbsp",
    "mass": "50 g or 45 to 55 g",
    "share": "12 % or 10 to 14 %",
    "energy per mass": "364 kcal/100 g",
    "time": "10 min, 8 ± 1 min or 5 to 10 min",
    "temperature": "75 degC",
    "number": "5.5",
    "length": "0.3 mm",
    "words": '"turns green with alkali"',
}
_TOP_KEY = re.compile(r"^[a-z]", re.MULTILINE)
_NOT_FOR_IDS = re.compile(r"[^a-z0-9]+")


def fact_lines(item: str, name: str, why: str = "") -> str:
    """The stub of a fact of one property; LevelspoonError for a property nobody knows."""
    if name not in PROPERTIES:
        raise LevelspoonError(f"no property is called {name!r}", f"there are: {', '.join(PROPERTIES)}")
    form = item.partition(".")[2]
    entry = ([f"- form: {form}", f"  property: {name}"] if form else [f"- property: {name}"]) + [
        f"  value:              # for example {_EXAMPLES[PROPERTIES[name].measures]}",
        "  source:             # an id of sources.yaml, common-practice or memory",
        "  where:",
        "  checked:",
    ]
    asked = " ".join(why.split())[:200] or "a fact"
    marks = "Take the marks away when value, source and place are there; `levelspoon check` tells if anything is amiss."
    return f"# To fill in: {asked}\n# {marks}\n" + "".join(f"#  {line}\n" for line in entry)


def with_fact(text: str, stub: str) -> tuple[str, int]:
    r"""An ingredient's file with a stub at the end of its facts, and the line at which it begins.

    >>> with_fact("id: flax\nfacts:\n  - property: water\nswaps:\n", "# here\n")
    ('id: flax\nfacts:\n  - property: water\n# here\nswaps:\n', 4)
    """
    text = text if text.endswith("\n") or not text else f"{text}\n"
    found = re.search(r"^facts:", text, re.MULTILINE)
    after = _TOP_KEY.search(text, found.end()) if found else None
    at = after.start() if after else len(text)
    return f"{text[:at]}{stub}{text[at:]}", text.count("\n", 0, at) + 1


def ingredient_id(name: str) -> str:
    """An id for a new ingredient: small letters, digits and hyphens; LevelspoonError if nothing is left.

    >>> ingredient_id("Tigernut flour")
    'tigernut-flour'
    """
    found = _NOT_FOR_IDS.sub("-", folded(name)).strip("-")[:60].strip("-")
    if not found:
        raise LevelspoonError(f"{name!r} gives no id", "write its name in Latin letters")
    return found


def ingredient_lines(key: str, name: str, wanted: str, why: str = "") -> str:
    """A file for an ingredient that the larder does not hold yet; it is a problem until family and facts are right."""
    plain = " ".join(name.split())[:80].replace('"', "'")
    asked = " ".join(why.split())[:200]
    return (
        f"# To fill in{': ' + asked if asked else ''}\n"
        f'id: {key}\nname: "{plain}"\nfamily:                # flour, starch, seed, nut … see knowledge/README.md\n'
        "names: []\nallergens: []         # words of the label laws, or none\nforms: []\nfacts:\n"
        + fact_lines(key, wanted).partition("\n")[2]
    )
