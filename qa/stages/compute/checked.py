"""The asker's own sum: a ratio, share, conversion or weight, checked."""

from __future__ import annotations

import re
from dataclasses import replace

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen.check_sum import Checked, check_text
from qa.kitchen.sums import figure
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.records import Figure
from qa.stages.compute.asked import Asked

_STARTER = "sourdough-starter"
_OF_STARTER = re.compile(r"\b(?:starter|levain|leaven|sourdough)\b[^.;\d]{0,24}$", re.IGNORECASE)
_FLOURS = frozenset(("flour", "starch"))
# Within one in the hundred, or half of the claim's last digit: as check_sum has it.
_NEAR = 0.01
# A larger share of anything in a recipe is likelier a sum that we misread; it is asked about, not corrected.
_MOST_PERCENT = 300.0


def checked(asked: Asked, part: str) -> Figure | str:
    """A part of the checked sum: its 'verdict' and 'kind' in words, its 'line' of working, the right 'result'."""
    found = _found(asked)
    asked.assume(found.assumed)
    if part == "verdict":
        return "right" if found.right else "wrong"
    if part == "kind":
        return found.kind
    result = figure(found.sum)
    if part == "line":
        return replace(result, text=found.sum.working[0])
    return result


def _found(asked: Asked) -> Checked:
    try:
        found = check_text(asked.showing("sum"), asked.region or None, _density(asked))
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault
    if found is None:
        raise Missing("missing_detail", "the ask shows no sum")
    if not found.right and found.kind == "conversion" and "+" in asked.showing("sum"):
        raise Missing("missing_detail", "several things are added up, of which only some were read")
    if found.kind == "percent" and not found.right and found.sum.measure.to("percent").value > _MOST_PERCENT:
        raise Missing("missing_detail", "the share reads so large that it is likelier misread")
    return found


def _density(asked: Asked) -> Measure | None:
    """For a claim about a spoonful's weight: the density of the one ingredient asked about, by the spoon said."""
    if not asked.ask.items or not asked.library.has(asked.ask.items[0]):
        return None
    spoon = next(
        (a.unit for a in find_amounts(asked.showing("sum")) if a.unit.endswith(("tbsp", "tsp", "cup"))), "us_tbsp"
    )
    try:
        return asked.density(asked.item("first"), spoon if "_" in spoon else f"us_{spoon}")
    except NoKnowledge:
        return None
