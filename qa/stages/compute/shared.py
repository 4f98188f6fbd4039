"""Percent of flour, shares of a whole, a batch for more or fewer, part of an egg, water boiling in the hills."""

from __future__ import annotations

from dataclasses import replace

from qa.errors import InvalidMeasure, Missing
from qa.kitchen import eggs as egg_sums
from qa.kitchen import heat
from qa.kitchen.read_shares import find_batch, find_egg_share, find_height, find_percent, find_shared
from qa.kitchen.sums import Sum, figure
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.show import plain
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import theirs


def percent(asked: Asked, part: str) -> Figure | str:
    """Of a percentage wanted of a weight: `said`, `mass`, `result`; of a dough also `flour`; (word) `of`."""
    text = asked.showing("percent", "dough weight")
    found = find_percent(text)
    if found is None:
        raise Missing("missing_amount", "the ask does not say a percentage and one weight")
    if part == "of":
        return found.of
    if part == "mass":
        return theirs(text, found.mass.start, found.mass.end, found.mass)
    if part == "said":
        return _plainly(found.percent, "percent")
    mass = asked.resolved(found.mass).to("g")
    flour = mass if found.of == "flour" else mass / (1 + found.percent / 100)
    if part == "flour":
        line = f"{plain(mass.value)} g ÷ {plain(1 + found.percent / 100)} = {plain(flour.value)} g"
        return figure(Sum(flour, (line,)))
    wet = flour * (found.percent / 100)
    line = f"{plain(flour.value)} g × {plain(found.percent)} % = {plain(wet.value)} g"
    return figure(Sum(wet, (line,)))


def share(asked: Asked, part: str) -> Figure:
    """Of a whole cut into pieces: `whole`, `pieces` and what is in `each`."""
    text = asked.showing("shares")
    found = find_shared(text)
    if found is None:
        raise Missing("missing_amount", "the ask does not say a whole and its pieces")
    if part == "whole":
        return theirs(text, found.whole.start, found.whole.end, found.whole)
    if part == "pieces":
        shown = theirs(text, found.pieces.start, found.pieces.end, found.pieces)
        return replace(shown, text=found.pieces_text)
    whole = Measure.exact(found.whole.value, found.whole.unit)
    each = whole / found.pieces.value
    line = f"{plain(whole.value)} ÷ {plain(found.pieces.value)} = {plain(each.value)} {found.whole.unit}"
    return figure(Sum(each, (line,)))


def batch(asked: Asked, part: str) -> Figure:
    """Of a recipe that makes one number and is wanted for another: `makes`, `wants`, `factor`."""
    found = find_batch(asked.showing("batch"))
    if found is None:
        raise Missing("missing_amount", "the ask does not say what the recipe makes and what is wanted")
    makes, wants = found
    if part == "factor":
        line = f"{plain(wants)} ÷ {plain(makes)} = {plain(wants / makes)}"
        return figure(Sum(Measure.exact(wants / makes, "dimensionless"), (line,)))
    return _plainly(makes if part == "makes" else wants, "")


def egg_share(asked: Asked, part: str) -> Figure | str:
    """Of eggs in a recipe of which a part is wanted: `eggs`, how many that `makes`, their `grams`; (word) `whole`."""
    found = find_egg_share(asked.showing("egg share"))
    if found is None:
        raise Missing("missing_amount", "the ask does not say how many eggs and which part of the recipe")
    count, factor = found
    wanted = count * factor
    if part == "whole":
        return "yes" if abs(wanted - round(wanted)) < 1e-6 else ""
    if part == "eggs":
        return _plainly(count, "")
    if part == "grams":
        return figure(egg_sums.beaten(wanted, egg_sums.edible("large")))
    line = f"the asker's own {plain(count)} egg{'s' * (count != 1)} × {plain(factor)} = {plain(wanted)}"
    return figure(Sum(Measure.exact(wanted, "each"), (line,)))


def boiling(asked: Asked, part: str) -> Figure:
    """Of a height: as `said`, and where water boils there in `degC` or `degF`."""
    text = asked.showing("height")
    metres = find_height(text)
    if metres is None:
        raise Missing("missing_amount", "the ask names no height")
    try:
        found = heat.boiling_point(metres)
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault
    if part == "degC":
        return figure(found)
    fahrenheit = heat.convert(found.measure.value, "degC", "degF")
    return figure(Sum(fahrenheit.measure, (*found.working, *fahrenheit.working)))


def _plainly(value: float, unit: str) -> Figure:
    """The asker's own number."""
    amount = Amount(value, value, value, unit)
    text = f"{value:g}{' %' if unit == 'percent' else ''}"
    return Figure(text, amount.value, amount.low, amount.high, unit, (), "the asker's own number", theirs=True)
