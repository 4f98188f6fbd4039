"""Digestible carbohydrate as people type it: of an amount of food, of a label, of two labels beside each other."""

from __future__ import annotations

from dataclasses import replace

from qa.calculator.words import asked_of, grams_of, plainly
from qa.contract import CarbsShape, ComparedShape, ReadingShape, sum_shape, worked_shape
from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen import labels
from qa.kitchen.label_rules import FIBRE_INSIDE
from qa.kitchen.read_labels import SaidLabel, find_labels
from qa.kitchen.sums import Sum, figure, line, said
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.measures.show import plain, show_range
from qa.records import Figure
from qa.stages.compute.labels import label_of

_WITHOUT, _WITH, _FIBRE = "carbohydrate without fibre", "carbohydrate with fibre", "fibre"
_COUNTED_OUT = "labels here leave fibre out of the carbohydrate line: read it as it stands, subtract nothing"
_COUNTED_IN = "labels here print carbohydrate with the fibre in it: take the fibre off"


def carbs(words: str, library: Library, region: str) -> CarbsShape:
    """Digestible carbohydrate of "2 tbsp psyllium husk", or of a label: "14 g carbs 38 g fibre per 100 g".

    Without a region a label is read as both kinds, the American first.

    Raises:
        InvalidMeasure: no amount, or figures that no such label can print.
        NoKnowledge: nobody has given what the food is made of.
    """
    written = words if find_labels(words) else f"carbohydrate {words.strip()}"  # which is what the command is about
    found = find_labels(written)
    if found and (written is words or found[0].serving or len(found[0].lines) > 1):
        return {**_of_label(written, found[0], library, region), "amount": words.strip()}
    return _of_food(words, library, region)


def _of_label(words: str, quoted: SaidLabel, library: Library, region: str) -> CarbsShape:
    asked = asked_of(words, tuple(find_amounts(words)), (), library, region)
    label = plainly(lambda: label_of(quoted, asked, region or None)).label
    readings = [_reading(figure(one.sum), one.region, list(one.notes)) for one in labels.digestible(label)]
    main = figure(labels.digestible(label)[0].sum)
    return {**sum_shape(words.strip(), "", main, asked.assumption), "readings": readings}


def _of_food(words: str, library: Library, region: str) -> CarbsShape:
    mass, item, asked = grams_of(words, library, region)
    share = digestible_share(item, library)
    eaten = (mass * share.measure).to("g")
    total = Sum(eaten, (*share.working, line(f"{said(mass)} × {plain(100 * share.measure.value)} %", eaten)))
    main = figure(total)
    note = _COUNTED_IN if region in FIBRE_INSIDE else _COUNTED_OUT
    notes = [note] if region else []
    return {
        **sum_shape(words.strip(), item, main, asked.assumption),
        "readings": [_reading(main, region, notes)],
    }


def digestible_share(item: str, library: Library) -> Sum:
    """Digestible carbohydrate by mass of food: as a table without fibre prints it, else carbohydrate less fibre."""
    without, total, fibre = (_fact(item, name, library) for name in (_WITHOUT, _WITH, _FIBRE))
    if without is not None:
        share = without.to("")
        return Sum(share, (f"{plain(100 * share.value)} % carbohydrate without fibre, by the table",))
    if total is None or fibre is None:
        lack = "carbohydrate" if total is None else "fibre"
        raise NoKnowledge(f"nobody has given the {lack} of {item}", f'quote its label: "14 g {lack} per 100 g"')
    share = total.to("") - fibre.to("")
    if share.value < 0:
        raise InvalidMeasure(f"the table gives {item} more fibre than carbohydrate", "quote its label instead")
    left = f"{plain(100 * total.to('').value)} % carbohydrate − {plain(100 * fibre.to('').value)} % fibre"
    return Sum(share, (f"{left} = {plain(100 * share.value)} %",))


def _fact(item: str, name: str, library: Library) -> Measure | None:
    return next((fact.measure for fact in library.facts(item, name) if fact.measure is not None), None)


def _reading(found: Figure, region: str, notes: list[str]) -> ReadingShape:
    return {**worked_shape(found), "region": region, "notes": notes}


def compare(first: str, second: str, library: Library, region: str) -> ComparedShape:
    """Whether rounding alone can explain two labels: "3 g per 15 g" beside "2 g per 7 g".

    A figure without a name is the carbohydrate; a serving may be by the spoon where its food is named.
    """
    pair = [_quoted(words, library, region) for words in (first, second)]
    assumed = "" if region else "taking both for US labels"
    found = labels.compare(pair[0], pair[1])
    ratio = found.first.measure if found.first.measure.value <= 0 else found.second.measure / found.first.measure
    low = found.second.ends[0] / max(found.first.ends[1], 1e-9)
    high = found.second.ends[1] / found.first.ends[0] if found.first.ends[0] > 0 else float("inf")
    if found.first.measure.value <= 0 or high == float("inf"):
        raise InvalidMeasure(
            "the first label may hold none at all, so nothing is times as much", "put the other one first"
        )
    value = ratio.value
    main = figure(Sum(ratio.to(""), (found.words,), min(low, value), max(high, value)))
    main = replace(main, text=f"{show_range(value, value, '')} times")
    return {
        **sum_shape(f"{first.strip()} / {second.strip()}", "", main, assumed),
        "first": worked_shape(figure(found.first, as_range=True)),
        "second": worked_shape(figure(found.second, as_range=True)),
        "explained": found.explained,
        "verdict": found.words,
    }


def _quoted(words: str, library: Library, region: str) -> labels.Label:
    found = find_labels(words, "carbohydrate")
    if not found or found[0].serving is None:
        raise InvalidMeasure(f"no label in {words!r}", 'write it like "3 g per 15 g"')
    asked = asked_of(words, tuple(find_amounts(words)), (), library, region)
    return plainly(lambda: label_of(found[0], asked, region or "US")).label
