"""What to test next: rank the open questions, and plan a fair test for each."""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from qa.records import AskType, Figure, Topic
from qa.trials.chance import ALPHA
from qa.trials.shapes import Reads, shape_of

# A test is sized to see a difference of this many spreads between repeats. Common practice here, no source.
EFFECT_TO_SEE = 1.5
# How open a question is for each reason it had to be handed over: a test helps where nothing is known, and a little
# where no standing answer was sure enough.
OPENNESS = {"no_knowledge": 1.0, "unknown_ingredient": 1.0, "conflict": 0.7, "unsure": 0.3}
POWER = 0.8
# What no kitchen test answers: it belongs to a doctor, an authority, a shop or the tester's own list.
NO_TEST: frozenset[AskType] = frozenset(("health", "allergy", "safety", "nutrition", "where_to_buy", "episode"))


@dataclass(frozen=True, slots=True)
class Open:
    """An open question.

    Attributes:
        topic: the topic's id; name: in plain words.
        askers: how many comments ask it.
        weeks: asks per week, oldest first.
        unknown: 0 to 1, how little the knowledge holds: 1 nothing, about 0.5 published but disagreeing or untested.
        items: what it is about.
    """

    topic: str
    name: str
    type: AskType
    items: tuple[str, ...]
    askers: int
    weeks: tuple[int, ...]
    unknown: float

    @property
    def growth(self) -> float:
        """Asks in the newer half of the weeks for one in the older half, both with one added.

        >>> Open("t", "tigernut", "swap", (), 9, (1, 0, 3, 5), 1.0).growth
        4.5
        """
        half = len(self.weeks) // 2
        return (1 + sum(self.weeks[half:])) / (1 + sum(self.weeks[:half])) if half else 1.0

    @property
    def need(self) -> float:
        """What they are ranked by: askers times growth (at most 4, at least ¼) times how little is known, by effort."""
        return self.askers * min(4.0, max(0.25, self.growth)) * self.unknown / self.effort

    @property
    def effort(self) -> float:
        """What the test would cost beside a series of bakes."""
        return shape_of(self.type).effort


@dataclass(frozen=True, slots=True)
class Plan:
    """A test that would answer an open question.

    Attributes:
        read: what to read, in words; quantities the same for the file of readings, where it is a number.
        order: the level of each bake, first to last.
        items: the things that the levels are about.
        bakes: how many in all.
        varied: the suspects of a screening test; the levels are then what they are combined to.
        notes: what else to know before one begins.
    """

    topic: str
    question: str
    hypothesis: str
    factor: str
    levels: tuple[str, ...]
    dose: str
    constant: tuple[str, ...]
    read: tuple[str, ...]
    repeats: Figure
    order: tuple[str, ...]
    items: tuple[str, ...]
    quantities: tuple[Reads, ...]
    bakes: Figure
    varied: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def open_questions(topics: Sequence[Topic], openness: Mapping[str, float], known: Callable[[str], bool]) -> list[Open]:
    """The topics that name an ingredient, as open questions; all topics about an unknown ingredient are one.

    Args:
        topics: what is asked, with its comments.
        openness: how open each comment's question is, 0 to 1 (see OPENNESS); answered ones are left out.
        known: whether an item is in the knowledge.
    """
    weeks = sorted({week for topic in topics for week, _ in topic.weeks})
    gathered: dict[str, list[Topic]] = defaultdict(list)
    for topic in topics:
        if topic.type in NO_TEST:
            continue
        strange = [item for item in topic.items if not known(item)]
        if topic.items and topic.comments:
            gathered[strange[0] if strange else topic.id].append(topic)
    return [_opened(key, group, weeks, openness, known) for key, group in gathered.items()]


def _opened(
    key: str, group: Sequence[Topic], weeks: Sequence[str], openness: Mapping[str, float], known: Callable[[str], bool]
) -> Open:
    most = max(group, key=lambda topic: (len(topic.comments), topic.id))
    comments = dict.fromkeys(comment for topic in group for comment in topic.comments)
    by_week: Counter[str] = Counter()
    for topic in group:
        by_week.update(dict(topic.weeks))
    about_unknown = any(not known(item) for item in most.items)
    swapped = next((topic for topic in group if topic.type == "swap" and len(topic.items) > 1), most)
    return Open(
        topic=key,
        name=f"baking with {key.replace('-', ' ')}" if about_unknown else most.name,
        type="swap" if about_unknown else most.type,
        items=swapped.items if about_unknown else most.items,
        askers=len(comments),
        weeks=tuple(by_week[week] for week in weeks),
        unknown=sum(openness.get(comment, 0.0) for comment in comments) / len(comments),
    )


def rank(questions: Sequence[Open]) -> list[Open]:
    """Open questions, most needed first; ties go by name, so the order never changes by itself."""
    return sorted((q for q in questions if q.unknown > 0), key=lambda q: (-q.need, q.name))


def plan(question: Open, names: Mapping[str, str]) -> Plan:
    """The test that would answer it, with the number of repeats and a run order fixed by the topic's id.

    Args:
        question: the open question.
        names: how items are called, by item.
    """
    things = [names.get(item, item) for item in question.items]
    shape = shape_of(question.type)
    first = things[0] if things else question.name
    levels = tuple(things) if len(things) > 1 else (first, shape.beside.format(first=first))
    repeats = repeats_needed(EFFECT_TO_SEE)
    runs = [level for level in levels for _ in range(int(repeats.value))]
    random.Random(question.topic).shuffle(runs)  # noqa: S311 - a run order, fixed by the topic
    return Plan(
        topic=question.topic,
        question=question.name,
        hypothesis=(shape.hypothesis if len(things) > 1 else shape.alone).format(first=levels[0], second=levels[1]),
        factor=shape.factor,
        levels=levels,
        dose=shape.dose,
        constant=shape.constant,
        read=shape.read,
        repeats=repeats,
        order=tuple(runs),
        items=question.items,
        quantities=shape.quantities,
        bakes=_in_all(repeats, len(levels)),
    )


def _in_all(repeats: Figure, levels: int) -> Figure:
    total = int(repeats.value) * levels
    return Figure(str(total), total, total, total, "", repeats.facts, f"{repeats.text} × {levels} levels = {total}")


def repeats_needed(effect: float, alpha: float = ALPHA, power: float = POWER) -> Figure:
    """Bakes of each level to see a difference of `effect` spreads (two-sided t test of two equal groups).

    Source of the method: Cohen, Statistical Power Analysis for the Behavioral Sciences (1988), table 2.4.1 gives 64 for
    a difference of half a spread.

    >>> repeats_needed(0.5).text
    '64'
    """
    from scipy import stats

    n = 2
    while n < 10_000:
        freedom, shift = 2 * n - 2, effect * (n / 2) ** 0.5
        critical = stats.t.ppf(1 - alpha / 2, freedom)
        if stats.nct.sf(critical, freedom, shift) + stats.nct.cdf(-critical, freedom, shift) >= power:
            break
        n += 1
    working = f"two-sided t test, error rate {alpha:g}, power {power:g}, difference of {effect:g} spreads: {n} each"
    return Figure(str(n), n, n, n, "", ("method:two-sample-power",), working)
