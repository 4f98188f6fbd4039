"""The shared records, all frozen. They point at facts, answers and ingredients by id and hold no knowledge themselves.

An *item* is written as text: `flax` (an ingredient, form not said) or `flax.ground` (ingredient and form).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, get_args

from qa.errors import Place
from qa.measures.parse import Amount

Kind = Literal["question", "result", "tip", "thanks", "complaint", "chatter", "spam"]
KINDS: tuple[Kind, ...] = get_args(Kind)

AskType = Literal[
    "same_thing", "swap", "weight", "convert", "check", "tried", "went_wrong", "colour", "carbs", "nutrition",
    "storage", "safety", "health", "allergy", "where_to_buy", "equipment", "method", "scaling", "purpose", "episode",
    "other",
]  # fmt: skip
ASK_TYPES: tuple[AskType, ...] = get_args(AskType)

Status = Literal["drafted", "ask_back", "needs_you", "no_reply"]
STATUSES: tuple[Status, ...] = get_args(Status)

# Why there is no draft, or why a person is asked. Reports may add words of their own; these are the usual ones.
REASONS = (
    "health", "unsafe", "unknown_ingredient", "no_knowledge", "unsure", "other_language", "conflict", "recipe_conflict",
    "unvouched_number", "missing_ingredient", "missing_amount", "missing_measure", "missing_detail", "allergy",
    "safety", "legal", "maker", "spam", "too_long", "no_text", "nothing_asked",
)  # fmt: skip

Tier = Literal["measured", "published", "common practice", "viewers' reports"]
TIERS: tuple[Tier, ...] = get_args(Tier)


@dataclass(frozen=True, slots=True)
class Comment:
    """One viewer's text as received.

    Attributes:
        id: the export's own id, or one made from the content when the export has none.
        text: as received, before any repair (HTML entities of the carrier format already undone).
        author: as the export names the viewer; empty if it does not.
        time: ISO 8601 text, or empty.
        likes: how many approved of it; 0 if not given.
        parent: the id of the comment it replies to, or empty.
        episode: the upload it stands under, or empty.
        place: the file and row (1-based, header not counted) it came from.

    """

    id: str
    text: str
    author: str = ""
    time: str = ""
    likes: int = 0
    parent: str = ""
    episode: str = ""
    place: Place = Place("", 0)


@dataclass(frozen=True, slots=True)
class SetAside:
    """An input row that could not become a comment: where it stood, why, and what it held (shortened)."""

    place: Place
    reason: str
    content: str = ""


@dataclass(frozen=True, slots=True)
class Cleaned:
    """A comment's text after repair.

    Attributes:
        comment: the comment's id.
        text: repaired text; all later positions refer to it.
        language: ISO 639-1 code, or 'und' if it cannot be told.
        steps: names of the repair steps that changed something, in order.

    """

    comment: str
    text: str
    language: str = "en"
    steps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A sentence or clause of a cleaned text with its kinds.

    Attributes:
        start, end: characters in the cleaned text.
        kinds: what this piece does, with sureness 0 to 1 for each kind held likely.

    """

    start: int
    end: int
    text: str
    kinds: tuple[tuple[Kind, float], ...] = ()


def kinds_of(pieces: Sequence[Piece]) -> tuple[tuple[Kind, float], ...]:
    """Kinds of a whole comment, surest first: each as sure as the surest of its sentences.

    >>> kinds_of([Piece(0, 1, "a", (("thanks", 0.8),)), Piece(1, 2, "b", (("question", 0.9), ("thanks", 0.7)))])
    (('question', 0.9), ('thanks', 0.8))
    """
    best: dict[Kind, float] = {}
    for piece in pieces:
        for kind, sureness in piece.kinds:
            best[kind] = max(sureness, best.get(kind, 0.0))
    return tuple(sorted(best.items(), key=lambda kind: (-kind[1], KINDS.index(kind[0]))))


@dataclass(frozen=True, slots=True)
class Mention:
    """An ingredient found in a comment, with the amount said about it.

    Attributes:
        start, end: characters in the cleaned text.
        ingredient: id in the knowledge base.
        form: id of the form, or '' if the text leaves it open.
        amount: None if no amount was given.
        sureness: 0 to 1, how sure we are that this is that ingredient.
        others: items it could also mean (regional names), most likely first.

    """

    start: int
    end: int
    text: str
    ingredient: str
    form: str = ""
    amount: Amount | None = None
    sureness: float = 1.0
    others: tuple[str, ...] = ()

    @property
    def item(self) -> str:
        """The ingredient with its form, as knowledge names it."""
        return f"{self.ingredient}.{self.form}" if self.form else self.ingredient


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing asked.

    Attributes:
        type: what is wanted.
        start, end: the characters of the cleaned text that ask it.
        items: ingredients asked about. For a swap the first is what is replaced, the second what is used instead.
        amounts: amounts said in the asking, with or without an ingredient.
        dish: what is being baked, a plain word, or ''.
        symptom: what went wrong, a plain word, or ''.
        region: the asker's region of measure or label ('US', 'UK', …), or '' if unknown.
        medical: a medical word stands in the background; the draft then carries the caution.
        sureness: 0 to 1, that this is asked.
        context: the whole comment, where amounts may be said before what is asked about them; '' if it is no more.
        others: other types it could be, with the probability of each, likeliest first.

    """

    type: AskType
    start: int
    end: int
    text: str
    items: tuple[str, ...] = ()
    amounts: tuple[Amount, ...] = ()
    dish: str = ""
    symptom: str = ""
    region: str = ""
    medical: bool = False
    sureness: float = 1.0
    context: str = ""
    others: tuple[tuple[AskType, float], ...] = ()

    @property
    def ingredients(self) -> tuple[str, ...]:
        """Ids of the ingredients asked about, without forms, each once."""
        return tuple(dict.fromkeys(item.partition(".")[0] for item in self.items))


@dataclass(frozen=True, slots=True)
class Understood:
    """All that was understood of one comment; everything later works from this record."""

    comment: str
    text: str
    language: str
    kinds: tuple[tuple[Kind, float], ...]
    pieces: tuple[Piece, ...]
    mentions: tuple[Mention, ...]
    asks: tuple[Ask, ...]
    region: str = ""
    topic: str = ""
    unsafe: tuple[str, ...] = ()
    """Ids of cautions against what the comment itself recommends (a tip that must not be repeated)."""
    conflict: str = ""
    """What the writer says disagrees between video and written recipe, in the writer's words; '' if nothing."""


@dataclass(frozen=True, slots=True)
class Topic:
    """Asks about the same thing; it keeps its identity from one import to the next.

    Attributes:
        id: made from what is asked about, never from the order of arrival.
        name: in plain words, e.g. 'potato starch or potato flour'.
        type: what is wanted.
        items: the ingredients asked about, in alphabetical order.
        comments: ids of the comments that ask, in order of arrival.
        first, last: times of the first and the last of them as ISO 8601 text, or ''.
        weeks: comments per ISO week, e.g. ('2026-W10', 3), in order; comments without a time are not in it.
        merged: ids of earlier topics that this one took in.
        parted: the id of the topic that it parted from, or ''.
    """

    id: str
    name: str
    type: AskType
    items: tuple[str, ...]
    comments: tuple[str, ...] = ()
    first: str = ""
    last: str = ""
    weeks: tuple[tuple[str, int], ...] = ()
    merged: tuple[str, ...] = ()
    parted: str = ""


@dataclass(frozen=True, slots=True)
class Matched:
    """The standing answer found for one ask.

    Attributes:
        answer: the standing answer's id, or None below the cut-off.
        sureness: calibrated probability, 0 to 1, that this answer is right for the ask.
        runners_up: other answers with their probabilities, best first.
        reason: why there is no answer, one of REASONS, or ''.

    """

    ask: Ask
    answer: str | None
    sureness: float
    runners_up: tuple[tuple[str, float], ...] = ()
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A number ready to be shown, with everything that vouches for it.

    Attributes:
        text: as it is shown, unit included ('21 g', '1⅔ tbsp', '17 to 23 g').
        value, low, high: in `unit`; low and high are the ends of the shown range.
        unit: a registry unit, or '' for a plain ratio or count.
        facts: ids of the facts behind it; empty only for the asker's own numbers and for definitions.
        working: one line, or several joined by newlines, that a person can follow.
        theirs: the asker's own number, quoted back.

    """

    text: str
    value: float
    low: float
    high: float
    unit: str
    facts: tuple[str, ...] = ()
    working: str = ""
    theirs: bool = False


# "two of my spoons" is "two spoons" when it is quoted back.
_OF_WHOM = re.compile(r"\sof\s(?:my|your|our|his|her|their|these|those)(?=\s)", re.IGNORECASE)


def quoted(amount: Amount, ask: Ask) -> Figure:
    """An amount as its writer wrote it: a figure of their own, quoted back.

    >>> quoted(Amount(2, 2, 2, "tbsp", start=0, end=21), Ask("weight", 0, 21, "two of my tablespoons")).text
    'two tablespoons'
    """
    written = ask.text[amount.start - ask.start : amount.end - ask.start] if amount.start >= ask.start else ""
    shown = " ".join(_OF_WHOM.sub("", written).split()) or f"{amount.value:g} {amount.unit}".strip()
    return Figure(shown, amount.value, amount.low, amount.high, amount.unit, (), "the asker's own number", theirs=True)


class Numbered(str):
    """An ingredient's name that holds a numeral or number word ("type 00 flour"), vouched for as a name."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Computed:
    """What was worked out for one ask.

    Attributes:
        figures: by the names the standing answer gives them.
        assumed: what had to be assumed about the asker's measures, a clause, or ''.
        items: the items asked about, in their usual form where the ask leaves it open.
        words: by the names the standing answer gives them, words that a reply chooses its wording by ('right').

    """

    figures: Mapping[str, Figure]
    assumed: str = ""
    items: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Placed:
    """A figure where it stands in a finished text (characters, end exclusive)."""

    figure: Figure
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class FactUse:
    """A fact a draft leans on, as it was then: id, tier, source id, and the hash of its content."""

    id: str
    tier: str
    source: str
    version: str


@dataclass(frozen=True, slots=True)
class Draft:
    """What is offered to the tester for one comment.

    Attributes:
        status: drafted, ask_back (the reply asks for what is missing), needs_you (a person), no_reply.
        reasons: why, for every status but a plain drafted.
        cautions: ids of the cautions that go with it.
        reply: the text, or None.
        part: the answered part where another ask must go to a person.
        note: one sentence for the tester, never for sending.
        matched: the asks with their standing answers.
        nearest: ids of the nearest answers or items where there is no draft.
        names: ingredient names in the reply that hold a number ("type 00 flour"), vouched for as names.

    """

    comment: str
    status: Status
    reasons: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    reply: str | None = None
    part: str | None = None
    note: str = ""
    sureness: float = 0.0
    figures: tuple[Placed, ...] = ()
    facts: tuple[FactUse, ...] = ()
    matched: tuple[Matched, ...] = ()
    nearest: tuple[str, ...] = ()
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Example:
    """A labelled comment: what a careful reader says should be understood of it. Learned parts are fitted on these.

    Attributes:
        voice: who wrote it; examples are split by voice, never by row.
        asks: type and ingredient ids of each thing asked.
        mentions: start, end and item of each ingredient named.
        answers: for each ask the standing answers a tester would sign, best first; None where nobody judged.
    """

    id: str
    text: str
    voice: str
    language: str
    kinds: tuple[Kind, ...]
    asks: tuple[tuple[AskType, tuple[str, ...]], ...]
    mentions: tuple[tuple[int, int, str], ...]
    status: Status
    reasons: tuple[str, ...] = ()
    episode: str = ""
    parent_text: str = ""
    answers: tuple[tuple[str, ...] | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Tally:
    """Viewers' own results with one ingredient: comment ids, sorted by how it went."""

    item: str
    good: tuple[str, ...] = ()
    bad: tuple[str, ...] = ()
    unclear: tuple[str, ...] = ()

    @property
    def comments(self) -> tuple[str, ...]:
        """All reports."""
        return (*self.good, *self.bad, *self.unclear)

    def figure(self, which: Literal["all", "good", "bad"]) -> Figure:
        """How many reports, as a figure vouched for by the reports themselves."""
        ids = {"all": self.comments, "good": self.good, "bad": self.bad}[which]
        working = "counted: " + ", ".join(ids)
        return Figure(str(len(ids)), len(ids), len(ids), len(ids), "", (f"reports:{self.item}",), working)


class Said(NamedTuple):
    """One comment with everything known of it; `signed` is the text a person signed, or ''; `sent` if it went out."""

    comment: Comment
    understood: Understood
    draft: Draft
    signed: str = ""
    sent: bool = False
