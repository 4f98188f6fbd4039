"""The sums as a page has them: a line or two to type for each, and the result with its working and slips."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from qa.calculator import Sums
from qa.errors import InvalidMeasure, LevelspoonError
from qa.knowledge.library import Library
from qa.measures.show import show_range
from qa.web.sheets.slips import Slip, slips

Typed = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Box:
    """One thing to type: its name in the form, what it is, and an example."""

    name: str
    label: str
    example: str


@dataclass(frozen=True, slots=True)
class Line:
    """One result: what it is, the value, its range, and the working line by line."""

    what: str
    value: str
    spread: str
    working: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a sum came to, or why it could not be done."""

    lines: tuple[Line, ...] = ()
    notes: tuple[str, ...] = ()
    slips: tuple[Slip, ...] = ()
    fault: str = ""


@dataclass(frozen=True, slots=True)
class SumPart:
    """One sum on the sheet, with what was typed and what it came to."""

    key: str
    title: str
    about: str
    boxes: tuple[Box, ...]
    typed: Typed
    outcome: Outcome | None


Found = tuple[Mapping[str, Any], list[tuple[str, Mapping[str, Any] | None]], list[str]]
"""A sum's shape, its results in the order of the page with what each is, and what to note."""


@dataclass(frozen=True, slots=True)
class _Sum:
    key: str
    title: str
    about: str
    boxes: tuple[Box, ...]
    work: Callable[[Typed, Sums], Found]


def sums_sheet(asked: str, typed: Typed, library: Library, region: str) -> tuple[SumPart, ...]:
    """Every sum; the one asked for with its outcome. `region` is the channel's, where none is typed."""
    parts = []
    for one in _SUMS:
        said = {box.name: typed.get(box.name, "") for box in (*one.boxes, _REGION)} if one.key == asked else {}
        found = outcome(one.work, said, library, said["region"] or region) if said else None
        parts.append(SumPart(one.key, one.title, one.about, (*one.boxes, _REGION), said, found))
    return tuple(parts)


def outcome(work: Callable[[Typed, Sums], Found], typed: Typed, library: Library, region: str) -> Outcome:
    """What a sum came to; what cannot be done is said in one line."""
    try:
        shape, parts, notes = work(typed, Sums.of(library, region))
    except LevelspoonError as fault:
        return Outcome(fault=str(fault))
    lines = tuple(_line(what, part) for what, part in parts if part)
    facts = [fact for _, part in parts if part for fact in part["facts"]]
    said = [word[:1].upper() + word[1:] for word in (shape["assumed"], *notes) if word]
    return Outcome(lines, tuple(dict.fromkeys(said)), slips(facts, library))


def _line(what: str, part: Mapping[str, Any]) -> Line:
    spread = show_range(part["low"], part["high"], part["unit"]) if part["low"] != part["high"] else ""
    return Line(what, part["text"], "" if spread == part["text"] else spread, tuple(part["working"].split("\n")))


def _weigh(typed: Typed, sums: Sums) -> Found:
    found = sums.weigh(typed["amount"])
    others = [(f"By {other['source']}", other) for other in found["others"]]
    return found, [("It comes to", found), *others], [found["disagreement"]]


def _swap(typed: Typed, sums: Sums) -> Found:
    found = sums.swap(typed["amount"], typed["use"])
    notes = [
        _sentence("What changes", found["changes"]),
        _sentence("Besides", found["extra"]),
        _sentence("It holds for", found["holds"]),
        _sentence("Not when", found["not_when"]),
        found["references"],
    ]
    return found, [("Use", found)], notes


def _sentence(lead: str, words: str) -> str:
    return f"{lead}: {words}." if words else ""


def _carbs(typed: Typed, sums: Sums) -> Found:
    found = sums.carbs(typed["food"])
    parts = [(f"Digestible{', label of ' if r['region'] else ''}{r['region']}", r) for r in found["readings"]]
    return found, list(parts), [note for reading in found["readings"] for note in reading["notes"]]


def _leaven(typed: Typed, sums: Sums) -> Found:
    acids = tuple(part.strip() for part in typed["acids"].split(",") if part.strip())
    found = sums.leaven(typed["amount"], acids)
    powder = found["soda_spoons"] is not None or found["share"] is None
    parts: list[tuple[str, Mapping[str, Any] | None]] = [
        ("Soda that stands in" if powder else "Soda left over", found),
        ("That is", found["soda_spoons"]),
        ("Cream of tartar" if powder else "Cream of tartar that would use it up", found["tartar"]),
        ("That is", found["tartar_spoons"]),
        ("Share of the soda used up", found["share"]),
        ("Gas freed", found["gas"]),
        ("Lifts like baking powder", found["as_powder"]),
    ]
    signs = _sentence("Soda left over shows", ", ".join(found["signs"]))
    return found, parts, [signs, found["verdict"]]


def _sweeten(typed: Typed, sums: Sums) -> Found:
    found = sums.sweeten(typed["sugar"], typed["use"])
    parts = [
        ("As sweet", found),
        ("Bulk to make up", found["bulk_lost"]),
        ("Energy saved", found["energy_saved"]),
    ]
    return found, list(parts), [found["changes"]]


def _scale(typed: Typed, sums: Sums) -> Found:
    pans = (typed["pan"], typed["to"]) if typed["pan"].strip() and typed["to"].strip() else None
    times = None if pans else _number(typed["times"])
    found = sums.scale(typed["amount"], times=times, pans=pans, episode=typed["episode"].strip())
    lines = [(f"{line['ingredient'].replace('-', ' ')}, was {line['was']}", line) for line in found["lines"]]
    main = [("It comes to", found)] if typed["amount"].strip() else []
    return found, [("Times", found["factor"]), *main, *lines], list(found["watch"])


def _number(words: str) -> float:
    try:
        return float(words.strip().replace(",", "."))
    except ValueError:
        raise InvalidMeasure(f"{words.strip()!r} is no number", "write it like 1.5, or name two pans") from None


def _heat(typed: Typed, sums: Sums) -> Found:
    if typed["altitude"].strip():
        found = sums.altitude(typed["altitude"])
        return found, [("Water boils at", found)], list(found["cautions"])
    found = sums.oven(typed["oven"])
    scales = (("celsius", "Celsius"), ("fahrenheit", "Fahrenheit"), ("gas_mark", "Gas"), ("fan", "Fan oven"))
    parts: list[tuple[str, Mapping[str, Any] | None]] = []
    for reading in found["readings"]:
        shape: Mapping[str, Any] = reading
        parts += [(name, shape[key]) for key, name in scales]
    return found, parts, list(found["cautions"])


def _check(typed: Typed, sums: Sums) -> Found:
    found = sums.check_sum(typed["sum_said"])
    return found, [("It is right:" if found["right"] else "It should be", found)], [found["verdict"]]


_REGION = Box("region", "Measures and labels of", "US")
_SUMS = (
    _Sum(
        "weigh",
        "Weigh",
        "spoons and cups to grams, and back",
        (Box("amount", "How much of what", "2 tbsp potato starch"),),
        _weigh,
    ),
    _Sum(
        "swap",
        "Swap",
        "how much of another ingredient stands in",
        (Box("amount", "The recipe says", "1 tbsp ground flax"), Box("use", "You have", "ground chia")),
        _swap,
    ),
    _Sum(
        "carbs",
        "Carbs",
        "digestible carbohydrate of a food or a label",
        (Box("food", "A food, or what the label prints", "14 g carbs 38 g fibre per 100 g"),),
        _carbs,
    ),
    _Sum(
        "leaven",
        "Leaven",
        "what stands in for baking powder; soda against its acids",
        (
            Box("amount", "Baking powder or soda", "1/4 tsp baking soda"),
            Box("acids", "Acids, commas between", "1/2 tsp cream of tartar"),
        ),
        _leaven,
    ),
    _Sum(
        "sweeten",
        "Sweeten",
        "as sweet with something else",
        (Box("sugar", "Sugar in the recipe", "100 g sugar"), Box("use", "You want to use", "erythritol")),
        _sweeten,
    ),
    _Sum(
        "scale",
        "Scale",
        "an amount or an episode's recipe, times a number or from pan to pan",
        (
            Box("amount", "How much of what", "500 g flour"),
            Box("episode", "Or the recipe of", "seed-eggs"),
            Box("times", "Times", "1.5"),
            Box("pan", "Or from the pan", "20 cm round"),
            Box("to", "to the pan", "23 cm round"),
        ),
        _scale,
    ),
    _Sum(
        "heat",
        "Heat",
        "°C, °F, gas mark and fan; where water boils",
        (Box("oven", "The recipe says", "350 F"), Box("altitude", "Or boiling at", "1500 m")),
        _heat,
    ),
    _Sum(
        "check",
        "Check",
        "somebody's own sum",
        (Box("sum_said", "They say", "500 g flour and 350 g water is 70 %"),),
        _check,
    ),
)
