"""Equal sweetness as people type it: "1 cup sugar" with erythritol."""

from __future__ import annotations

from qa.calculator.words import amount_of, asked_of, item_of, plainly
from qa.contract import SweetenShape, sum_shape, worked_shape
from qa.kitchen.sums import figure
from qa.knowledge.library import Library
from qa.stages.compute.kitchen import sweetened


def sweeten(words: str, use: str, library: Library, region: str) -> SweetenShape:
    """Grams of a sweetener as sweet as "1 cup sugar", the bulk that goes missing, the energy saved by region's labels.

    Raises:
        InvalidMeasure: the words hold no amount.
        NoKnowledge: an ingredient is not known, or its sweetness is not.
    """
    amount, item = amount_of(words, library, region)
    other = library.usual(item_of(use, library, region))
    asked = asked_of(words, (amount,), (item, other), library, region)
    found = plainly(lambda: sweetened(asked, "asked", "first", "second", region or "US"))
    if found.energy is not None and not region:
        asked.assume("counting energy as US labels do")
    ingredient, _, form = other.partition(".")
    return {
        **sum_shape(words.strip(), asked.item("first"), figure(found.amount, as_range=True), asked.assumption),
        "for_ingredient": ingredient,
        "for_form": form,
        "bulk_lost": worked_shape(figure(found.bulk, as_range=True)),
        "energy_saved": worked_shape(figure(found.energy)) if found.energy else None,
        "is_extract": found.is_extract,
        "changes": found.words,
    }
