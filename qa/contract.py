"""The JSON shapes other people's scripts rely on, and how records become them; `levelspoon schema` prints them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from typing_extensions import TypedDict

from qa.measures.parse import Amount
from qa.records import Comment, Draft, FactUse, Figure, Mention, Placed, SetAside, Status, Topic, Understood


class AmountShape(TypedDict):
    """An amount as its writer gave it."""

    value: float
    low: float
    high: float
    unit: str


class MentionShape(TypedDict):
    """An ingredient found in the text; start and end are characters, end exclusive."""

    start: int
    end: int
    text: str
    ingredient: str
    form: str
    amount: AmountShape | None
    sureness: float


class AskShape(TypedDict):
    """One thing asked, with the id of the standing answer found for it."""

    type: str
    ingredients: list[str]
    answer: str | None
    sureness: float


class FigureShape(TypedDict):
    """A number in the reply; start and end are characters of the reply (of `part` where there is no reply)."""

    text: str
    start: int
    end: int
    value: float
    low: float
    high: float
    unit: str
    facts: list[str]
    working: str


class FactShape(TypedDict):
    """A fact the reply leans on."""

    id: str
    tier: str
    source: str


class ReplyShape(TypedDict):
    """One comment with its draft: `ask --json` and each line of `export replies --format jsonl`."""

    comment_id: str
    episode: str
    author: str
    text: str
    language: str
    kinds: list[str]
    topic: str
    mentions: list[MentionShape]
    asks: list[AskShape]
    status: Status
    reasons: list[str]
    cautions: list[str]
    reply: str | None
    part: str | None
    note: str
    sureness: float
    figures: list[FigureShape]
    facts: list[FactShape]


class SetAsideShape(TypedDict):
    """An input row that did not become a comment."""

    file: str
    row: int
    reason: str


class ReadShape(TypedDict):
    """`read --json`: rows_read = stored + already_known + the number of rows set aside."""

    rows_read: int
    stored: int
    already_known: int
    set_aside: list[SetAsideShape]


class SumShape(TypedDict):
    """`weigh --json`; text is the value as it would be shown, assumed what was taken for granted about the measure."""

    text: str
    assumed: str
    amount: str
    ingredient: str
    form: str
    value: float
    low: float
    high: float
    unit: str
    working: str
    facts: list[str]


class SwapShape(SumShape):
    """`swap --json`: value is the amount of `for_ingredient` that stands in."""

    for_ingredient: str
    for_form: str
    changes: str
    holds: str
    not_when: str
    extra: str


class TopicShape(TypedDict):
    """One line of `topics --json`."""

    id: str
    name: str
    type: str
    ingredients: list[str]
    asks: int
    comments: list[str]
    weeks: dict[str, int]


class RoundUpShape(TypedDict):
    """`roundup --json`: the sheet as text and as a page; figures by their place in the text."""

    title: str
    text: str
    html: str
    figures: list[FigureShape]
    facts: list[FactShape]
    left_out: list[dict[str, str]]


SHAPES: dict[str, Any] = {
    "ask": ReplyShape,
    "replies": ReplyShape,
    "read": ReadShape,
    "weigh": SumShape,
    "swap": SwapShape,
    "topics": TopicShape,
    "roundup": RoundUpShape,
}


def reply_shape(comment: Comment, understood: Understood, draft: Draft) -> ReplyShape:
    """One comment with its draft in the contract's shape."""
    return {
        "comment_id": comment.id,
        "episode": comment.episode,
        "author": comment.author,
        "text": understood.text,
        "language": understood.language,
        "kinds": [kind for kind, _ in understood.kinds],
        "topic": understood.topic,
        "mentions": [mention_shape(mention) for mention in understood.mentions],
        "asks": [
            {
                "type": match.ask.type,
                "ingredients": list(match.ask.ingredients),
                "answer": match.answer,
                "sureness": round(match.sureness, 4),
            }
            for match in draft.matched
        ],
        "status": draft.status,
        "reasons": list(draft.reasons),
        "cautions": list(draft.cautions),
        "reply": draft.reply,
        "part": draft.part,
        "note": draft.note,
        "sureness": round(draft.sureness, 4),
        "figures": [figure_shape(placed) for placed in draft.figures],
        "facts": [fact_shape(use) for use in draft.facts],
    }


def fact_shape(use: FactUse) -> FactShape:
    """A fact in the contract's shape."""
    return {"id": use.id, "tier": use.tier, "source": use.source}


def mention_shape(mention: Mention) -> MentionShape:
    """A mention in the contract's shape."""
    return {
        "start": mention.start,
        "end": mention.end,
        "text": mention.text,
        "ingredient": mention.ingredient,
        "form": mention.form,
        "amount": amount_shape(mention.amount) if mention.amount else None,
        "sureness": round(mention.sureness, 4),
    }


def amount_shape(amount: Amount) -> AmountShape:
    """An amount in the contract's shape."""
    return {"value": amount.value, "low": amount.low, "high": amount.high, "unit": amount.unit}


def figure_shape(placed: Placed) -> FigureShape:
    """A figure with its place in the contract's shape."""
    figure = placed.figure
    return {
        "text": figure.text,
        "start": placed.start,
        "end": placed.end,
        "value": figure.value,
        "low": figure.low,
        "high": figure.high,
        "unit": figure.unit,
        "facts": list(figure.facts),
        "working": figure.working,
    }


def sum_shape(amount: str, item: str, figure: Figure, assumed: str = "") -> SumShape:
    """The result of a sum about one item in the contract's shape."""
    ingredient, _, form = item.partition(".")
    return {
        "text": figure.text,
        "assumed": assumed,
        "amount": amount,
        "ingredient": ingredient,
        "form": form,
        "value": figure.value,
        "low": figure.low,
        "high": figure.high,
        "unit": figure.unit,
        "working": figure.working,
        "facts": list(figure.facts),
    }


def read_shape(rows_read: int, stored: int, already_known: int, set_aside: Sequence[SetAside]) -> ReadShape:
    """The closing account of `read` in the contract's shape."""
    return {
        "rows_read": rows_read,
        "stored": stored,
        "already_known": already_known,
        "set_aside": [{"file": s.place.file, "row": s.place.line, "reason": s.reason} for s in set_aside],
    }


def topic_shape(topic: Topic) -> TopicShape:
    """A topic in the contract's shape."""
    return {
        "id": topic.id,
        "name": topic.name,
        "type": topic.type,
        "ingredients": list(topic.items),
        "asks": len(topic.comments),
        "comments": list(topic.comments),
        "weeks": dict(topic.weeks),
    }


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of a shape.

    >>> schema("weigh")["properties"]["value"]["type"]
    'number'
    """
    from pydantic import TypeAdapter

    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **TypeAdapter(SHAPES[name]).json_schema()}
