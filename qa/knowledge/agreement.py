"""Do the sources of one property agree? The test, the rows of a forest plot, and the sentence a reply would use.

Sources are never averaged. Two of them disagree where their normalised error is beyond 1: their gap over two combined
standard spreads (E_n of ISO 13528 and ISO/IEC 17043), each spread with what printed digits leave out (`spreads`).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from qa.kitchen.sums import Sum, figure, full_unit
from qa.knowledge.facts import Fact
from qa.knowledge.library import Library
from qa.knowledge.spreads import spread_with_kin, spreads_apart
from qa.measures.measure import COVERAGE, Measure
from qa.measures.show import unit_name
from qa.records import TIERS, Figure
from qa.text import number_spans

Verdict = Literal["agree", "differ for a stated reason", "differ"]
_SPOONS = ("tsp", "tbsp", "cup")
_UNSAID = frozenset(("", "not stated"))


@dataclass(frozen=True, slots=True)
class Row:
    """One fact in the common unit, with the range that its source and what printed digits leave out allow."""

    fact: Fact
    label: str
    low: float
    value: float
    high: float


@dataclass(frozen=True, slots=True)
class Agreement:
    """What several sources say of one property of one item.

    Attributes:
        unit: what the rows are in; '' for a plain ratio.
        error: the largest normalised error between two sources; 0 where there is one source only.
        words: the sentence a reply would use for the conflict; '' where they agree.
        figures: the numbers in that sentence.
    """

    item: str
    property: str
    unit: str
    rows: tuple[Row, ...]
    error: float
    verdict: Verdict
    words: str = ""
    figures: tuple[Figure, ...] = ()


def normalised_error(first: Fact, second: Fact) -> float:
    """The normalised error of two facts of one property; beyond 1 they disagree."""
    return spreads_apart(first, second) / COVERAGE


def agreement(item: str, name: str, library: Library) -> Agreement | None:
    """The agreement of everything known of one property of an item; None unless two sources give a number."""
    facts = [fact for fact in library.facts(item, name) if fact.measure is not None]
    if len({fact.source for fact in facts}) < 2 or facts[0].measure is None:
        return None
    unit = facts[0].measure.unit
    rows = tuple(_row(fact, unit, library) for fact in facts)
    pairs = [(normalised_error(a, b), a, b) for a, b in combinations(facts, 2) if a.source != b.source]
    error, apart = max(far for far, _, _ in pairs), [pair for pair in pairs if pair[0] > 1]
    if not apart:
        return Agreement(item, name, full_unit(unit), rows, error, "agree")
    # A reply tells of the strongest two sources that disagree; a figure from memory only where there are no better.
    _, one, other = max(apart, key=lambda pair: (-max(_rank(pair[1]), _rank(pair[2])), pair[0]))
    first, second = sorted((one, other), key=_rank)
    reason, stated = _reason(first, second, library)
    words, figures = _sentence(first, second, unit, reason, library)
    verdict: Verdict = "differ for a stated reason" if stated else "differ"
    return Agreement(item, name, full_unit(unit), rows, error, verdict, words, figures)


def agreements(ingredient: str, library: Library) -> tuple[Agreement, ...]:
    """All properties of all forms of an ingredient that several sources give, in the order of the file."""
    wanted = dict.fromkeys((f.item, f.property) for f in library.knowledge.facts if _is_of(f.item, ingredient))
    found = (agreement(item, name, library) for item, name in wanted)
    return tuple(one for one in found if one is not None)


def _rank(fact: Fact) -> int:
    """The place of its tier, the strongest first."""
    return TIERS.index(fact.tier)


def _is_of(item: str, wanted: str) -> bool:
    return item == wanted or item.partition(".")[0] == wanted


def _row(fact: Fact, unit: str, library: Library) -> Row:
    measure = _in(fact, unit)
    reach = COVERAGE * spread_with_kin(fact, measure)
    low = measure.value - reach if measure.value < 0 else max(0.0, measure.value - reach)
    said = [text for _, text in fact.conditions if text not in _UNSAID]
    read = full_unit(fact.measure.unit).rpartition("/")[2] if fact.property == "bulk density" and fact.measure else ""
    by = [f"by the {unit_name(read)}"] if read.endswith(_SPOONS) and not unit.endswith(f"/{read}") else []
    label = ", ".join((short_source(fact, library), *by, *said))
    return Row(fact, label, low, measure.value, measure.value + reach)


def short_source(fact: Fact, library: Library) -> str:
    """How a sentence names where a fact comes from."""
    source = library.source(fact.source)
    return source.short or source.citation


def _in(fact: Fact, unit: str) -> Measure:
    assert fact.measure is not None  # noqa: S101 - only facts with a number come here
    return fact.measure.to(unit)


def _sentence(first: Fact, second: Fact, unit: str, reason: str, library: Library) -> tuple[str, tuple[Figure, Figure]]:
    """The conflict in a sentence, every number in it a figure."""
    one, other = (figure(Sum(_in(fact, unit), (_working(fact),))) for fact in (first, second))
    told = f"{one.text} by {short_source(first, library)} and {other.text} by {short_source(second, library)}"
    return f"{_lead(first, second)}: {told}, {reason}.", (one, other)


def _working(fact: Fact) -> str:
    return f"{fact.property} of {fact.item}, {fact.where or fact.source}"


def _lead(first: Fact, second: Fact) -> str:
    tiers = sorted({first.tier, second.tier}, key=TIERS.index)
    if tiers == ["published"]:
        return "Published figures differ"
    if tiers[0] == "measured":
        return f"What was measured in our kitchen and {_BESIDE[tiers[-1]]} differ"
    return f"{' and '.join(tiers).capitalize()} differ"


_BESIDE = {
    "measured": "measured there before",
    "published": "what is published",
    "common practice": "common practice",
    "viewers' reports": "what viewers report",
}


def _reason(first: Fact, second: Fact, library: Library) -> tuple[str, bool]:
    """Why they may differ, as a clause without numbers, and whether the sources' own conditions say so."""
    names = dict.fromkeys(name for fact in (first, second) for name, _ in fact.conditions)
    for name in names:
        one, other = first.condition(name), second.condition(name)
        if one not in _UNSAID and other not in _UNSAID and one != other:
            return f"because {_different(name, one, other)}", True
    notes = [fact.note.rpartition(": ")[2] for fact in (first, second) if fact.tier != "measured"]
    if note := next((n for n in notes if n and not number_spans(n)), ""):
        return f"perhaps because {note}", False
    if first.property == "bulk density":
        saying = [fact for fact in (first, second) if fact.condition("packing") not in _UNSAID]
        told = (
            saying and f"only {short_source(saying[0], library)} states the packing ({saying[0].condition('packing')})"
        )
        return f"perhaps because {told or 'neither states the packing'}", False
    return "and neither says why", False


def _different(name: str, one: str, other: str) -> str:
    what = "the circumstances are" if name == "under" else f"the {name.replace('_', ' ')} is"
    if number_spans(f"{one} {other}"):
        return f"{what} not the same"
    return f"{what} not the same ({one}; {other})"
