"""Soda, baking powder and acids as people type them: "1 tsp baking powder", "1/4 tsp soda" with "1/2 tsp tartar"."""

from __future__ import annotations

import re

from qa.calculator.words import amount_of, asked_of, plainly
from qa.contract import LeavenShape, WorkedShape, sum_shape, worked_shape
from qa.errors import InvalidMeasure
from qa.kitchen import leavening, weights
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.stages.compute import Asked
from qa.stages.compute.leavens import POWDER, SODA, TARTAR, mass_of, neutralising_value

_SODA = re.compile(r"\b(?:baking\s)?soda\b|\bbicarb(?:onate)?(?:\sof\ssoda)?\b", re.IGNORECASE)
_SPOON = "us_tsp"


def leaven(words: str, others: tuple[str, ...], library: Library, region: str) -> LeavenShape:
    """What replaces "1 tsp baking powder", or what "1/4 tsp soda" leaves with the acids in `others`.

    Raises:
        InvalidMeasure: no amount, or what is neither soda nor baking powder.
        NoKnowledge: an acid whose neutralising value nobody has given.
    """
    amount, item = _said(words, library, region)
    asked = asked_of(words, (amount,), (item,), library, region)
    if item == POWDER:
        if others:
            raise InvalidMeasure("baking powder has its acid in it already", "leave --with out, or begin with the soda")
        return _powder(words, asked)
    if item != SODA:
        raise InvalidMeasure(f"{library.name(item)} is neither soda nor baking powder", 'write "1 tsp baking powder"')
    return _soda(words, others, asked)


def _said(words: str, library: Library, region: str) -> tuple[Amount, str]:
    """The amount and the item; in this sum "soda" is baking soda, never washing soda."""
    plain_words = _SODA.sub(" bicarb ", words) if _SODA.search(words) and "washing" not in words.lower() else words
    amount, item = amount_of(plain_words, library, region)
    return amount, library.usual(item)


def _powder(words: str, asked: Asked) -> LeavenShape:
    powder = plainly(lambda: mass_of(asked, "asked", POWDER))
    home = leavening.without_powder(powder)
    soda_spoons = weights.to_volume(home.soda.measure, asked.density(SODA, _SPOON), _SPOON)
    tartar_spoons = weights.to_volume(home.tartar.measure, asked.density(TARTAR, _SPOON), _SPOON)
    return {
        **sum_shape(words.strip(), POWDER, figure(home.soda), asked.assumption),
        "soda_spoons": worked_shape(figure(soda_spoons)),
        "tartar": worked_shape(figure(home.tartar)),
        "tartar_spoons": worked_shape(figure(tartar_spoons)),
        "share": None,
        "gas": worked_shape(figure(leavening.gas(home.soda.measure))),
        "as_powder": None,
        "signs": [],
        "verdict": popular_rule(asked),
    }


def popular_rule(asked: Asked) -> str:
    """The rule that circulates, ¼ tsp soda and ½ tsp cream of tartar for a teaspoon, judged (common practice)."""
    soda = Measure.exact(0.25, _SPOON), asked.density(SODA, _SPOON)
    tartar = Measure.exact(0.5, _SPOON), asked.density(TARTAR, _SPOON)
    soda_mass, tartar_mass = (weights.to_mass(*pair).measure for pair in (soda, tartar))
    value = neutralising_value(TARTAR, asked.library)
    found = leavening.balance(soda_mass, [("cream of tartar", tartar_mass, value)])
    needed = leavening.acid_needed(soda_mass, value)
    spoons = weights.to_volume(needed.measure, asked.density(TARTAR, _SPOON), _SPOON)
    return (
        f"the popular ¼ tsp soda with ½ tsp cream of tartar spends only {figure(found.share).text} of its soda; "
        f"{figure(spoons).text} of cream of tartar would spend it all"
    )


def _soda(words: str, others: tuple[str, ...], asked: Asked) -> LeavenShape:
    soda = plainly(lambda: mass_of(asked, "asked", SODA))
    if soda.value <= 0:
        raise InvalidMeasure("there is no soda to spend", "give an amount of soda above zero")
    acids = [_acid(other, asked) for other in others]
    found = leavening.leaven(soda, acids)
    spoons = weights.to_volume(found.tartar.measure, asked.density(TARTAR, _SPOON), _SPOON)
    verdict = (
        f"the acids spend {found.balance.share.text} of the soda"
        if acids
        else "no acid was named, so none of the soda is spent"
    )
    if found.balance.spare_acid:
        verdict = "the acids could spend more soda than there is"
    return {
        **sum_shape(words.strip(), SODA, figure(found.balance.spare), asked.assumption),
        "soda_spoons": None,
        "tartar": _part(found.tartar),
        "tartar_spoons": _part(spoons),
        "share": _part(found.balance.share),
        "gas": _part(found.gas),
        "as_powder": _part(found.as_powder),
        "signs": list(found.balance.signs),
        "verdict": verdict,
    }


def _part(found: Sum) -> WorkedShape:
    return worked_shape(figure(found))


def _acid(words: str, asked: Asked) -> tuple[str, Measure, Measure]:
    amount, said = amount_of(words, asked.library, asked.region)
    item = asked.library.usual(said)
    value = neutralising_value(item, asked.library)
    own = asked_of(words, (amount,), (item,), asked.library, asked.region)
    mass = plainly(lambda: mass_of(own, "asked", item))
    asked.assume(own.assumption)
    return asked.library.name(item), mass, value
