"""The figures an answer needs, worked out for one ask from facts in the library.

A recipe for a figure is a line such as `weigh 1 us_tbsp of flax.ground`; the verbs are listed in knowledge/README.md.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from qa.errors import InvalidMeasure, Missing
from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.records import Ask, Computed, Figure
from qa.stages.compute import amounts, checked, contents, doughs, kitchen, labels, leavens, shared, turned
from qa.stages.compute.asked import Asked

__all__ = ["Asked", "compute", "figure_of", "follow", "forms_of"]


def compute(ask: Ask, answer: Answer, library: Library, region: str) -> Computed:
    """Work out every figure the answer asks for.

    Args:
        ask: one ask; its own region leads over the channel's.
        answer: the standing answer whose recipes are followed.
        library: where the facts are.
        region: the region the channel's audience mostly measures in, or ''.

    Raises:
        Missing: the ask does not give what a recipe needs.
        NoKnowledge: a fact is not there.

    """
    asked = Asked(ask, library, ask.region or region)
    found = {name: follow(recipe, asked) for name, recipe in answer.figures}
    figures = {name: one for name, one in found.items() if isinstance(one, Figure)}
    words = {name: one for name, one in found.items() if isinstance(one, str)}
    return Computed(figures, asked.assumption, forms_of(ask, library), words)


def forms_of(ask: Ask, library: Library) -> tuple[str, ...]:
    """The items asked about with the forms the answer is about: those of the swap if there is one, else the usual."""
    rule = library.swap(*ask.items[:2]) if ask.type == "swap" and len(ask.items) > 1 else None
    usual = tuple(library.usual(item) for item in ask.items)
    return (rule.replace, rule.use, *usual[2:]) if rule else usual


def figure_of(recipe: str, asked: Asked) -> Figure:
    """The figure of a recipe that gives one."""
    found = follow(recipe, asked)
    if isinstance(found, str):
        raise InvalidMeasure(f"{recipe!r} gives a word, not a figure", "the verbs are listed in knowledge/README.md")
    return found


def follow(recipe: str, asked: Asked) -> Figure | str:
    """One figure, or one word to choose wordings by, from its recipe.

    InvalidMeasure if no verb reads like that; Missing where the amounts that were said make no sum.
    """
    for pattern, work in _VERBS:
        if found := pattern.fullmatch(recipe.strip()):
            try:
                return work(asked, *found.groups())
            except InvalidMeasure as fault:
                raise Missing("missing_detail", fault.message, fault.remedy) from fault
    raise InvalidMeasure(f"no recipe for a figure reads {recipe!r}", "the verbs are listed in knowledge/README.md")


_ITEM = r"([a-z0-9.-]+)"
_LABEL_PART = "carbohydrate|fibre|serving|claimed|digestible|range|hundred|place|fibre counted|verdict|has"
_VERBS: tuple[tuple[re.Pattern[str], Callable[..., Figure | str]], ...] = (
    (re.compile(rf"weigh (.+) of {_ITEM}"), amounts.weigh),
    (re.compile(rf"measure (.+) of {_ITEM} in (\w+)"), amounts.spoons),
    (re.compile(rf"swap (.+) of {_ITEM} for {_ITEM}"), amounts.swap),
    (re.compile(rf"ratio {_ITEM} to {_ITEM}"), amounts.ratio),
    (re.compile(rf"property (.+) of {_ITEM}"), amounts.prop),
    (re.compile(r"theirs (\d)"), amounts.theirs),
    (re.compile(r"turned ([1-6])"), turned.turned),
    (re.compile(r"turned said ([1-6])"), turned.said),
    (re.compile(r"turned thing ([1-6])"), turned.thing),
    (re.compile(r"asked amount"), turned.asked_amount),
    (re.compile(r"asked thing"), turned.asked_thing),
    (re.compile(r"nutrient"), contents.nutrient),
    (re.compile(r"holds amount"), contents.amount),
    (re.compile(r"holds more"), contents.more),
    (re.compile(rf"holds (.+) in {_ITEM}"), contents.holds),
    (re.compile(r"percent (said|mass|result|flour|of)"), shared.percent),
    (re.compile(r"share (whole|pieces|each)"), shared.share),
    (re.compile(r"batch (makes|wants|factor)"), shared.batch),
    (re.compile(r"egg share (eggs|makes|grams|whole)"), shared.egg_share),
    (re.compile(r"boiling (degC|degF)"), shared.boiling),
    (re.compile(r"convert (.+) to (\w+)"), amounts.convert),
    (re.compile(r"definition (\w+) in (\w+)"), amounts.definition),
    (re.compile(rf"label ({_LABEL_PART})(?: ([12]))?(?: as ([A-Z]{{2}}))?"), labels.label),
    (re.compile(r"label printed ([12])"), labels.printed_range),
    (re.compile(r"labels (apart|verdict)"), labels.compared),
    (re.compile(r"checked (verdict|kind|line|result)"), checked.checked),
    (
        re.compile(r"dough (plain|total|line|verdict|claimed|hidden|amount|share|water|several|starter)"),
        doughs.dough,
    ),
    (re.compile(r"bakers ([1-5])"), doughs.bakers),
    (re.compile(r"bakers thing ([1-5])"), doughs.bakers_thing),
    (re.compile(rf"soda (.+) spent by (.+) of {_ITEM}"), leavens.spent),
    (re.compile(rf"soda (.+) beside (.+) of {_ITEM}"), leavens.enough),
    (re.compile(rf"said of {_ITEM}"), leavens.said_of),
    (re.compile(rf"acid ratio of {_ITEM}"), leavens.acid_ratio),
    (re.compile(rf"acid {_ITEM} for (.+) of soda in (\w+)"), leavens.to_spend),
    (re.compile(r"powder (.+) as (soda|tartar) in (\w+)"), leavens.for_powder),
    (re.compile(rf"sweeten (.+) of {_ITEM} for {_ITEM}"), kitchen.sweeten),
    (re.compile(rf"bulk (.+) of {_ITEM} for {_ITEM}"), kitchen.bulk),
    (re.compile(rf"sweetener kind of {_ITEM}"), kitchen.sweetener_kind),
    (re.compile(rf"yeast (.+) of {_ITEM} for {_ITEM}"), kitchen.raised),
    (re.compile(r"yeasts (said|result|have|want|verdict)"), kitchen.yeasts),
    (re.compile(r"pan (factor|old|new|verdict)"), kitchen.pan),
    (re.compile(r"eggs (factor|wanted|have|missing|verdict)"), kitchen.eggs),
    (re.compile(r"oven (said|degC|degF|gas_mark|dial|fan|still|kind)"), kitchen.oven),
)
