"""What the asker gives, in the measure they want: grams of spoons and sticks, cups of grams, a whole list of them."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import reduce

from qa.errors import Missing
from qa.kitchen import weights
from qa.kitchen.read_turns import Part, Turn, find_turn, sort_of
from qa.kitchen.sums import Sum, figure
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.resolve import HOUSEHOLD
from qa.measures.show import show
from qa.measures.units import dimension, known, regional
from qa.records import Figure, Numbered, quoted
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import closing, item_named_first, theirs
from qa.text import number_spans

_SIZE = re.compile(r"^\s?(extra large|jumbo|large|medium|small)\b", re.IGNORECASE)
_MANNER = re.compile(r"^\s?(?:of\s)?\(?(sifted|sieved|packed|heaped)\b", re.IGNORECASE)
_POURED = frozenset(("dairy", "plant-milk", "liquid", "syrup", "extract", "acid"))
_STICK = HOUSEHOLD["stick"]


def turned(asked: Asked, number: str) -> Figure | str:
    """The asker's amount of that number in the unit they want; '' where they gave fewer."""
    turn, text, place, part = _part(asked, number)
    if part is None:
        return ""
    if turn.kind == "units":
        return figure(same_sort(asked, part, turn.to))
    item = _items(asked, turn, text)[place]
    if turn.kind == "weights":
        grams = grams_of(asked, part, item, text)
        return figure(Sum(grams.measure.to(turn.to), grams.working))
    return _by_room(asked, part, item, text, turn.to)


def said(asked: Asked, number: str) -> Figure | str:
    """The asker's amount of that number as they wrote it; '' where they gave fewer."""
    _, text, _, part = _part(asked, number)
    if part is None:
        return ""
    return theirs(text, part.start, part.end, part.amounts[0])


def thing(asked: Asked, number: str) -> str:
    """The name of what the amount of that number is of; '' where there is none."""
    turn, text, place, part = _part(asked, number)
    if part is None:
        return ""
    name = _named(asked, _items(asked, turn, text)[place])
    counted = sort_of(part.amounts[0].unit) == "count" and part.amounts[0].value > 1
    return f"{name}s" if counted and not name.endswith("s") else name


def asked_part(asked: Asked, kind: str, *, with_item: bool = True) -> tuple[Part, str, str] | None:
    """The one amount that the asker wants turned, what it is of, and the text it stands in; None where none is read."""
    for text in (asked.ask.text, asked.ask.context):
        turn = find_turn(text)
        if turn is not None and turn.kind == kind:
            if len(turn.parts) > 1:
                raise Missing("missing_detail", "several amounts are asked about")
            return turn.parts[0], _items(asked, turn, text)[0] if with_item else "", text
    return None


def weight_wanted(text: str) -> str:
    """The unit of weight that a text asks for: ounces, pounds, else grams."""
    turn = find_turn(text)
    return turn.to if turn is not None and sort_of(turn.to) == "mass" else "g"


def asked_amount(asked: Asked) -> Figure:
    """The asker's own amount, as they wrote it, wherever in the comment it stands."""
    for kind in ("weights", "measures", "units"):
        for text in (asked.ask.text, asked.ask.context):
            turn = find_turn(text)
            if turn is not None and turn.kind == kind:
                part = turn.parts[0]
                return theirs(text, part.start, part.end, part.amounts[0])
    return quoted(asked.written("asked"), asked.ask)


def asked_thing(asked: Asked) -> str:
    """The name of what the asker's one amount is of, as it was read with the amount, else of what is asked about."""
    for kind in ("weights", "measures"):
        if found := asked_part(asked, kind):
            return _named(asked, found[1])
    return _named(asked, asked.named("first"))


def _named(asked: Asked, item: str) -> str:
    name = asked.library.name(asked.library.usual(item), asked.region or None)
    return Numbered(name) if number_spans(name) else name


def grams_of(asked: Asked, part: Part, item: str, text: str) -> Sum:
    """What a part weighs: its amounts added up, as often as was said."""
    found = [_grams(asked, amount, item, text) for amount in part.amounts]
    total = reduce(lambda one, other: one + other, (one.measure for one in found))
    working = tuple(line for one in found for line in one.working)
    if part.times != 1:
        total = total * part.times
        working = (*working, f"times {part.times:g} = {total.value:g} g")
    elif len(found) > 1:
        working = (*working, f"together {total.value:g} g")
    return Sum(total, working)


def _grams(asked: Asked, amount: Amount, item: str, text: str) -> Sum:
    if sort_of(amount.unit) == "count":
        size = _SIZE.match(text[amount.end :])
        return asked.pieces(amount, item, size[1].lower() if size else amount.unit)
    manner = _MANNER.match(text[amount.end :])
    if manner and not amount.manner:
        amount = replace(amount, manner={"sieved": "sifted"}.get(manner[1].lower(), manner[1].lower()))
    return asked.grams(amount, item)


def _turn(asked: Asked) -> tuple[Turn, str]:
    for text in (asked.ask.text, asked.ask.context):
        if turn := find_turn(text):
            return turn, text
    raise Missing("missing_amount", "the ask does not say an amount and the measure wanted")


def _part(asked: Asked, number: str) -> tuple[Turn, str, int, Part | None]:
    """What is to be turned, the text it stands in, and the part of that number with its place; None beyond the last."""
    turn, text = _turn(asked)
    place = int(number) - 1
    if not turn.parts:
        raise Missing("missing_amount", "the ask gives no amount")
    return turn, text, place, turn.parts[place] if place < len(turn.parts) else None


def _items(asked: Asked, turn: Turn, text: str) -> list[str]:
    """What each part is of: named after the amounts, or before them, or the one ingredient asked about."""
    ends = [*(part.start for part in turn.parts[1:]), len(text)]
    starts = [0, *(part.end for part in turn.parts[:-1])]
    library, region = asked.library, asked.region
    found = [
        item_named_first(text[part.end : end], library, region) for part, end in zip(turn.parts, ends, strict=True)
    ]
    if not found[-1] and closing(text[: turn.parts[0].start], library, region):
        found = [closing(text[at : part.start], library, region) for part, at in zip(turn.parts, starts, strict=True)]
    only = asked.ask.items[0] if len(asked.ask.ingredients) == 1 else ""
    if len(found) == 1 and only:
        found = [only]  # read through misspellings and context
    found = [item or only for item in found]
    if not all(found):
        raise Missing("missing_ingredient", "the ask does not say what each amount is of")
    return found


def same_sort(asked: Asked, part: Part, unit: str) -> Sum:
    """A weight in another unit of weight, or room in another unit of room."""
    measures = [asked.resolved(amount) for amount in part.amounts]
    total = reduce(lambda one, other: one + other, measures) * part.times
    wanted = own(asked, unit)
    other = total.to(wanted)
    return Sum(other, (f"{total.value:g} {total.unit} = {other.value:.6g} {wanted} by definition",))


def _by_room(asked: Asked, part: Part, item: str, text: str, unit: str) -> Figure:
    """Cups, spoons, millilitres or sticks of a weight; ounces of what is poured are taken for fluid ones."""
    item = asked.library.usual(item)
    if unit == "stick":
        return _sticks(grams_of(asked, part, item, text))
    if unit == "spoon":
        unit = "tbsp"
    poured = asked.library.ingredient(item).family in _POURED
    if poured and all(amount.unit == "oz" for amount in part.amounts):
        asked.assume("taking fluid ounces, since it is poured")
        fluid = tuple(replace(amount, unit="fl_oz") for amount in part.amounts)
        return figure(same_sort(asked, part._replace(amounts=fluid), unit))
    wanted = own(asked, unit)
    grams = grams_of(asked, part, item, text)
    filled = weights.to_volume(grams.measure, asked.density(item, wanted), wanted)
    return figure(Sum(filled.measure, (*grams.working, *filled.working)))


def _sticks(grams: Sum) -> Figure:
    share = grams.measure / Measure.of(_STICK.low, "g", fact=_STICK.rule)
    text = show(share.value, share.low, share.high, "stick")
    working = "\n".join((*grams.working, f"{grams.measure.value:g} g ÷ {_STICK.low:g} g = {share.value:.3g} sticks"))
    return Figure(text, share.value, share.low, share.high, "", share.facts, working)


def own(asked: Asked, unit: str) -> str:
    """A bare measure as the asker's region has it; the US one where none is known."""
    found = regional(unit, asked.region or None)
    if found is None:
        found = regional(unit, "US") or unit
        asked.assume("counting in US measures")
    if not known(found) or dimension(found) not in ("mass", "volume"):
        raise Missing("missing_measure", f"{unit} is no measure to turn into")
    return found
