"""What lies on the desk while the page is open: the workbench, the pile in order of need, and the acts to take back."""

from __future__ import annotations

import threading
import time
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field

from qa.outside.store import Waiting
from qa.records import Topic
from qa.workbench import Workbench

# Reasons that come before everything else, in this order.
FIRST = ("health", "unsafe", "safety", "allergy")
_LOOK_AGAIN = 20.0
"""Seconds after which the pile is counted anew; the old one serves until the new one is there."""
_AT_ONCE = 0.05
"""A count that takes no longer than this, in seconds, is made anew after every act."""
_MOST_ACTS = 500


def in_order(waiting: Sequence[Waiting], topics: Sequence[Topic]) -> tuple[Waiting, ...]:
    """Health and safety first, then what many ask, then what was asked first; drafts before the rest of a topic."""
    known = {topic.id: topic for topic in topics}

    def need(pair: tuple[int, Waiting]) -> tuple[object, ...]:
        place, one = pair
        topic = known.get(one.topic)
        askers, first = (len(topic.comments), topic.first) if topic else (0, "")
        return (urgency(one.reasons), -askers, first or "~", one.topic or "~", one.status == "needs_you", place)

    return tuple(one for _, one in sorted(enumerate(waiting), key=need))


def urgency(reasons: Sequence[str]) -> int:
    """The place of the most pressing reason in FIRST; the length of FIRST for none of them."""
    return min((FIRST.index(reason) for reason in reasons if reason in FIRST), default=len(FIRST))


@dataclass(frozen=True)
class Overview:
    """Everything that is counted over the whole store, worked out at once and kept for a while.

    Attributes:
        pile: what waits, in order of need.
        place: where each waiting comment stands in the pile.
        topics: topics with something waiting, in order of need, then the others by askers.
        by_topic: what waits of each topic.
        made, took: when it was counted and how long that took, in seconds.
    """

    comments: int
    by_status: Mapping[str, int]
    by_reason: Mapping[str, int]
    standing: Mapping[str, int]
    pile: tuple[Waiting, ...]
    place: Mapping[str, int]
    topics: tuple[Topic, ...]
    by_topic: Mapping[str, tuple[Waiting, ...]]
    made: float = 0.0
    took: float = 0.0

    @property
    def first(self) -> int:
        """How many waiting comments are a matter of health or safety."""
        return sum(urgency(one.reasons) < len(FIRST) for one in self.pile)

    def waiting(self, status: str) -> int:
        """How many of a status wait."""
        return sum(one.status == status for one in self.pile)


def look_over(bench: Workbench, clock: Callable[[], float] = time.monotonic) -> Overview:
    """Count the whole store once."""
    began = clock()
    comments, by_status, by_reason = bench.store.counts()
    topics = list(bench.store.topics())
    pile = in_order(bench.store.waiting(), topics)
    by_topic: dict[str, list[Waiting]] = defaultdict(list)
    for one in pile:
        by_topic[one.topic].append(one)
    first_seen = {topic: place for place, topic in enumerate(by_topic)}
    ranked = sorted(topics, key=lambda t: (first_seen.get(t.id, len(first_seen)), -len(t.comments), t.name))
    return Overview(
        comments=comments,
        by_status=by_status,
        by_reason=by_reason,
        standing=bench.store.standing_counts(),
        pile=pile,
        place={one.comment: place for place, one in enumerate(pile)},
        topics=tuple(ranked),
        by_topic={topic: tuple(ones) for topic, ones in by_topic.items()},
        made=began,
        took=clock() - began,
    )


@dataclass(frozen=True)
class Act:
    """Something done on this page that can be taken back: what, in words, and how."""

    words: str
    back: Callable[[], None]
    comment: str = ""


@dataclass
class Desk:
    """One run of the page over one workbench.

    Attributes:
        who: the name decisions are kept under.
        form_token: goes out in every form and must come back with it.
    """

    bench: Workbench
    who: str
    form_token: str
    acts: list[Act] = field(default_factory=list)
    _overview: Overview | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _looking: bool = False
    _touched: bool = False

    def overview(self, *, fresh: bool = False) -> Overview:
        """The counts; when they are old the old ones serve once more while new ones are made beside."""
        known = self._overview
        if known is None or fresh or (self._touched and known.took < _AT_ONCE):
            with self._lock:
                self._touched = False
                self.bench.look_again()
                self._overview = known = look_over(self.bench)
        elif time.monotonic() - known.made > _LOOK_AGAIN and not self._looking:
            self._looking = True
            threading.Thread(target=self._look, daemon=True).start()
        return known

    def _look(self) -> None:
        try:
            self.overview(fresh=True)
        finally:
            self._looking = False

    def touched(self) -> None:
        """Something was changed through these pages, so the counts are no longer right."""
        self._touched = True

    def warm(self) -> None:
        """Fetch the learned parts beside the pages, for somebody is about to teach; a fault is told when they do."""

        def fetch() -> None:
            with suppress(Exception):
                _ = self.bench.models

        threading.Thread(target=fetch, daemon=True).start()

    def done(self, act: Act) -> None:
        """Note an act, so that it can be taken back."""
        self.acts.append(act)
        del self.acts[:-_MOST_ACTS]

    def neighbours(self, comment: str, within: Sequence[Waiting] | None = None) -> tuple[str, str]:
        """The waiting comments before and after one in the pile; '' at the ends and for one that is not in it.

        What was decided on since the pile was made is passed over.
        """
        pile = self.overview().pile if within is None else within
        place = self.overview().place.get(comment) if within is None else _place_in(comment, pile)
        if place is None:
            return "", self.first_of(pile)
        before = [one.comment for one in reversed(pile[max(0, place - 400) : place])]
        return self._open(before), self._open([one.comment for one in pile[place + 1 :]]) or self._open(
            [one.comment for one in pile[:place]]
        )

    def first_of(self, pile: Sequence[Waiting] | None = None) -> str:
        """The first comment of a pile that still waits."""
        return self._open([one.comment for one in (self.overview().pile if pile is None else pile)])

    def _open(self, ids: Sequence[str]) -> str:
        for start in range(0, len(ids), 25):
            left = self.bench.store.undecided(ids[start : start + 25])
            if left:
                return left[0]
        return ""


def _place_in(comment: str, pile: Sequence[Waiting]) -> int | None:
    return next((place for place, one in enumerate(pile) if one.comment == comment), None)
