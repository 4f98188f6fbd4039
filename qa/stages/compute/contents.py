"""What an amount of a food holds: energy, carbohydrate, fibre …; of the asker's own amount, else of a hundred grams."""

from __future__ import annotations

from typing import Literal

from qa.errors import Missing, NoKnowledge
from qa.kitchen.read_content import Content, find_content
from qa.kitchen.sums import Sum, figure, full_unit
from qa.measures.measure import Measure
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import theirs
from qa.stages.compute.turned import grams_of

_HUNDRED = Measure.exact(100.0, "g")
_NET = "net carbohydrate"
_SPOKEN = {"carbohydrate with fibre": "carbohydrate, fibre included,", "sugars": "sugar"}
# Amounts of a nutrient closer than this, by share of the larger, are as good as the same.
_ALIKE = 0.1


def nutrient(asked: Asked) -> str:
    """What is asked after, as a sentence calls it."""
    name = _content(asked)[0].nutrient
    return _SPOKEN.get(name, name)


def amount(asked: Asked) -> Figure:
    """How much of the food: as the asker wrote it, else a hundred grams."""
    content, text = _content(asked, needed=False)
    if content.part is None:
        return figure(Sum(_HUNDRED, ("for a hundred grams, since no amount was said",)))
    return theirs(text, content.part.start, content.part.end, content.part.amounts[0])


def holds(asked: Asked, name: str, item: str) -> Figure:
    """How much of a nutrient the amount holds; `asked` is the nutrient asked after."""
    content, text = _content(asked, needed=name == "asked")
    food = asked.item(item)
    grams = grams_of(asked, content.part, food, text) if content.part else Sum(_HUNDRED)
    share, working = _share(asked, content.nutrient if name == "asked" else name, food)
    total = grams.measure * share
    total = total.to("kcal") if "kcal" in share.unit or "kJ" in share.unit else total.to("g")
    left = f"{grams.measure.value:.4g} g × {working} = {total.value:.4g} {full_unit(total.unit)}"
    return figure(Sum(total, (*grams.working, left)))


def more(asked: Asked) -> Literal["first", "second", "same"]:
    """Which of two foods holds more of what is asked after, weight for weight."""
    name = _content(asked)[0].nutrient
    first, second = (_share(asked, name, asked.item(place))[0].value for place in ("first", "second"))
    if abs(first - second) <= _ALIKE * max(first, second):
        return "same"
    return "first" if first > second else "second"


def _content(asked: Asked, *, needed: bool = True) -> tuple[Content, str]:
    texts = (asked.ask.text, asked.ask.context)
    for text in texts:
        found = find_content(text)
        if found is not None and (found.part is not None or text == texts[-1] or not find_content(texts[-1])):
            return found, text
    for text in texts:
        if found := find_content(text):
            return found, text
    if needed:
        raise Missing("missing_detail", "the ask names no nutrient")
    return Content("", None), asked.ask.text


def _share(asked: Asked, name: str, food: str) -> tuple[Measure, str]:
    """The fact as mass or energy by mass of food, and how a line of working names it."""
    if name == _NET:
        without = _fact(asked, "carbohydrate without fibre", food)
        inside, fibre = _fact(asked, "carbohydrate with fibre", food), _fact(asked, "fibre", food)
        if inside is not None and fibre is not None:
            return inside - fibre, f"({inside.value:.4g} − {fibre.value:.4g}) {inside.unit} carbohydrate less fibre"
        if without is not None:
            return without, f"{without.value:.4g} {without.unit} carbohydrate without fibre"
    elif (found := _fact(asked, name, food)) is not None:
        return found, f"{found.value:.4g} {found.unit} {name}"
    raise NoKnowledge(f"nobody has given the {name} of {food}", "add it to knowledge/ingredients")


def _fact(asked: Asked, name: str, food: str) -> Measure | None:
    return next((fact.measure for fact in asked.library.facts(food, name) if fact.measure is not None), None)
