"""How much is known, by tier and by property."""

from __future__ import annotations

from collections import Counter
from typing import Any

from qa.knowledge.facts import Knowledge
from qa.knowledge.names import all_names
from qa.records import TIERS

_CITED = ("publication", "regulation", "database")


def counts(known: Knowledge) -> dict[str, Any]:
    """Entries of each kind, facts by tier and property, and the share of facts that cite a publication."""
    kinds = {source.id: source.kind for source in known.sources}
    tiers = Counter(fact.tier for fact in known.facts)
    cited = sum(kinds[fact.source] in _CITED for fact in known.facts)
    return {
        "ingredients": len(known.ingredients),
        "forms": sum(len(i.forms) for i in known.ingredients),
        "names": sum(1 for _ in all_names(known.ingredients)),
        "confusions": len(known.confusions),
        "facts": len(known.facts),
        "facts_by_tier": {tier: tiers[tier] for tier in TIERS},
        "facts_by_property": dict(Counter(fact.property for fact in known.facts).most_common()),
        "share_published": round(cited / len(known.facts), 3) if known.facts else 0.0,
        "swaps": len(known.swaps),
        "answers": len(known.answers),
        "phrasings": sum(len(answer.phrasings) for answer in known.answers),
        "cautions": len(known.cautions),
        "sources": len(known.sources),
        "trials": len(known.trials),
        "episodes": len(known.episodes),
        "measure_words": len(known.manners),
    }
