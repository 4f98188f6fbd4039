"""A dough's hydration, with the water hidden in milk or egg and a starter's flour and water; its percentages."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import reduce

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen import formulas
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount, find_amounts
from qa.measures.show import plain
from qa.measures.units import dimension
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import Named, named_amounts, theirs
from qa.text import listed

_SUMS = ("dough", "plain dough", "starter dough", "bakers percentages")
_STARTER = "sourdough-starter"
_OF_STARTER = re.compile(r"\b(?:starter|levain|leaven|sourdough)\b[^.;\d]{0,24}$", re.IGNORECASE)
_FLOURS = frozenset(("flour", "starch"))
# A claim counts as right within one in the hundred, or half of its last digit: as check_sum has it.
_NEAR = 0.01


@dataclass(frozen=True, slots=True)
class Dough:
    """A dough as written.

    Attributes:
        text: the words it was read from.
        lines: grams by item; a starter's flour and water are counted as flour and water.
        flours: the items that count as flour.
        shares: the share of water in what holds some, besides water itself.
        starter: the starter's item, or ''.
        claimed: the hydration that the writer worked out, if any.
    """

    text: str
    lines: dict[str, Measure]
    flours: tuple[str, ...]
    shares: dict[str, Measure]
    starter: str
    claimed: Amount | None

    def hydration(self, *, hidden: bool) -> Sum:
        """Water per flour, with what hides in other things or without."""
        bare = {name: mass for name, mass in self.lines.items() if name not in self.shares}
        try:
            if hidden or "water" not in bare:
                return formulas.hydration(self.lines, self.flours, self.shares)
            return formulas.hydration(bare, self.flours, {})
        except (InvalidMeasure, NoKnowledge) as fault:
            raise Missing("missing_detail", str(fault)) from fault


def dough(asked: Asked, part: str) -> Figure | str:
    """A part of a dough's sum.

    'plain' counts flour and water alone, 'line' with its working, 'total' all water; 'verdict' (a word) judges the
    'claimed' hydration by the plain one. 'hidden' names what else holds water, 'amount' and 'share' are of the first of
    it, 'water' is the water in all of it; 'several' is a word where more than one thing holds some, 'starter' the name
    of a starter.
    """
    found = _read(asked)
    return _PARTS[part](found, asked)


def _read(asked: Asked) -> Dough:
    text = asked.showing(*_SUMS)
    lines = _masses(asked, text)
    flours = tuple(item for item in lines if _is_flour(item, asked.library))
    if not flours:
        raise Missing("missing_ingredient", "the dough has no flour")
    starter = next((item for item in lines if item.startswith(_STARTER)), "")
    if starter:
        lines = _opened(lines, starter, flours[0], _starter_hydration(text))
    others = [item for item in lines if item not in flours]
    shares = {item: share for item in others if (share := _water_share(item, asked.library))}
    claimed = next((a for a in find_amounts(text) if a.unit == "percent" and not _is_of_starter(text, a)), None)
    return Dough(text, lines, flours, shares, starter, claimed)


def _plain(found: Dough, _: Asked) -> Figure:
    return figure(found.hydration(hidden=False))


def _total(found: Dough, _: Asked) -> Figure:
    return figure(found.hydration(hidden=True))


def _line(found: Dough, _: Asked) -> Figure:
    """'350 ÷ 500 = 70 %', where there is plain water."""
    shown = figure(found.hydration(hidden=False))
    if "water" not in found.lines:
        return shown
    flour = sum(found.lines[name].value for name in found.flours)
    return replace(shown, text=f"{plain(found.lines['water'].value)} ÷ {plain(flour)} = {shown.text}")


def _verdict(found: Dough, _: Asked) -> str:
    if found.claimed is None:
        return ""
    right = found.hydration(hidden=False).measure
    near = max(_NEAR * right.value, 0.5, 2 * right.spread)
    return "right" if abs(found.claimed.value - right.value) <= near + 1e-9 else "wrong"


def _claimed(found: Dough, _: Asked) -> Figure:
    if found.claimed is None:
        raise Missing("missing_amount", "no hydration was claimed")
    return theirs(found.text, found.claimed.start, found.claimed.end, found.claimed)


def _hidden(found: Dough, asked: Asked) -> str:
    return listed([asked.library.name(item, asked.region or None) for item in found.shares])


def _first(found: Dough) -> str:
    if not found.shares:
        raise Missing("missing_ingredient", "nothing else in the dough is known to hold water")
    return next(iter(found.shares))


def _share(found: Dough, _: Asked) -> Figure:
    share = found.shares[_first(found)].to("percent")
    return figure(Sum(share, (f"{_first(found)} is {plain(share.value)} % water",)))


def _amount(found: Dough, asked: Asked) -> Figure:
    said = next(named.amount for named in _named(asked, found.text) if named.item == _first(found))
    return theirs(found.text, said.start, said.end, said)


def _water(found: Dough, _: Asked) -> Figure:
    _first(found)
    waters = {item: (found.lines[item] * share.to("percent")).to("g") for item, share in found.shares.items()}
    working = tuple(
        f"{item}: {plain(found.lines[item].value)} g × {plain(found.shares[item].to('percent').value)} % water"
        f" = {plain(water.value)} g"
        for item, water in waters.items()
    )
    return figure(Sum(reduce(lambda one, other: one + other, waters.values()), working))


def _several(found: Dough, _: Asked) -> str:
    return "yes" if len(found.shares) > 1 or (found.shares and "water" not in found.lines) else ""


def _starter(found: Dough, asked: Asked) -> str:
    return asked.library.name(found.starter, asked.region or None) if found.starter else ""


_PARTS: dict[str, Callable[[Dough, Asked], Figure | str]] = {
    "plain": _plain, "total": _total, "line": _line, "verdict": _verdict, "claimed": _claimed, "hidden": _hidden,
    "share": _share, "amount": _amount, "water": _water, "several": _several, "starter": _starter,
}  # fmt: skip


def bakers(asked: Asked, number: str) -> Figure | str:
    """What was named in that place beside the flour, in percent of all flour; '' where there is none."""
    found = list(_percentages(asked).values())
    place = int(number) - 1
    return figure(found[place]) if place < len(found) else ""


def bakers_thing(asked: Asked, number: str) -> str:
    """Its name."""
    found = list(_percentages(asked))
    place = int(number) - 1
    return asked.library.name(found[place], asked.region or None) if place < len(found) else ""


def _percentages(asked: Asked) -> dict[str, Sum]:
    lines = _masses(asked, asked.showing(*_SUMS))
    flours = [item for item in lines if _is_flour(item, asked.library)]
    if not flours or len(lines) < 2:
        raise Missing("missing_amount", "the dough's flour or its other parts are not said")
    found = formulas.bakers_percentages(lines, flours)
    return {item: share for item, share in found.items() if item not in flours}


def _is_of_starter(text: str, amount: Amount) -> bool:
    """Whether a percentage says how wet a starter is, not the dough: "100 g starter at 100 %"."""
    return bool(_OF_STARTER.search(text[max(0, amount.start - 40) : amount.start]))


def _starter_hydration(text: str) -> float:
    """Water per flour of the starter: as said, else equal parts, which is what most keep (common practice)."""
    said = next((a.value for a in find_amounts(text) if a.unit == "percent" and _is_of_starter(text, a)), 100.0)
    return said / 100


def _opened(lines: Mapping[str, Measure], starter: str, flour: str, hydration: float) -> dict[str, Measure]:
    """The dough with a starter's flour and water counted as such."""
    opened = {item: mass for item, mass in lines.items() if item != starter}
    dry = lines[starter] / (1 + hydration)
    wet = dry * hydration
    opened[flour] = opened[flour] + dry
    opened["water"] = opened["water"] + wet if "water" in opened else wet
    return opened


def _named(asked: Asked, text: str) -> tuple[Named, ...]:
    return named_amounts(text, asked.library, asked.region)


def _masses(asked: Asked, text: str) -> dict[str, Measure]:
    """Grams of everything named with its amount; a plain number counts grams, as bakers write it."""
    found: dict[str, Measure] = {}
    for amount, named in _named(asked, text):
        if amount.unit in ("percent", "degC", "degF", "min", "h"):
            continue
        mass = _grams(amount, named, asked)
        item = "water" if named.startswith("water") else named
        found[item] = found[item] + mass if item in found else mass
    if not found:
        raise Missing("missing_amount", "the ask gives no amounts with their ingredients")
    return found


def _grams(amount: Amount, item: str, asked: Asked) -> Measure:
    unit = amount.unit or ("each" if amount.value <= 12 and item.startswith("egg") else "g")
    written = replace(amount, unit=unit)
    if dimension(asked.resolved(written).unit) not in ("mass", "volume", "count"):
        raise Missing("missing_measure", f"{amount.value:g} {amount.unit} is no weight")
    return asked.grams(written, item).measure.to("g")


def _is_flour(item: str, library: Library) -> bool:
    return library.has(item) and library.ingredient(item).family in _FLOURS


def _water_share(item: str, library: Library) -> Measure | None:
    """The share of water in what is not water itself, flour or salt: a fact, or nothing."""
    if item == "water" or library.ingredient(item).family in ("salt", "yeast", "leavener"):
        return None
    fact = next((f for f in library.facts(item, "water") if f.measure is not None), None)
    return fact.measure if fact else None
