"""Measure the whole on labelled comments, as labelled and re-weighted to a natural stream. Pure.

>>> counts = Tallied()
>>> counts.add(found={"question"}, wanted={"question", "thanks"}, weight=1.0)
>>> counts.of("question").recall, counts.of("thanks").recall
(1.0, 0.0)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from qa.records import ASK_TYPES, KINDS, STATUSES, Draft, Example, Understood

# In a natural stream 2 to 20 % of comments ask something (common practice, no source); the middle is taken.
NATURAL_SHARE_OF_QUESTIONS = 0.10
_SAME_PLACE = 0.5  # spans count as one if they share half of the longer


@dataclass(slots=True)
class Rate:
    """Hits, false finds and misses of one label, possibly weighted."""

    hits: float = 0.0
    false: float = 0.0
    missed: float = 0.0

    @property
    def precision(self) -> float:
        """Share of what was found that is right; 1 if nothing was found."""
        found = self.hits + self.false
        return self.hits / found if found else 1.0

    @property
    def recall(self) -> float:
        """Share of what should be found that was; 1 if there was nothing to find."""
        wanted = self.hits + self.missed
        return self.hits / wanted if wanted else 1.0

    @property
    def f1(self) -> float:
        """The harmonic mean of precision and recall."""
        total = 2 * self.hits + self.false + self.missed
        return 2 * self.hits / total if total else 1.0

    @property
    def support(self) -> float:
        """How often the label is wanted."""
        return self.hits + self.missed


@dataclass(slots=True)
class Tallied:
    """Rates by label."""

    rates: dict[str, Rate] = field(default_factory=lambda: defaultdict(Rate))

    def add(self, found: Iterable[str], wanted: Iterable[str], weight: float) -> None:
        """Count one comment's labels."""
        found, wanted = set(found), set(wanted)
        for label in found & wanted:
            self.rates[label].hits += weight
        for label in found - wanted:
            self.rates[label].false += weight
        for label in wanted - found:
            self.rates[label].missed += weight

    def of(self, label: str) -> Rate:
        """The rate of one label."""
        return self.rates[label]

    def macro_f1(self, labels: Sequence[str]) -> float:
        """The mean F1 of the labels that occur."""
        seen = [self.rates[label].f1 for label in labels if label in self.rates and self.rates[label].support]
        return sum(seen) / len(seen) if seen else 0.0

    def rows(self, labels: Sequence[str]) -> dict[str, dict[str, float]]:
        """Precision, recall, F1 and support by label, for those that occur."""
        return {
            label: {
                "precision": round(rate.precision, 3),
                "recall": round(rate.recall, 3),
                "f1": round(rate.f1, 3),
                "support": round(rate.support, 1),
            }
            for label in labels
            if (rate := self.rates.get(label)) and (rate.support or rate.false)
        }


def score(examples: Sequence[Example], understood: Sequence[Understood], drafts: Sequence[Draft]) -> dict[str, Any]:
    """All measures of a labelled set.

    Returns:
        `as_labelled` and `natural` (re-weighted), each with `kinds`, `asks`, `mentions`, `drafts`, plus `must_not` with
        the ids of comments that were drafted though they should go to a person or nowhere.
    """
    asking = [bool(example.asks) for example in examples]
    share = sum(asking) / len(asking) if asking else 0.0
    even = [1.0] * len(examples)
    natural = [_natural_weight(asks, share) for asks in asking]
    rows = list(zip(examples, understood, drafts, strict=True))
    return {
        "comments": len(examples),
        "share_of_questions": round(share, 3),
        "as_labelled": _measure(rows, even),
        "natural": _measure(rows, natural),
        "must_not": [e.id for e, _, d in rows if d.status == "drafted" and e.status in {"needs_you", "no_reply"}],
    }


def _natural_weight(asks: bool, share: float) -> float:
    if not 0 < share < 1:
        return 1.0
    return NATURAL_SHARE_OF_QUESTIONS / share if asks else (1 - NATURAL_SHARE_OF_QUESTIONS) / (1 - share)


def _measure(rows: Sequence[tuple[Example, Understood, Draft]], weights: Sequence[float]) -> dict[str, Any]:
    kinds, asks, items = Tallied(), Tallied(), Tallied()
    mentions = Rate()
    confusion: dict[str, dict[str, float]] = {s: dict.fromkeys(STATUSES, 0.0) for s in STATUSES}
    first_right = first_all = 0.0
    for (example, said, draft), weight in zip(rows, weights, strict=True):
        kinds.add([kind for kind, _ in said.kinds], example.kinds, weight)
        wanted = [type_ for type_, _ in example.asks]
        asks.add([ask.type for ask in said.asks], wanted, weight)
        if wanted:
            first_all += weight
            first_right += weight * (bool(said.asks) and said.asks[0].type in wanted)
        items.add(
            {m.ingredient for m in said.mentions}, {item.partition(".")[0] for _, _, item in example.mentions}, weight
        )
        _count_mentions(example, said, mentions, weight)
        confusion[example.status][draft.status] += weight
    drafted = sum(confusion[status]["drafted"] for status in STATUSES)
    answerable = sum(confusion["drafted"].values())
    return {
        "kinds": {"macro_f1": round(kinds.macro_f1(KINDS), 3), "by_kind": kinds.rows(KINDS)},
        "asks": {
            "first_type_right": round(first_right / first_all, 3) if first_all else None,
            "macro_f1": round(asks.macro_f1(ASK_TYPES), 3),
            "by_type": asks.rows(ASK_TYPES),
        },
        "mentions": {
            "precision": round(mentions.precision, 3),
            "recall": round(mentions.recall, 3),
            "f1": round(mentions.f1, 3),
            "ingredients_f1": round(_micro(items).f1, 3),
        },
        "drafts": {
            "share_of_answerable_drafted": round(confusion["drafted"]["drafted"] / answerable, 3)
            if answerable
            else None,
            "precision": round(confusion["drafted"]["drafted"] / drafted, 3) if drafted else None,
            "by_status": {want: {got: round(n, 1) for got, n in row.items()} for want, row in confusion.items()},
        },
    }


def _micro(tallied: Tallied) -> Rate:
    rates = tallied.rates.values()
    return Rate(sum(r.hits for r in rates), sum(r.false for r in rates), sum(r.missed for r in rates))


def _count_mentions(example: Example, said: Understood, rate: Rate, weight: float) -> None:
    """A mention is right if place and ingredient agree, and the form where the label gives one and we do too."""
    left = list(example.mentions)
    for mention in said.mentions:
        match = next((w for w in left if _same(w, (mention.start, mention.end, mention.item))), None)
        if match:
            left.remove(match)
            rate.hits += weight
        else:
            rate.false += weight
    rate.missed += weight * len(left)


def _same(wanted: tuple[int, int, str], found: tuple[int, int, str]) -> bool:
    shared = min(wanted[1], found[1]) - max(wanted[0], found[0])
    longest = max(wanted[1] - wanted[0], found[1] - found[0])
    want, got = wanted[2].partition("."), found[2].partition(".")
    forms_agree = not want[2] or not got[2] or want[2] == got[2]
    return shared >= _SAME_PLACE * longest and want[0] == got[0] and forms_agree


def report(result: Mapping[str, Any]) -> str:
    """The measures as a table for people."""
    lines = [f"{result['comments']} labelled comments, {result['share_of_questions']:.0%} ask something"]
    for heading, key in (("as labelled", "as_labelled"), ("at natural proportions", "natural")):
        part = result[key]
        lines += ["", f"{heading}:"]
        lines.append(f"  kinds     macro-F1 {part['kinds']['macro_f1']:.3f}")
        lines += [_row(name, row) for name, row in part["kinds"]["by_kind"].items()]
        asks = part["asks"]
        lines.append(f"  asks      first type right {asks['first_type_right']}, macro-F1 {asks['macro_f1']:.3f}")
        lines += [_row(name, row) for name, row in asks["by_type"].items()]
        m = part["mentions"]
        lines.append(f"  mentions  precision {m['precision']:.3f}, recall {m['recall']:.3f}, F1 {m['f1']:.3f}")
        drafts = part["drafts"]
        share, precision = drafts["share_of_answerable_drafted"], drafts["precision"]
        lines.append(f"  drafts    share of answerable {share}, precision {precision}")
    lines += ["", f"drafted though they should not be: {', '.join(result['must_not']) or 'none'}"]
    return "\n".join(lines)


def _row(name: str, row: Mapping[str, float]) -> str:
    return (
        f"    {name:<14} P {row['precision']:.3f}  R {row['recall']:.3f}  F1 {row['f1']:.3f}  of {row['support']:.0f}"
    )
