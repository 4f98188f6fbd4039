"""Everything known of an ingredient or of one form of it, by tier, in the contract's shape."""

from __future__ import annotations

import math

from qa.contract import AgreementShape, FactsShape, HeldFactShape, HeldSwapShape
from qa.kitchen.sums import full_unit, said
from qa.knowledge.agreement import Agreement, agreement, agreements
from qa.knowledge.facts import PROPERTIES, Fact, Swap
from qa.knowledge.library import Library
from qa.records import TIERS


def told(item: str, library: Library) -> FactsShape:
    """All facts, swaps and agreements of an item; of all its forms where none is named.

    Raises:
        NoKnowledge: the ingredient or the form is not known.
    """
    name = library.name(item)
    ingredient, _, form = item.partition(".")
    held = [fact for fact in library.knowledge.facts if fact.item in {item, ingredient} or fact.item == _of(fact, item)]
    held.sort(key=lambda fact: (fact.item.partition(".")[0] != fact.item, fact.item, _ORDER[fact.property]))
    return {
        "ingredient": ingredient,
        "form": form,
        "name": name,
        "tiers": {tier: own for tier in TIERS if (own := [_held(f, library) for f in held if f.tier == tier])},
        "swaps": [_swap(s) for s in library.knowledge.swaps if s.replace == item or s.replace == _of(s, item)],
        "agreement": [_shape(one) for one in compared(item, library)],
    }


_ORDER = {name: place for place, name in enumerate(PROPERTIES)}


def _of(entry: Fact | Swap, item: str) -> str:
    """The entry's own item where the bare ingredient is asked about and it is a form of that, else ''."""
    own = entry.item if isinstance(entry, Fact) else entry.replace
    return own if "." not in item and own.partition(".")[0] == item else ""


def compared(item: str, library: Library) -> tuple[Agreement, ...]:
    """The agreement of every property of an item that several sources give; of all its forms where none is named."""
    if "." not in item:
        return agreements(item, library)
    names = dict.fromkeys(fact.property for fact in library.facts(item))
    found = (agreement(item, name, library) for name in names)
    return tuple(one for one in found if one is not None)


def _held(fact: Fact, library: Library) -> HeldFactShape:
    source, measure = library.source(fact.source), fact.measure
    return {
        "id": fact.id,
        "item": fact.item,
        "property": fact.property,
        "text": fact.words if measure is None else said(measure),
        "value": None if measure is None else measure.value,
        "spread": None if measure is None else measure.spread,
        "low": None if measure is None else measure.low,
        "high": None if measure is None else measure.high,
        "unit": "" if measure is None else full_unit(measure.unit),
        "conditions": dict(fact.conditions),
        "tier": fact.tier,
        "source": fact.source,
        "short": source.short or source.citation,
        "citation": source.citation,
        "where": fact.where,
        "checked": fact.checked,
        "note": fact.note,
        "invented": source.invented,
        "file": fact.place.file,
        "line": fact.place.line,
    }


def _swap(swap: Swap) -> HeldSwapShape:
    return {
        "id": swap.id,
        "replace": swap.replace,
        "use": swap.use,
        "ratio": swap.ratio.value,
        "spread": swap.ratio.spread,
        "by": swap.by,
        "holds": swap.holds,
        "changes": swap.changes,
        "not_when": swap.not_when,
        "extra": swap.extra,
        "tier": swap.tier,
        "source": swap.source,
        "file": swap.place.file,
        "line": swap.place.line,
    }


def _shape(one: Agreement) -> AgreementShape:
    return {
        "item": one.item,
        "property": one.property,
        "unit": one.unit,
        # Two values without any spread disagree infinitely; JSON has no word for that.
        "normalised_error": round(one.error, 4) if math.isfinite(one.error) else 1e9,
        "verdict": one.verdict,
        "words": one.words,
        "rows": [
            {"fact": row.fact.id, "label": row.label, "low": row.low, "value": row.value, "high": row.high}
            for row in one.rows
        ],
    }
