"""The figures an answer needs, worked out for one ask from facts in the library.

A recipe for a figure is a line such as `weigh 1 us_tbsp of flax.ground`; the verbs are listed in knowledge/README.md.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from qa.errors import InvalidMeasure
from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.records import Ask, Computed, Figure
from qa.stages.compute import amounts
from qa.stages.compute.asked import Asked

__all__ = ["Asked", "compute", "follow", "forms_of"]


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
    figures = {name: follow(recipe, asked) for name, recipe in answer.figures}
    return Computed(figures, asked.assumption, forms_of(ask, library))


def forms_of(ask: Ask, library: Library) -> tuple[str, ...]:
    """The items asked about with the forms the answer is about: those of the swap if there is one, else the usual."""
    rule = library.swap(*ask.items[:2]) if ask.type == "swap" and len(ask.items) > 1 else None
    usual = tuple(library.usual(item) for item in ask.items)
    return (rule.replace, rule.use, *usual[2:]) if rule else usual


def follow(recipe: str, asked: Asked) -> Figure:
    """One figure from its recipe; InvalidMeasure if no verb reads like that."""
    for pattern, work in _VERBS:
        if found := pattern.fullmatch(recipe.strip()):
            return work(asked, *found.groups())
    raise InvalidMeasure(f"no recipe for a figure reads {recipe!r}", "the verbs are listed in knowledge/README.md")


_ITEM = r"([a-z0-9.-]+)"
_VERBS: tuple[tuple[re.Pattern[str], Callable[..., Figure]], ...] = (
    (re.compile(rf"weigh (.+) of {_ITEM}"), amounts.weigh),
    (re.compile(rf"measure (.+) of {_ITEM} in (\w+)"), amounts.spoons),
    (re.compile(rf"swap (.+) of {_ITEM} for {_ITEM}"), amounts.swap),
    (re.compile(rf"ratio {_ITEM} to {_ITEM}"), amounts.ratio),
    (re.compile(rf"property (.+) of {_ITEM}"), amounts.prop),
    (re.compile(r"theirs (\d)"), amounts.theirs),
    (re.compile(r"convert (.+) to (\w+)"), amounts.convert),
    (re.compile(r"definition (\w+) in (\w+)"), amounts.definition),
)
