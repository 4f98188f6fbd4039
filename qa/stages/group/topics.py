"""Topics of the stream: asks about the same thing, with an identity that outlives an import."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from qa.knowledge.library import Library
from qa.records import Ask, Topic, Understood
from qa.stages.group.subjects import subject_of, subjects


def topic_id(ask: Ask) -> str:
    """The identity of what is asked, as long as nothing is known of what others ask."""
    return subject_of(ask)


def group(
    understood: Sequence[Understood],
    library: Library,
    known: Sequence[Topic],
    times: Mapping[str, str] = MappingProxyType({}),
) -> list[Topic]:
    """All topics of these comments, the most asked first.

    What asks are about makes their topic's id, so the same asks give the same topics in whatever order they arrive.
    As comments come in, a narrow subject may earn a topic of its own, or an old topic go up in a wider one; both are
    noted.

    Args:
        understood: all comments with their asks, in order of arrival.
        library: for the names of ingredients.
        known: the topics so far.
        times: when each comment was written, ISO 8601, by comment id.
    """
    asked = [(one.comment, ask) for one in understood for ask in one.asks]
    topics: dict[str, Topic] = {}
    comments: dict[str, dict[str, None]] = defaultdict(dict)
    for (comment, ask), subject in zip(asked, subjects([ask for _, ask in asked], library), strict=True):
        topics.setdefault(subject.id, Topic(subject.id, subject.name, ask.type, subject.items))
        comments[subject.id][comment] = None
    found = [_filled(topic, tuple(comments[key]), times) for key, topic in topics.items()]
    return sorted(_followed(found, known), key=lambda topic: (-len(topic.comments), topic.id))


def _filled(topic: Topic, comments: tuple[str, ...], times: Mapping[str, str]) -> Topic:
    """The topic with its comments, each once, and when they came."""
    moments = sorted(moment for comment in comments if (moment := times.get(comment, "")))
    weeks = Counter(week for moment in moments if (week := _week(moment)))
    first, last = (moments[0], moments[-1]) if moments else ("", "")
    return replace(topic, comments=comments, first=first, last=last, weeks=tuple(sorted(weeks.items())))


def _week(time: str) -> str:
    """The ISO week of a time, e.g. '2026-W10', or '' if it is not ISO 8601."""
    try:
        year, week, _ = date.fromisoformat(time[:10]).isocalendar()
    except ValueError:
        return ""
    return f"{year}-W{week:02}"


def _followed(found: Sequence[Topic], known: Sequence[Topic]) -> list[Topic]:
    """The topics, with which earlier ones they took in and which one they parted from."""
    old = {topic.id: topic for topic in known}
    now = {topic.id for topic in found}
    homes: dict[str, list[str]] = defaultdict(list)
    for topic in found:
        for comment in topic.comments:
            homes[comment].append(topic.id)
    took: dict[str, list[str]] = defaultdict(list)
    for topic in known:
        went = Counter(home for comment in topic.comments for home in homes.get(comment, ()) if _same_type(home, topic))
        if topic.id not in now and went:
            took[min(went, key=lambda home: (-went[home], home))] += [topic.id, *topic.merged]
    return [
        replace(
            topic,
            merged=tuple(sorted({*old.get(topic.id, topic).merged, *took[topic.id]} - now)),
            parted=old[topic.id].parted if topic.id in old else _parted(topic, known, now),
        )
        for topic in found
    ]


def _parted(topic: Topic, known: Sequence[Topic], now: set[str]) -> str:
    """The earlier topic, still there, that held most of a new topic's comments; '' if none did."""
    own = set(topic.comments)
    shared = {
        one.id: len(own.intersection(one.comments)) for one in known if one.id in now and _same_type(one.id, topic)
    }
    best = min(shared, key=lambda key: (-shared[key], key), default="")
    return best if best and shared[best] else ""


def _same_type(key: str, topic: Topic) -> bool:
    return key.partition(":")[0] == topic.type
