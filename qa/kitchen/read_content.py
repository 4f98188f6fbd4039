"""What a text wants to know of a food's content: energy, carbohydrate, fibre …, and in how much of it.

>>> find_content("how much fibre in 2 tbsp of flax?").nutrient, find_content("which is softer?") is None
('fibre', True)
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from qa.kitchen.read_labels import find_labels
from qa.kitchen.read_turns import Part, find_parts
from qa.text.wordings import Wordings

# The words that name a nutrient, by the property of the facts; net carbohydrate is a sum of two.
_NUTRIENTS: Wordings[str] = Wordings(
    {
        "net carbohydrate": r"(?:net|digestible|available)\scarb(?:s|ohydrates?)?",
        "energy": r"calou?ries?|caleries|kcals?|cals|kilojoules?|energy",
        "protein": r"proteins?",
        "fibre": r"fib(?:re|er)s?",
        "carbohydrate with fibre": r"carb(?:s|ohydrates?)?|carboidrati|glucides?",
        "fat": r"fats?(?=\s(?:content|in|is|does|per|and|of|than)\b|\?|$)"
        r"|(?<=how much )fat|(?<=more )fat|(?<=less )fat",
        "sugars": r"sugars?(?=\s(?:content|is in|are in)\b)",
        "water": r"water(?=\s(?:content|is in|is there))|percent (?:of )?\w{2,12} is water",
    },
    before=r"(?<![\w-])",
    after=r"(?![\w-])",
)


class Content(NamedTuple):
    """A nutrient asked after, and the amount of food it is wanted for; None for no amount in particular."""

    nutrient: str
    part: Part | None


@lru_cache(maxsize=1024)
def find_content(text: str) -> Content | None:
    """The nutrient a text asks after; None if it names none or several, or quotes a label of its own."""
    found = {said.what for said in _NUTRIENTS.find(text)}
    if "net carbohydrate" in found:
        found.discard("carbohydrate with fibre")
    if len(found) != 1 or any(label.lines for label in find_labels(text)):
        return None
    parts = find_parts(text)
    return Content(found.pop(), parts[0] if len(parts) == 1 else None)
