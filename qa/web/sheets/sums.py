"""The sums as a page has them: one line to type for each, and the result with its working and slips."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from qa import calculator
from qa.errors import InvalidMeasure, LevelspoonError, NoKnowledge
from qa.kitchen import heat, labels, leavening, scaling, sweetness
from qa.kitchen.pans import Pan
from qa.kitchen.sums import Sum
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.show import show_range, unit_name
from qa.web.sheets.slips import Slip, item_name, slips


@dataclass(frozen=True, slots=True)
class Box:
    """One thing to type: its name in the form, what it is, an example; `long` for several lines."""

    name: str
    label: str
    example: str
    long: bool = False


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
    typed: Mapping[str, str]
    outcome: Outcome | None


def _line(what: str, found: Sum) -> Line:
    return Line(what, found.text, show_range(*found.ends, found.unit), found.working)


def _weigh(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    found = calculator.weigh(typed["amount"], library, region)
    line = Line("It weighs" if found["unit"] == "g" else "That is", found["text"], _range(found), _working(found))
    return Outcome((line,), _notes(found["assumed"]), slips(found["facts"], library))


def _swap(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    found = calculator.swap(typed["amount"], typed["use"], library, region)
    line = Line("Use", found["text"], _range(found), _working(found))
    changes = f"What changes: {found['changes']}." if found["changes"] else ""
    holds = f"It holds for {found['holds']}." if found["holds"] else ""
    unless = f"Not when: {found['not_when']}." if found["not_when"] else ""
    extra = f"Besides: {found['extra']}." if found["extra"] else ""
    return Outcome((line,), _notes(found["assumed"], changes, extra, holds, unless), slips(found["facts"], library))


def _range(found: Mapping[str, object]) -> str:
    low, high, unit = found["low"], found["high"], found["unit"]
    assert isinstance(low, float | int)  # noqa: S101
    assert isinstance(high, float | int)  # noqa: S101
    return show_range(low, high, str(unit))


def _working(found: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(str(found["working"]).split("\n"))


def _notes(*words: str) -> tuple[str, ...]:
    return tuple(word[:1].upper() + word[1:] for word in words if word)


def _carbs(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    del library
    country = (typed["country"] or region).strip().upper() or None
    serving = _grams(typed["serving"])
    label = labels.Label(country, serving, typed["carbohydrate"] or None, typed["fibre"] or None)
    amount = _grams(typed["eaten"]) if typed["eaten"].strip() else None
    readings = labels.carbs(label, amount)
    lines = tuple(_line(f"Digestible, label of {reading.region}", reading.sum) for reading in readings)
    return Outcome(lines, tuple(dict.fromkeys(note for reading in readings for note in reading.notes)))


def _grams(words: str) -> Measure:
    return Measure.exact(_number(words.lower().removesuffix("g")), "g")


def _number(words: str) -> float:
    try:
        return float(words.strip().replace(",", "."))
    except ValueError:
        raise InvalidMeasure(f"{words.strip()!r} is no number", "write it like 12.5") from None


def _leaven(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    soda, used = _mass(typed["soda"], library, region)
    acids = []
    for part in typed["acids"].split(","):
        if part.strip():
            _, item = calculator.amount_of(part, library, region)
            mass, facts = _mass(part, library, region)
            value = _share("neutralising value", item, library)
            acids.append((item_name(item, library), mass, value))
            used += (*facts, *value.facts)
    found = leavening.leaven(soda, acids)
    lines = (
        _line("Soda used up", found.balance.share),
        _line("Soda left over", found.balance.spare),
        _line("Cream of tartar that would use it up", found.tartar),
        _line("Lifts like baking powder", found.as_powder),
    )
    signs = f"Spare soda shows: {', '.join(found.balance.signs)}." if found.balance.signs else ""
    return Outcome(lines, _notes(signs), slips(used, library))


def _mass(words: str, library: Library, region: str) -> tuple[Measure, tuple[str, ...]]:
    """Grams of an amount as typed, with the facts behind them."""
    found = calculator.weigh(words, library, region)
    spread = (found["high"] - found["low"]) / 4
    return Measure.of(found["value"], "g", spread=max(0.0, spread)), tuple(found["facts"])


def _share(name: str, item: str, library: Library) -> Measure:
    for fact in library.facts(library.usual(item), name):
        if fact.measure is not None:
            return fact.measure
    raise NoKnowledge(f"nobody has told the {name} of {item_name(item, library)}", "add it to the larder")


def _sweeten(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    sugar, _ = _mass(f"{typed['sugar']} sugar", library, region)
    item = library.usual(calculator.item_of(typed["use"], library, region))
    told = _share("sweetness", item, library)
    strength = sweetness.Sweetness.of(told.low, told.value, told.high)
    found = sweetness.sweeten(sugar, strength, item.partition(".")[0])
    lines = (_line("As sweet", found.amount), _line("Bulk to make up", found.bulk))
    return Outcome(lines, _notes(found.words), slips(told.facts, library))


def _scale(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    del library, region
    grams = {}
    for row in typed["recipe"].splitlines():
        found = re.fullmatch(r"\s*(.+?)[\s:]+([\d.,]+)\s*g?\s*", row)
        if row.strip() and not found:
            raise InvalidMeasure(f"{row.strip()!r} is no line of a recipe", "write it like: flour 250 g")
        if found:
            grams[found[1]] = _number(found[2])
    tins = re.findall(r"[\d.]+", typed["tins"])
    if len(tins) == 2:
        old, new = (Pan("round", (float(size),), "cm") for size in tins)
        made = scaling.scale(grams, pans=(old, new))
    else:
        made = scaling.scale(grams, times=_number(typed["times"]))
    lines = (_line("Times", made.factor), *(Line(name, one.text, "", ()) for name, one in made.lines.items()))
    return Outcome(lines, _notes(*made.watch))


def _heat(typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    del library, region
    found = re.fullmatch(r"\s*(gas(?: mark)?)?\s*([\d.]+)\s*°?\s*([cf])?\s*", typed["oven"], re.IGNORECASE)
    if not found:
        raise InvalidMeasure(f"{typed['oven'].strip()!r} is no oven setting", "write it like 350 F, 180 C or gas 4")
    unit = "gas_mark" if found[1] else {"c": "degC", "f": "degF"}.get((found[3] or "").lower(), "deg")
    lines: list[Line] = []
    notes: dict[str, None] = {}
    for reading in heat.oven(_number(found[2]), unit):
        lines += (_line(unit_name(scale) or scale, one) for scale, one in reading.on.items())
        lines += [_line("Fan oven", reading.fan)] if reading.fan else []
        notes |= dict.fromkeys(reading.cautions)
    return Outcome(tuple(lines), _notes(*notes))


_Work = Callable[[Mapping[str, str], Library, str], Outcome]
_SUMS: tuple[tuple[str, str, str, tuple[Box, ...], _Work], ...] = (
    (
        "weigh",
        "Weigh",
        "spoons and cups to grams, and back",
        (Box("amount", "How much of what", "2 tbsp potato starch"),),
        _weigh,
    ),
    (
        "swap",
        "Swap",
        "how much of another ingredient stands in",
        (Box("amount", "The recipe says", "1 tbsp ground flax"), Box("use", "You have", "ground chia")),
        _swap,
    ),
    (
        "carbs",
        "Carbs",
        "digestible carbohydrate, by the country of the label",
        (
            Box("country", "Country of the label", "UK"),
            Box("serving", "Serving, in g", "100"),
            Box("carbohydrate", "Carbohydrate printed", "14"),
            Box("fibre", "Fibre printed", "38"),
            Box("eaten", "For how many g", ""),
        ),
        _carbs,
    ),
    (
        "leaven",
        "Leaven",
        "soda against the acids of a recipe",
        (Box("soda", "Soda", "1/2 tsp baking soda"), Box("acids", "Acids, commas between", "1 tbsp lemon juice")),
        _leaven,
    ),
    (
        "sweeten",
        "Sweeten",
        "as sweet with something else",
        (Box("sugar", "Sugar in the recipe", "100 g"), Box("use", "You want to use", "erythritol")),
        _sweeten,
    ),
    (
        "scale",
        "Scale",
        "a recipe times a number, or from one round tin to another",
        (
            Box("recipe", "Recipe in grams, a line each", "flour 250\nbutter 100", long=True),
            Box("times", "Times", "1.5"),
            Box("tins", "Or round tins in cm, old and new", "20, 23"),
        ),
        _scale,
    ),
    ("heat", "Heat", "°C, °F, gas mark and fan", (Box("oven", "The recipe says", "350 F"),), _heat),
)


def sums_sheet(asked: str, typed: Mapping[str, str], library: Library, region: str) -> tuple[SumPart, ...]:
    """Every sum; the one asked for with its outcome."""
    return tuple(
        SumPart(
            key,
            title,
            about,
            boxes,
            {box.name: typed.get(box.name, "") for box in boxes} if key == asked else {},
            outcome(work, {box.name: typed.get(box.name, "") for box in boxes}, library, region)
            if key == asked
            else None,
        )
        for key, title, about, boxes, work in _SUMS
    )


def outcome(work: _Work, typed: Mapping[str, str], library: Library, region: str) -> Outcome:
    """What a sum came to; what cannot be done is said in one line."""
    try:
        return work(typed, library, region)
    except LevelspoonError as fault:
        return Outcome(fault=str(fault))
