"""Files and lines to begin with: what people ask and nobody has written yet, as text to be filled in.

What people typed stands in comments or in quotes and cannot become a key, a template or another line. A stub moved into
the knowledge as it is says what it lacks: `levelspoon check` reports it until it is filled in.

>>> print(fact_stub("flax.ground", "gel time", "how long must it soak?"), end="")
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

import json
import re
from collections.abc import Mapping, Sequence

from qa.errors import LevelspoonError
from qa.knowledge.facts import PROPERTIES
from qa.records import AskType
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
_MARKS = "Take the marks away when value, source and place are there; `levelspoon check` tells if anything is amiss."
_FACTS = re.compile(r"^facts:[ \t]*(\[[ \t]*\])?[ \t]*(?:#.*)?$", re.MULTILINE)
_TOP_KEY = re.compile(r"^[a-z]", re.MULTILINE)
_NOT_FOR_IDS = re.compile(r"[^a-z0-9]+")
_MOST_QUOTED, _LONGEST_QUOTE = 20, 200


def id_of(name: str) -> str:
    """An id made from a name: small letters, digits and hyphens; LevelspoonError if nothing is left.

    >>> id_of("Crème fraîche (light)")
    'creme-fraiche-light'
    """
    found = _NOT_FOR_IDS.sub("-", folded(name)).strip("-")[:60].strip("-")
    if not found:
        raise LevelspoonError(f"{name!r} gives no id", "write its name in Latin letters")
    return found


def fact_stub(item: str, name: str, why: str = "") -> str:
    """The lines of a fact of one property, asleep until the marks are taken away; LevelspoonError if there is none."""
    if name not in PROPERTIES:
        raise LevelspoonError(f"no property is called {name!r}", f"there are: {', '.join(PROPERTIES)}")
    form = item.partition(".")[2]
    entry = ([f"- form: {form}", f"  property: {name}"] if form else [f"- property: {name}"]) + [
        f"  value:              # for example {_EXAMPLES[PROPERTIES[name].measures]}",
        "  source:             # an id of sources.yaml, common-practice or memory",
        "  where:",
        "  checked:",
    ]
    return f"# To fill in: {quote(why) or 'a fact'}\n# {_MARKS}\n" + "".join(f"#  {line}\n" for line in entry)


def with_facts(text: str, lines: str) -> tuple[str, int]:
    r"""An ingredient's file with lines at the end of its facts, and the line at which they begin.

    >>> with_facts("id: flax\nfacts:\n  - property: water\nswaps:\n", "# here\n")
    ('id: flax\nfacts:\n  - property: water\n# here\nswaps:\n', 4)
    >>> with_facts("id: flax\nfacts: []", "# here\n")
    ('id: flax\nfacts:\n# here\n', 3)
    """
    text = text if text.endswith("\n") or not text else f"{text}\n"
    found = _FACTS.search(text)
    if found is None:
        text = f"{text}facts:\n"
        return text + lines, text.count("\n") + 1
    if found[1]:
        text = text[: found.start()] + "facts:" + text[found.end() :]
    after = _TOP_KEY.search(text, found.start() + len("facts:"))
    at = after.start() if after else len(text)
    return f"{text[:at]}{lines}{text[at:]}", text.count("\n", 0, at) + 1


def ingredient_stub(name: str, asked: Sequence[str] = (), wanted: str = "bulk density") -> str:
    """A file for an ingredient that is asked about and not known, with a fact of one property to begin with.

    >>> print(ingredient_stub("tigernut flour", ["does it work with tigernut flour"]).split("#  -")[0])
    # To fill in. Asked about 1 time:
    #   does it work with tigernut flour
    id: tigernut-flour
    name: "tigernut flour"
    family:                # flour, starch, seed, nut … see knowledge/README.md
    names: []
    allergens: []          # words of the label laws, or none
    forms: []
    facts:
    # Take the marks away when value, source and place are there; `levelspoon check` tells if anything is amiss.
    <BLANKLINE>
    """
    key = id_of(name)
    return (
        f"{_heading(asked)}id: {key}\nname: {_quoted(name[:80])}\n"
        "family:                # flour, starch, seed, nut … see knowledge/README.md\n"
        "names: []\nallergens: []          # words of the label laws, or none\nforms: []\nfacts:\n"
        + fact_stub(key, wanted).partition("\n")[2]
    )


def names_stub(item: str, typed: Mapping[str, int], asked: Sequence[str] = ()) -> str:
    """Lines for an ingredient's or form's `names`: what people type for it, most often first, with how often."""
    ordered = sorted(typed.items(), key=lambda pair: (-pair[1], pair[0]))
    head = f"# {item}: add under names what is a name and no slip\n"
    return head + _comments(asked) + "".join(f"  - {_quoted(word)}  # {_times(count)}\n" for word, count in ordered)


def phrasings_stub(answer: str, asked: Sequence[str]) -> str:
    """Lines for an answer's `phrasings`: askings that nearly matched it."""
    lines = "".join(f"  - {_quoted(text)}\n" for text in dict.fromkeys(asked))
    return f"# {answer}: add under phrasings what it does answer, without what is the viewer's own\n{lines}"


def answer_stub(
    name: str, asks: Sequence[AskType], items: Sequence[str], asked: Sequence[str], nearest: Sequence[str] = ()
) -> str:
    """A file for questions that no standing answer met: theirs as phrasings, the reply still to be written."""
    about = f"[{', '.join(items)}]" if items else "[none]"
    phrasings = "".join(f"  - {_quoted(text)}\n" for text in dict.fromkeys(asked))
    near = f"# nearest answers: {', '.join(nearest)}\n" if nearest else ""
    return (
        f"---\n# To fill in. Asked {_times(len(asked))}; five phrasings or more, without what is the viewer's own.\n"
        f"{near}# Write the reply under the last line: verdict first, then the amount, what changes, one next step.\n"
        f"id: {id_of(name)}\nasks: [{', '.join(asks)}]\nabout: {about}\nphrasings:\n{phrasings}"
        "figures: {}\ncautions: []\nbasis: reasoned\n---\n"
    )


def quote(text: str) -> str:
    """What somebody typed as one line of a comment, shortened."""
    return " ".join(text.split())[:_LONGEST_QUOTE]


def _quoted(text: str) -> str:
    """A text as YAML reads it back letter by letter; JSON strings are YAML."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)


def _heading(asked: Sequence[str]) -> str:
    return f"# To fill in. Asked about {_times(len(asked))}:\n{_comments(asked)}" if asked else "# To fill in.\n"


def _comments(texts: Sequence[str]) -> str:
    """Texts as comment lines, each on one line whatever stands in it."""
    return "".join(f"#   {quote(text)}\n" for text in texts[:_MOST_QUOTED])


def _times(count: int) -> str:
    return "1 time" if count == 1 else f"{count} times"
