"""Source slips: one fact as it lies in the margin, with what other sources say of the same thing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from markupsafe import Markup

from qa.errors import InvalidMeasure, NoKnowledge, Place
from qa.knowledge.facts import Fact, Manner, Swap
from qa.knowledge.library import Library
from qa.measures.show import plain, unit_name
from qa.web.drawn import Row, forest
from qa.web.words import measure_words, tier_words

_MOST_ROWS = 6


@dataclass(frozen=True, slots=True)
class Slip:
    """A fact, swap or way of filling, in words.

    Attributes:
        title: what it is about.
        value, spread: as written down, and the range it is held to lie in; value alone for a fact in words.
        tier: in words.
        source, where: the citation and the place in it.
        conditions: under which it holds, 'packing: level'.
        place: the file and line it was read from.
        invented: the source is made up for demonstration.
        plot: other sources beside it, empty where there are none.
    """

    id: str
    title: str
    value: str
    spread: str
    tier: str
    source: str
    where: str
    conditions: str
    note: str
    place: Place
    invented: bool = False
    plot: Markup = field(default_factory=Markup)


def slip(key: str, library: Library) -> Slip | None:
    """The slip of a fact, swap or way of filling; None for what is no entry of the knowledge (a count of reports)."""
    try:
        said = library.said(key)
    except NoKnowledge:
        return None
    source = library.source(said.source)
    value, spread = _value(said)
    return Slip(
        id=key,
        title=_title(said, library),
        value=value,
        spread=spread,
        tier=tier_words(said.tier),
        source=source.citation,
        where=said.where,
        conditions="; ".join(f"{name.replace('_', ' ')}: {text}" for name, text in said.conditions)
        if isinstance(said, Fact)
        else "",
        note=said.changes if isinstance(said, Swap) else said.note,
        place=said.place,
        invented=source.invented,
        plot=comparison(said, library) if isinstance(said, Fact) else Markup(""),
    )


def slips(keys: Iterable[str], library: Library) -> tuple[Slip, ...]:
    """The slips of several ids, each once, in their order; ways of filling come last."""
    found = (slip(key, library) for key in sorted(dict.fromkeys(keys), key=lambda key: key.startswith("measure.")))
    return tuple(one for one in found if one is not None)


def _title(said: Fact | Swap | Manner, library: Library) -> str:
    if isinstance(said, Fact):
        return f"{item_name(said.item, library)}, {said.property}"
    if isinstance(said, Swap):
        return f"{item_name(said.use, library)} for {item_name(said.replace, library)}, by {said.by}"
    return f"a spoonful filled {said.word}"


def item_name(item: str, library: Library) -> str:
    """What an item is called; its id where nobody has named it."""
    try:
        return library.name(item)
    except NoKnowledge:
        return item


def _value(said: Fact | Swap | Manner) -> tuple[str, str]:
    if isinstance(said, Fact):
        return measure_words(said.measure) if said.measure is not None else (said.words, "")
    if isinstance(said, Swap):
        value, spread = measure_words(said.ratio)
        return f"{value} for one", spread
    value, spread = measure_words(said.factor)
    return f"{value} × level", spread


def comparison(fact: Fact, library: Library) -> Markup:
    """The same property of the same form by every source, the one used marked; empty where only one says anything."""
    if fact.measure is None:
        return Markup("")
    unit = fact.measure.unit
    rows = []
    for other in library.facts(fact.item, fact.property):
        if other.measure is None:
            continue
        try:
            value = other.measure.to(unit)
        except InvalidMeasure:
            continue
        source = library.source(other.source)
        label = _label(other, "weighed here" if other.tier == "measured" else source.short or source.id)
        rows.append(Row(label, value.low, value.value, value.high, used=other.id == fact.id))
    shown = sorted(rows, key=lambda row: not row.used)[:_MOST_ROWS]
    return forest(shown, unit_name(unit, 2.0))


def _label(fact: Fact, source: str) -> str:
    packing = fact.condition("packing")
    name = source.removeprefix("the ").removeprefix("our own ")
    return f"{name}, {packing}" if packing and packing != "not stated" else name


def spread_of(low: float, high: float, unit: str) -> str:
    """A range in words."""
    return f"{plain(low)} to {plain(high)} {unit_name(unit, high)}".strip()
