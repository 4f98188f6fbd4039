"""Measure the whole on labelled comments, as labelled and re-weighted to a natural stream. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from qa.records import ASK_TYPES, KINDS, STATUSES, Draft, Example, Understood
from qa.scoring.rates import Rate, Tallied

# In a natural stream 2 to 20 % of comments ask something (common practice, no source); the middle is taken.
NATURAL_SHARE_OF_QUESTIONS = 0.10
_SAME_PLACE = 0.5  # spans count as one if they share half of the longer
# Reasons by which a comment must not be answered, in the two groups that matter most.
_HELD = {"health": frozenset(("health", "allergy")), "unsafe": frozenset(("unsafe", "safety"))}


class Row(NamedTuple):
    """A labelled comment with what was made of it."""

    example: Example
    said: Understood
    draft: Draft


def natural_weights(examples: Sequence[Example]) -> list[float]:
    """What each comment counts for, so that questions have their natural share."""
    share = share_asking(examples)
    if not 0 < share < 1:
        return [1.0] * len(examples)
    asks, others = NATURAL_SHARE_OF_QUESTIONS / share, (1 - NATURAL_SHARE_OF_QUESTIONS) / (1 - share)
    return [asks if example.asks else others for example in examples]


def share_asking(examples: Sequence[Example]) -> float:
    """How many of the comments ask something, 0 to 1."""
    return sum(bool(example.asks) for example in examples) / len(examples) if examples else 0.0


def measure(rows: Sequence[Row], weights: Sequence[float]) -> dict[str, Any]:
    """Kinds, asks, mentions, what was held back, drafts."""
    kinds, asks, items = Tallied(), Tallied(), Tallied()
    mentions = Rate()
    confusion: dict[str, dict[str, float]] = {s: dict.fromkeys(STATUSES, 0.0) for s in STATUSES}
    held = {name: Rate() for name in _HELD}
    background = Rate()
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
        _count_held(example, draft, held, weight)
        if example.status == "drafted" and any(ask.medical for ask in said.asks):
            background.add(draft.status == "drafted", weight)
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
        "held": {
            name: {"recall": round(rate.recall, 3), "support": round(rate.support, 1)} for name, rate in held.items()
        },
        "answered_with_background": round(background.recall, 3) if background.support else None,
        "drafts": {
            "share_of_answerable_drafted": round(confusion["drafted"]["drafted"] / answerable, 3)
            if answerable
            else None,
            "precision": round(confusion["drafted"]["drafted"] / drafted, 3) if drafted else None,
            "by_status": {want: {got: round(n, 1) for got, n in row.items()} for want, row in confusion.items()},
        },
    }


def _count_held(example: Example, draft: Draft, held: dict[str, Rate], weight: float) -> None:
    """What must not be answered is held if no reply is offered and the reason is named."""
    for name, reasons in _HELD.items():
        if not reasons.isdisjoint(example.reasons):
            held[name].add(draft.reply is None and not reasons.isdisjoint(draft.reasons), weight)


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
