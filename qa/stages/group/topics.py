"""Topics of the stream: asks about the same thing, with an identity that outlives an import."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from qa.knowledge.library import Library
from qa.records import Ask, AskType, Topic, Understood
from qa.text import listed

_WORDS: dict[AskType, str] = {
    "same_thing": "names and kinds of {}",
    "swap": "doing without {}",
    "weight": "the weight of {}",
    "convert": "converting {}",
    "check": "sums about {}",
    "tried": "results with {}",
    "went_wrong": "what went wrong: {}",
    "colour": "the colour: {}",
    "carbs": "carbohydrate of {}",
    "nutrition": "what {} contains",
    "storage": "storing {}",
    "safety": "the safety of {}",
    "health": "health and {}",
    "allergy": "allergies and {}",
    "where_to_buy": "where to buy {}",
    "equipment": "pans and tools for {}",
    "method": "handling {}",
    "scaling": "other sizes of {}",
    "purpose": "the purpose of {}",
    "episode": "what the episode says of {}",
    "other": "other: {}",
}


def group(
    understood: Sequence[Understood],
    library: Library,
    known: Sequence[Topic],
    times: Mapping[str, str] = MappingProxyType({}),
) -> list[Topic]:
    """All topics after these comments, the most asked first; known ones go on under their own id.

    What an ask is about makes its topic's id, so the same asks give the same topics in whatever order they arrive.

    Args:
        understood: comments with their asks, in order of arrival.
        library: for the names of ingredients.
        known: the topics so far.
        times: when each comment was written, ISO 8601, by comment id.
    """
    topics = {topic.id: topic for topic in known}
    for one in understood:
        for ask in one.asks:
            key = topic_id(ask)
            topic = topics.get(key) or Topic(key, _name(ask, library), ask.type, tuple(sorted(ask.ingredients)))
            topics[key] = _joined(topic, one.comment, times.get(one.comment, ""))
    return sorted(topics.values(), key=lambda topic: (-len(topic.comments), topic.id))


def _joined(topic: Topic, comment: str, time: str) -> Topic:
    """The topic with one more comment, counted once."""
    if comment in topic.comments:
        return topic
    weeks = Counter(dict(topic.weeks))
    if week := _week(time):
        weeks[week] += 1
    seen = [moment for moment in (topic.first, topic.last, time) if moment]
    return replace(
        topic,
        comments=(*topic.comments, comment),
        first=min(seen, default=""),
        last=max(seen, default=""),
        weeks=tuple(sorted(weeks.items())),
    )


def _week(time: str) -> str:
    """The ISO week of a time, e.g. '2026-W10', or '' if it is not ISO 8601."""
    try:
        year, week, _ = date.fromisoformat(time[:10]).isocalendar()
    except ValueError:
        return ""
    return f"{year}-W{week:02}"


def topic_id(ask: Ask) -> str:
    """The identity of what is asked: type and ingredients, and for asks without any the symptom or dish.

    >>> topic_id(Ask("swap", 0, 9, "", ("flax.ground", "chia")))
    'swap:chia+flax'
    """
    about = "+".join(sorted(ask.ingredients)) or ask.symptom or ask.dish or "in general"
    return f"{ask.type}:{about}"


def _name(ask: Ask, library: Library) -> str:
    names = [library.name(i) if library.has(i) else i.partition(".")[0].replace("-", " ") for i in ask.items[:2]]
    if ask.type == "swap" and len(names) > 1:
        return f"{names[1]} instead of {names[0]}"
    if ask.type == "same_thing" and len(names) > 1:
        return listed(names, "or")
    about = listed(names) or ask.symptom or ask.dish or "the recipe"
    return _WORDS[ask.type].format(about)
