"""Somebody's own sum checked as they wrote it: "500 g flour and 350 g water is 70 %"."""

from __future__ import annotations

from qa.calculator.words import asked_of, plainly
from qa.contract import CheckedShape, sum_shape
from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.check_sum import check_text
from qa.kitchen.shows import shows
from qa.kitchen.sums import figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.records import Figure
from qa.stages.compute import follow
from qa.stages.compute.named import named_amounts


def check_sum(words: str, library: Library, region: str) -> CheckedShape:
    """Right or wrong, one line of working, and the right result.

    Raises:
        InvalidMeasure: the words show no sum.
        NoKnowledge: the weight of a spoonful nobody has weighed is claimed.
    """
    if "dough" in shows(words) and (found := _dough(words, library, region)):
        return found
    checked = check_text(words, region or None, _density(words, library, region))
    if checked is None:
        raise InvalidMeasure(f"no sum in {words!r}", 'write it like "500 g flour and 350 g water is 70 %"')
    shape = sum_shape(words.strip(), "", figure(checked.sum), checked.assumed)
    return {**shape, "kind": checked.kind, "right": checked.right, "verdict": checked.words}


def _dough(words: str, library: Library, region: str) -> CheckedShape | None:
    """A dough's hydration, with the water hidden in yogurt, milk or egg; None where none is claimed."""
    asked = asked_of(words, tuple(find_amounts(words)), (), library, region)
    verdict = plainly(lambda: follow("dough verdict", asked))
    if not verdict:
        return None
    line, total = plainly(lambda: (follow("dough line", asked), follow("dough total", asked)))
    hidden = plainly(lambda: follow("dough hidden", asked))
    assert isinstance(line, Figure)  # noqa: S101 - these parts are figures
    assert isinstance(total, Figure)  # noqa: S101
    said = f"{line.text}, {verdict}"
    if hidden and total.text != line.text:
        said += f"; with the water in {hidden} it is {total.text}"
    return {
        **sum_shape(words.strip(), "", total, asked.assumption),
        "kind": "hydration",
        "right": verdict == "right",
        "verdict": said,
    }


def _density(words: str, library: Library, region: str) -> Measure | None:
    """The density of the first food that is named with its spoonful."""
    for amount, item in named_amounts(words, library, region):
        if amount.unit.endswith(("tbsp", "tsp", "cup")):
            try:
                unit = amount.unit if "_" in amount.unit else f"us_{amount.unit}"
                return asked_of(words, (amount,), (item,), library, region).density(item, unit)
            except NoKnowledge:
                continue
    return None
