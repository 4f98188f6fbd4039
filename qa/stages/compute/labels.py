"""Labels the asker quotes: digestible carbohydrate by region, and whether rounding can explain two of them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from qa.errors import InvalidMeasure, Missing
from qa.kitchen import labels, weights
from qa.kitchen.label_rules import FIBRE_INSIDE, FIBRE_OUTSIDE, label_interval
from qa.kitchen.read_labels import SaidLabel, find_labels
from qa.kitchen.sums import Sum, figure
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.resolve import resolve
from qa.measures.show import show_range
from qa.measures.units import dimension
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import item_named_first, theirs

# How a sentence calls the labels of a region.
_PLACES = {
    "US": "US", "CA": "Canadian", "JP": "Japanese", "UK": "UK", "IE": "Irish", "EU": "European", "AU": "Australian",
    "NZ": "New Zealand", "ZA": "South African",
}  # fmt: skip
_HUNDRED = 100.0
_OWN_LINES = ("carbohydrate", "fibre", "net", "allulose")


@dataclass(frozen=True, slots=True)
class Quoted:
    """A label as quoted and as the sums want it; whether a serving was said at all."""

    said: SaidLabel
    label: labels.Label
    with_serving: bool


def label_of(said: SaidLabel, asked: Asked, region: str | None, number: int = 1) -> Quoted:
    """The label for the sums; a serving by the spoon is weighed by the facts of the food it is of."""
    serving = _grams(said, asked, number)
    polyols = tuple((name, line.printed) for name, line in said.lines.items() if name not in _OWN_LINES)
    printed = {name: said.lines[name].printed for name in _OWN_LINES if name in said.lines}
    label = labels.Label(region, serving, polyols=polyols, **printed)
    return Quoted(said, label, said.serving is not None)


def label(asked: Asked, part: str, number: str | None = None, region: str | None = None) -> Figure | str:
    """A part of the first label (or the one of that number), as its own region or as another one reads it."""
    sums = ("labels",) if number else ("label", "labels")
    quoted = _quoted(asked, int(number or 1), region, sums)
    said, text = quoted.said, asked.showing(*sums)
    if part in ("carbohydrate", "fibre"):
        line = said.lines.get(part) or (said.lines.get("net") if part == "carbohydrate" else None)
        if line is None:
            raise Missing("missing_amount", f"the label's {part} is not said")
        return theirs(text, line.start, line.end, Amount(line.value, line.value, line.value, "g"))
    if part == "serving":
        if said.serving is None:
            raise Missing("missing_amount", "the label's serving is not said")
        return theirs(text, said.serving.start, said.serving.end, said.serving)
    if part == "claimed":
        if said.claimed is None:
            raise Missing("missing_amount", "the asker worked nothing out")
        return theirs(text, *said.claimed_at, Amount(said.claimed, said.claimed, said.claimed, "g"))
    return _worked_out(quoted, part)


def _worked_out(quoted: Quoted, part: str) -> Figure | str:
    label = quoted.label
    if part == "place":
        return _PLACES.get(label.region or "", "")
    if part == "fibre counted":
        return "inside" if label.region in FIBRE_INSIDE else "outside" if label.region in FIBRE_OUTSIDE else "unknown"
    if part == "has":
        return "fibre" if "fibre" in quoted.said.lines else "serving" if quoted.with_serving else ""
    found = labels.digestible(label)[0]
    if part == "verdict":
        return _verdict(quoted.said.claimed, found.sum)
    if part == "digestible":
        return figure(found.sum)
    if part == "range":
        return figure(found.sum, as_range=True)
    return figure(labels.for_amount(found, Measure.exact(_HUNDRED, "g")), as_range=True)


def _verdict(claimed: float | None, found: Sum) -> str:
    if claimed is None:
        return ""
    low, high = found.ends
    return "right" if low - 1e-9 <= claimed <= high + 1e-9 else "wrong"


def printed_range(asked: Asked, number: str) -> Figure:
    """What the printed carbohydrate of a label can stand for: '2.5 to 3.5 g'."""
    label = _quoted(asked, int(number), None).label
    name, printed = ("net carbohydrate", label.net) if label.net is not None else ("carbohydrate", label.carbohydrate)
    interval = label_interval(printed or "", name, label.region or "US")
    working = f"printed {printed} g, by the rounding rule: {interval.text}"
    middle = (interval.low + interval.high) / 2
    shown = f"{interval.low:g} to {interval.high:g} g"
    return Figure(shown, middle, interval.low, interval.high, "g", interval.rules, working)


def compared(asked: Asked, part: str) -> Figure | str:
    """Two labels beside each other: 'verdict' ('rounding' or 'different'), or how far 'apart' they are as printed."""
    found = labels.compare(*(_quoted(asked, number, None).label for number in (1, 2)))
    if part == "verdict":
        return "rounding" if found.explained else "different"
    more, less = sorted((found.first, found.second), key=lambda one: -one.measure.value)
    if less.measure.value <= 0:
        raise Missing("missing_amount", "one of the labels prints nothing")
    ratio = more.measure / less.measure
    low, high = more.ends[0] / max(less.ends[1], 1e-9), more.ends[1] / max(less.ends[0], 1e-9)
    working = (*more.working[-1:], *less.working[-1:], found.words)
    text = show_range(ratio.value, ratio.value, "")
    return Figure(text, ratio.value, min(low, ratio.value), max(high, ratio.value), "", ratio.facts, "\n".join(working))


def _quoted(asked: Asked, number: int, region: str | None, sums: tuple[str, ...] = ("labels",)) -> Quoted:
    found = find_labels(asked.showing(*sums))
    if len(found) < number:
        raise Missing("missing_amount", "the ask quotes too few labels")
    own = region or asked.ask.region or None
    if own is None and len(found) > 1:
        own = "US"  # whole grams by the serving are an American habit; the answer says what was assumed
        asked.assume("taking both for US labels")
    try:
        return label_of(found[number - 1], asked, own, number)
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault


def _grams(said: SaidLabel, asked: Asked, number: int) -> Measure:
    """The serving in grams; nobody has a serving of nothing in particular by the spoon."""
    if said.serving is None:
        return Measure.exact(_HUNDRED, "g")  # stands for "the serving" where none was said; it cancels
    measure, assumed = resolve(replace(said.serving, unit=said.serving.unit or "g"), asked.region or None)
    asked.assume(assumed)
    if dimension(measure.unit) == "mass":
        return measure
    item = item_named_first(said.of, asked.library, asked.region) or asked.item("second" if number > 1 else "first")
    return weights.to_mass(measure, asked.density(item, measure.unit)).measure
