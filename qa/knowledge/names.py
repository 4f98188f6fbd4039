"""Names for comparing, and all of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from qa.knowledge.facts import Ingredient, Name
from qa.text import folded


def name_key(text: str) -> str:
    """A name for comparing: small letters, no accents, hyphens as spaces.

    >>> name_key("Crème-Fraîche ")
    'creme fraiche'
    """
    return " ".join(folded(text).replace("-", " ").split())


def measure_kind(unit: str) -> str:
    """The kind of spoon or cup a unit is, whatever its region.

    >>> measure_kind("g/us_tbsp"), measure_kind("au_tbsp"), measure_kind("g/mL")
    ('tbsp', 'tbsp', 'mL')
    """
    return unit.rpartition("/")[2].rpartition("_")[2]


def all_names(ingredients: Iterable[Ingredient]) -> Iterator[tuple[Name, str]]:
    """Every name with the item it names."""
    for ingredient in ingredients:
        for name in (Name(ingredient.name, place=ingredient.place), *ingredient.names):
            yield name, ingredient.id
        for form in ingredient.forms:
            for name in (Name(form.name, place=form.place), *form.names):
                yield name, f"{ingredient.id}.{form.id}"
