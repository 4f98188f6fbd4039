"""This week: what came in, what is left and what is owed, in one paragraph and a list of topics."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from qa.errors import NoKnowledge, Problem
from qa.knowledge.library import Library
from qa.outside.store import Correction
from qa.records import Topic
from qa.web.desk import FIRST, Overview, urgency
from qa.web.drawn import bar, weeks
from qa.web.words import ASKS, counted

MOST_TOPICS = 30


@dataclass(frozen=True, slots=True)
class TopicLine:
    """One topic as a line: how many ask, how many wait, and a stroke as long as its share."""

    id: str
    name: str
    asked: str
    count: int
    waits: int
    first: bool
    stroke: Markup
    weeks: Markup


@dataclass(frozen=True, slots=True)
class Note:
    """Something owed or amiss, in words, with where to go."""

    words: str
    link: str


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """Everything on the first sheet.

    Attributes:
        told: the paragraph, sentence by sentence.
    """

    told: tuple[str, ...]
    start: bool
    empty: bool
    topics: tuple[TopicLine, ...]
    more_topics: int
    owed: tuple[Note, ...]
    problems: tuple[Problem, ...]
    more_problems: int
    set_aside: int
    signed: int
    unread: int


def week_sheet(
    overview: Overview,
    corrections: Sequence[Correction],
    stale: Sequence[tuple[str, str]],
    problems: Sequence[Problem],
    set_aside: int,
) -> WeekSheet:
    """The first sheet.

    Args:
        overview: the counts.
        corrections: where viewers say that video and recipe disagree.
        stale: facts that changed since replies leaning on them were signed, with what became of them.
        problems: what is wrong in the larder.
        set_aside: rows that could not be read.
    """
    most = max((len(topic.comments) for topic in overview.topics), default=1) or 1
    lines = [_line(topic, overview, most) for topic in overview.topics[:MOST_TOPICS]]
    signed = overview.standing.get("signed", 0)
    return WeekSheet(
        told=_told(overview),
        start=bool(overview.pile),
        empty=overview.comments == 0,
        topics=tuple(lines),
        more_topics=max(0, len(overview.topics) - MOST_TOPICS),
        owed=(*_corrections(corrections), *_stale(stale)),
        problems=tuple(problems[:12]),
        more_problems=max(0, len(problems) - 12),
        set_aside=set_aside,
        signed=signed,
        unread=overview.comments - sum(overview.by_status.values()),
    )


def _told(overview: Overview) -> tuple[str, ...]:
    if not overview.comments:
        return ()
    asking = sum(overview.by_status.get(status, 0) for status in ("drafted", "ask_back", "needs_you"))
    said = [f"{counted(overview.comments, 'comment')} came in; {asking:,} {_verb(asking, 'ask')} something."]
    if not overview.pile:
        return (*said, _signed_words(overview.standing), "Nothing is waiting. The kettle is yours.")
    ready = overview.waiting("drafted") + overview.waiting("ask_back")
    yours = overview.waiting("needs_you")
    said.append(
        f"{ready:,} {'has' if ready == 1 else 'have'} a draft to read and sign; {yours:,} {_verb(yours, 'need')} you."
    )
    if overview.first:
        are = "is a matter" if overview.first == 1 else "are matters"
        said.append(f"{overview.first:,} of them {are} of health or safety and {_verb(overview.first, 'come')} first.")
    return (*said, _signed_words(overview.standing))


def _verb(number: int, verb: str) -> str:
    return f"{verb}s" if number == 1 else verb


def _signed_words(standing: Mapping[str, int]) -> str:
    signed, sent = standing.get("signed", 0), standing.get("sent", 0)
    aside = standing.get("laid_aside", 0) + standing.get("answered_myself", 0)
    words = [f"{signed:,} {'is' if signed == 1 else 'are'} signed and ready to take out"] if signed else []
    words += [f"{sent:,} went out"] if sent else []
    words += [f"{aside:,} {'is' if aside == 1 else 'are'} laid aside or answered by hand"] if aside else []
    return f"{'; '.join(words)}." if words else "You have signed none yet."


def _line(topic: Topic, overview: Overview, most: int) -> TopicLine:
    waits = overview.by_topic.get(topic.id, ())
    return TopicLine(
        id=topic.id,
        name=topic.name,
        asked=ASKS[topic.type],
        count=len(topic.comments),
        waits=len(waits),
        first=any(urgency(one.reasons) < len(FIRST) for one in waits),
        stroke=bar(len(topic.comments) / most),
        weeks=weeks(topic.weeks) if len(topic.weeks) > 1 else Markup(""),
    )


def _corrections(corrections: Sequence[Correction]) -> list[Note]:
    by_episode: dict[str, list[Correction]] = {}
    for one in corrections:
        by_episode.setdefault(one.episode, []).append(one)
    return [
        Note(
            f"{episode or 'No episode'}: {counted(len(ones), 'viewer')} noticed that video and recipe disagree.",
            "/owed",
        )
        for episode, ones in by_episode.items()
    ]


def _stale(stale: Sequence[tuple[str, str]]) -> list[Note]:
    return [Note(f"Signed replies lean on {fact}, which {became}.", "/owed") for fact, became in stale]


def stale_facts(in_use: Sequence[tuple[str, str]], library: Library) -> list[tuple[str, str]]:
    """Facts that signed replies lean on in a version that is no longer theirs, with what became of them."""
    found: dict[str, str] = {}
    for fact, version in in_use:
        if not version:
            continue
        try:
            if library.use(fact).version != version:
                found[fact] = "has changed since"
        except NoKnowledge:
            found[fact] = "is no longer in the larder"
    return sorted(found.items())
