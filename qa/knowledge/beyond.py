"""What vouches for a figure without being an entry of knowledge/: rules in the code, methods, counts of comments."""

from __future__ import annotations

from qa.errors import Place
from qa.kitchen import rules
from qa.knowledge.facts import Source

_HERE = Place("qa/knowledge/beyond.py")
_COUNTED = {
    "method": Source("method", "publication", "a statistical method", None, _HERE, "the usual method"),
    "reports": Source("reports", "viewers", "viewers' comments", None, _HERE, "viewers' reports"),
    "comments": Source("comments", "viewers", "viewers' comments", None, _HERE, "a count of comments"),
}


def beyond(fact: str) -> Source | None:
    """The source that stands behind such an id; None for an entry of knowledge/.

    >>> beyond("reports:chia").tier, beyond("rule:EU-SALT-DEF").tier, beyond("flax.ground.fat.usda-sr26")
    ("viewers' reports", 'published', None)
    """
    kind = fact.partition(":")[0]
    if kind == "rule":
        found = rules.rule(fact)
        common = found.tier == "common practice"
        return Source(fact, "common practice" if common else "regulation", found.source, None, _HERE, "the rule for it")
    return _COUNTED.get(kind)
