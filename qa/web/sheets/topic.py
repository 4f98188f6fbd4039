"""The topic sheet: everything that waits on one topic, by standing answer, only what differs in full ink."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from qa import pipeline
from qa.knowledge.library import Library
from qa.outside.store import Entry, seen_hash
from qa.records import Topic
from qa.text import listed
from qa.web.sheets.comment import standing_of, text_in_hand
from qa.web.sheets.differs import Stretch, only_new
from qa.web.words import ASKS, counted, date_words, untangled

MOST = 25
"""Comments on one sheet."""
_LONGEST = 600


@dataclass(frozen=True, slots=True)
class Reply:
    """One waiting comment on the sheet.

    Attributes:
        stretches: the reply, what it shares with an earlier one on the sheet told from what is its own.
        figures: texts of the figures in it, in order.
        ready: it can be signed as it stands.
        careful: it carries a caution, so it is ticked by hand.
        why: why it cannot, or why there is no draft.
    """

    comment: str
    author: str
    day: str
    words: str
    reply: str
    stretches: tuple[Stretch, ...]
    figures: tuple[str, ...]
    ready: bool
    careful: bool
    why: str
    seen: str
    standing: int


@dataclass(frozen=True, slots=True)
class Group:
    """Replies from one standing answer (or several together, or none)."""

    answers: tuple[str, ...]
    title: str
    replies: tuple[Reply, ...]


@dataclass(frozen=True, slots=True)
class TopicSheet:
    """Everything on the sheet of one topic."""

    id: str
    name: str
    about: str
    groups: tuple[Group, ...]
    more: int
    ready: int


def topic_sheet(
    topic: Topic, entries: Sequence[Entry], waiting: int, check: Callable[[Entry, str], pipeline.Edit], library: Library
) -> TopicSheet:
    """The sheet of a topic.

    Args:
        topic: what it is about.
        entries: what waits, in order, at most MOST.
        waiting: how many wait in all.
        check: vouches for a reply.
        library: names of the standing answers.
    """
    first, last = date_words(topic.first), date_words(topic.last)
    when = f", from {first} to {last}" if first and first != last else f", on {first}" if first else ""
    asks = "asks" if len(topic.comments) == 1 else "ask"
    about = f"{counted(len(topic.comments), 'comment')} {asks} {ASKS[topic.type]}{when}.{_came_from(topic)}"
    return _sheet(topic.id, topic.name, about, _grouped(entries, check, library), waiting - len(entries))


def _came_from(topic: Topic) -> str:
    """How the topic came about from earlier ones, if it did."""
    took = f" It took in {listed(_spoken(one) for one in topic.merged)}." if topic.merged else ""
    return took + (f" It parted from {_spoken(topic.parted)}." if topic.parted else "")


def _spoken(topic_id: str) -> str:
    """An earlier topic's subject, which is all its id keeps of it."""
    return f"“{topic_id.partition(':')[2].replace('-', ' ').replace('+', ' and ')}”"


def answer_topic(
    answer: str, entries: Sequence[Entry], waiting: int, check: Callable[[Entry, str], pipeline.Edit], library: Library
) -> TopicSheet:
    """Everything that waits with one standing answer, whatever its topic; the arguments are those of `topic_sheet`."""
    about = f"{counted(waiting, 'draft')} with this standing answer wait{'s' * (waiting == 1)}."
    return _sheet(
        answer,
        f"answered by “{answer.replace('-', ' ')}”",
        about,
        _grouped(entries, check, library),
        waiting - len(entries),
    )


def _sheet(key: str, name: str, about: str, groups: tuple[Group, ...], more: int) -> TopicSheet:
    ready = sum(reply.ready for group in groups for reply in group.replies)
    return TopicSheet(key, name, about, groups, max(0, more), ready)


def _grouped(
    entries: Sequence[Entry], check: Callable[[Entry, str], pipeline.Edit], library: Library
) -> tuple[Group, ...]:
    """By standing answer; what has none comes last."""
    grouped: dict[tuple[str, ...], list[Entry]] = {}
    for entry in entries:
        grouped.setdefault(_answers(entry), []).append(entry)
    return tuple(
        Group(answers, _title(answers), _replies(ones, check, library))
        for answers, ones in sorted(grouped.items(), key=lambda pair: not pair[0])
    )


def _answers(entry: Entry) -> tuple[str, ...]:
    made = entry.draft
    if made is None or not text_in_hand(entry):
        return ()
    return tuple(dict.fromkeys(match.answer for match in made.matched if match.answer))


def _title(answers: Sequence[str]) -> str:
    return " and ".join(answer.replace("-", " ") for answer in answers) if answers else "No standing answer"


def _replies(
    entries: Sequence[Entry], check: Callable[[Entry, str], pipeline.Edit], library: Library
) -> tuple[Reply, ...]:
    replies: list[Reply] = []
    for entry in entries:
        text = entry.text
        checked = check(entry, text)
        why = _why(entry, checked, library)
        replies.append(
            Reply(
                comment=entry.comment.id,
                author=untangled(entry.comment.author) or "a viewer",
                day=date_words(entry.comment.time),
                words=untangled((entry.understood.text if entry.understood else entry.comment.text)[:_LONGEST]),
                reply=text,
                stretches=only_new(text, [reply.reply for reply in replies if reply.reply]) if text else (),
                figures=tuple(dict.fromkeys(placed.figure.text for placed in checked.figures)),
                ready=bool(text) and not why,
                careful=bool(entry.draft and entry.draft.cautions),
                why=why,
                seen=seen_hash(text),
                standing=standing_of(entry.decision),
            )
        )
    return tuple(replies)


def _why(entry: Entry, checked: pipeline.Edit, library: Library) -> str:
    """Why a reply cannot be signed from here, or why there is none."""
    if entry.draft is None:
        return "It was not read yet."
    if not entry.text or (entry.draft.status == "needs_you" and not entry.decision):
        return untangled(entry.draft.note) or "It needs you."
    if checked.loose:
        return f"Nothing vouches for “{checked.loose[0].text}”."
    if checked.moved:
        return "A fact behind it changed since it was drafted."
    if checked.lacking:
        return f"The caution about {library.caution(checked.lacking[0]).topic} is not in it."
    return ""
