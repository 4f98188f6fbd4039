"""Recipes for figures: one line that says which sum gives a number, as listed in knowledge/README.md.

>>> read_recipe("weigh 1 us_tbsp of flax.ground")
Recipe(verb='weigh', amount='1 us_tbsp', items=('flax.ground',), unit='', property='')
>>> read_recipe("wiegh 1 us_tbsp of flax.ground")
"no verb reads like that, did you mean 'weigh'?"
"""

from __future__ import annotations

import re
from typing import NamedTuple

from qa.knowledge.facts import PROPERTIES
from qa.knowledge.fields import ITEM, did_you_mean
from qa.measures.units import known


class Recipe(NamedTuple):
    """A recipe taken apart; parts the verb does not have are empty."""

    verb: str
    amount: str = ""
    items: tuple[str, ...] = ()
    unit: str = ""
    property: str = ""


_ITEM = f"(?P<item>{ITEM.pattern})"
_OTHER = f"(?P<other>{ITEM.pattern})"
_SHAPES = {
    "weigh": rf"weigh (?P<amount>.+) of {_ITEM}",
    "measure": rf"measure (?P<amount>.+) of {_ITEM} in (?P<unit>\w+)",
    "swap": rf"swap (?P<amount>.+) of {_ITEM} for {_OTHER}",
    "ratio": rf"ratio {_ITEM} to {_OTHER}",
    "property": rf"property (?P<property>.+) of {_ITEM}",
    "theirs": r"theirs (?P<amount>\d)",
    "convert": r"convert (?P<amount>.+) to (?P<unit>\S+)",
    "definition": r"definition (?P<other>\w+) in (?P<unit>\w+)",
    "label": r"label (?:printed [12]|(?:carbohydrate|fibre|serving|claimed|digestible|range|hundred|place|fibre counted"
    r"|verdict|has)(?: [12])?(?: as [A-Z]{2})?)",
    "labels": r"labels (?:apart|verdict)",
    "checked": r"checked (?:verdict|kind|line|result)",
    "dough": r"dough (?:plain|total|line|verdict|claimed|hidden|amount|share|water|several|starter)",
    "bakers": r"bakers (?:thing )?[1-5]",
    "turned": r"turned (?:said |thing )?[1-6]",
    "asked": r"asked (?:amount|thing)",
    "nutrient": r"nutrient",
    "holds": rf"holds (?:amount|more|(?P<property>.+) in {_ITEM})",
    "percent": r"percent (?:said|mass|result|flour|of)",
    "share": r"share (?:whole|pieces|each)",
    "batch": r"batch (?:makes|wants|factor)",
    "egg": r"egg share (?:eggs|makes|grams|whole)",
    "yeasts": r"yeasts (?:said|result|have|want|verdict)",
    "boiling": r"boiling (?:degC|degF)",
    "soda": rf"soda (?P<amount>.+) (?:spent by|beside) .+ of {_ITEM}",
    "said": rf"said of {_ITEM}",
    "acid": rf"acid (?:ratio of {_ITEM}|{_OTHER} for (?P<amount>.+) of soda in (?P<unit>\w+))",
    "powder": r"powder (?P<amount>.+) as (?:soda|tartar) in (?P<unit>\w+)",
    "sweeten": rf"sweeten (?P<amount>.+) of {_ITEM} for {_OTHER}",
    "bulk": rf"bulk (?P<amount>.+) of {_ITEM} for {_OTHER}",
    "sweetener": rf"sweetener kind of {_ITEM}",
    "yeast": rf"yeast (?P<amount>.+) of {_ITEM} for {_OTHER}",
    "pan": r"pan (?:factor|old|new|verdict)",
    "eggs": r"eggs (?:factor|wanted|have|missing|verdict)",
    "oven": r"oven (?:said|degC|degF|gas_mark|dial|fan|still|kind)",
}
# What `holds` knows besides the properties: the nutrient asked after, and a sum of two.
_OF_AMOUNTS = ("asked", "net carbohydrate")
VERBS = tuple(_SHAPES)
_PATTERNS = {verb: re.compile(shape) for verb, shape in _SHAPES.items()}


def read_recipe(text: str) -> Recipe | str:
    """The recipe, or what is wrong with it in a clause."""
    verb = text.partition(" ")[0]
    if verb not in _PATTERNS:
        return f"no verb reads like that, {did_you_mean(verb, VERBS)}"
    found = _PATTERNS[verb].fullmatch(text.strip())
    if not found:
        return f"'{verb}' is written otherwise"
    part = {name: said or "" for name, said in found.groupdict().items()}
    if (name := part.get("property", "")) and name not in {*PROPERTIES, *_OF_AMOUNTS}:
        return f"no property {name!r}, {did_you_mean(name, PROPERTIES)}"
    units = [part.get("unit", "")] + ([part["other"]] if verb == "definition" else [])
    for unit in units:
        if unit and not known(unit) and unit not in {"tbsp", "tsp", "cup"}:
            return f"no unit {unit!r}"
    items = tuple(part[key] for key in ("item", "other") if part.get(key) and verb != "definition")
    return Recipe(verb, part.get("amount", ""), items, part.get("unit", ""), name)
