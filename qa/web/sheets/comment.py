"""The comment sheet: their words with what was understood, our answer, and the margin."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from qa import pipeline
from qa.errors import NoKnowledge
from qa.knowledge.library import Library
from qa.measures.parse import Amount
from qa.measures.show import plain, unit_name
from qa.outside.store import Decision, Entry, seen_hash
from qa.records import Draft, Mention, Placed, Understood
from qa.settings import Settings
from qa.stages.vouch import Unvouched
from qa.text import listed
from qa.web.sheets.slips import Slip, item_name, slips
from qa.web.words import ASKS, date_words, decision_words, length_words, sureness_words, untangled

LONGEST_SHOWN = 4_000
"""Characters of a comment on its sheet; the whole text has a page of its own."""
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text of one kind.

    Attributes:
        kind: '' for plain text; 'ingredient', 'amount', 'unsure' in their words; 'figure', 'loose' in ours.
        said: what was understood of it, for the eye and for a screen reader.
        asks: letters of the asks that begin here.
        key: its number on the sheet, 0 for plain text.
    """

    text: str
    kind: str = ""
    said: str = ""
    asks: str = ""
    key: int = 0


@dataclass(frozen=True, slots=True)
class AskNote:
    """An ask in the margin: its letter, what is asked, about what, how sure, and what answers it."""

    letter: str
    wanted: str
    about: str
    sureness: str
    answer: str


@dataclass(frozen=True, slots=True)
class Working:
    """A figure's working in the margin, with the ids of the facts it leans on."""

    text: str
    lines: tuple[str, ...]
    start: int
    own: bool
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CautionNote:
    """A caution with the authority it is from; `missing` if its sentence is not in the text."""

    id: str
    topic: str
    text: str
    authority: str
    missing: bool


@dataclass(frozen=True, slots=True)
class Near:
    """Knowledge that comes close where there is no draft: a standing answer's askings, or an item."""

    id: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class Answering:
    """Our answer as it stands, checked: everything that changes while somebody types.

    Attributes:
        text: exactly as it is in the field.
        runs: the text with figures and loose numbers marked.
        loose: numbers that nothing vouches for.
        notes: the workings of figures and the loose numbers, in the order of the text.
        seen: the hash of the text in hand, which signing sends back.
        standing: the number of the decision that stands, 0 for none.
    """

    text: str
    runs: tuple[Run, ...]
    loose: tuple[Unvouched, ...]
    notes: tuple[Working | Unvouched, ...]
    slips: tuple[Slip, ...]
    cautions: tuple[CautionNote, ...]
    moved: tuple[str, ...]
    length: str
    seen: str
    standing: int


@dataclass(frozen=True, slots=True)
class CommentSheet:
    """Everything on the sheet of one comment."""

    id: str
    author: str
    episode: str
    episode_title: str
    day: str
    likes: int
    parent: str
    parent_id: str
    words: tuple[Run, ...]
    cut: int
    language: str
    asks: tuple[AskNote, ...]
    kinds: str
    answering: Answering
    status: str
    reason: str
    urgent: bool
    partly: bool
    near: tuple[Near, ...]
    sureness: str
    sureness_number: str
    decision: str
    decided: str
    topic: str
    answers: tuple[str, ...]
    invented: bool


def comment_sheet(
    entry: Entry, checked: pipeline.Edit, library: Library, settings: Settings, parent: str = ""
) -> CommentSheet:
    """The sheet of one comment.

    Args:
        entry: the comment with all that is known of it.
        checked: the text in hand, vouched for.
        library: names, facts, cautions.
        settings: limits.
        parent: the text it replies to, or ''.
    """
    comment, understood, draft = entry.comment, entry.understood, entry.draft
    text = understood.text if understood else comment.text
    decision = entry.decision
    decided = decision.kind if decision and decision.kind != "changed" else ""
    return CommentSheet(
        id=comment.id,
        author=untangled(comment.author) or "a viewer",
        episode=comment.episode,
        episode_title=_episode_title(comment.episode, library),
        day=date_words(comment.time),
        likes=comment.likes,
        parent=untangled(parent[:600]),
        parent_id=comment.parent,
        words=their_runs(understood, library) if understood else (Run(untangled(text[:LONGEST_SHOWN])),),
        cut=max(0, len(text) - LONGEST_SHOWN),
        language=understood.language if understood else "",
        asks=ask_notes(draft, library) if draft else (),
        kinds=", ".join(f"{kind} ({sureness_words(sure)})" for kind, sure in understood.kinds) if understood else "",
        answering=answering(entry, checked, library, settings),
        status=draft.status if draft else "",
        reason=_reason(draft),
        urgent=bool(draft and {"health", "unsafe", "safety", "allergy"} & set(draft.reasons)),
        partly=bool(draft and draft.part),
        near=_near(draft, library) if draft and draft.status == "needs_you" else (),
        sureness=sureness_words(draft.sureness) if draft else "",
        sureness_number=f"{draft.sureness:.2f}" if draft else "",
        decision=decision_words(decision.kind, decision.who, decision.at) if decision else "",
        decided=decided,
        topic=understood.topic if understood else "",
        answers=tuple(dict.fromkeys(m.answer for m in draft.matched if m.answer)) if draft else (),
        invented=settings.invented,
    )


def text_in_hand(entry: Entry) -> str:
    """What the field holds: a person's wording, else the draft, else the part that could be answered."""
    return entry.text or ((entry.draft.part or "") if entry.draft is not None else "")


def answering(entry: Entry, checked: pipeline.Edit, library: Library, settings: Settings) -> Answering:
    """Our answer as it stands; `checked` is of the text to show."""
    draft = entry.draft
    own = {figure.text for figure in entry.decision.own} if entry.decision else set()
    workings = _workings(checked.figures, own)
    return Answering(
        text=checked.text,
        runs=our_runs(checked),
        loose=checked.loose,
        notes=tuple(sorted((*workings, *checked.loose), key=lambda note: note.start)),
        slips=slips((fact for note in workings for fact in note.facts), library),
        cautions=_cautions(draft.cautions if draft else (), checked.lacking, library),
        moved=tuple(_fact_words(fact, library) for fact in checked.moved),
        length=length_words(checked.text, settings.reply_words),
        seen=seen_hash(text_in_hand(entry)),
        standing=standing_of(entry.decision),
    )


def standing_of(decision: Decision | None) -> int:
    """The number of a decision, 0 for none."""
    return decision.number if decision else 0


def our_runs(checked: pipeline.Edit) -> tuple[Run, ...]:
    """The text in stretches: figures that are vouched for, numbers that are not, and the rest."""
    marks = sorted(
        [(placed.start, placed.end, "figure") for placed in checked.figures]
        + [(loose.start, loose.end, "loose") for loose in checked.loose]
    )
    runs, at = [], 0
    for key, (start, end, kind) in enumerate(marks, 1):
        if start > at:
            runs.append(Run(checked.text[at:start]))
        runs.append(Run(checked.text[start:end], kind, key=key))
        at = end
    return (*runs, Run(checked.text[at:]))


def _workings(placed: Sequence[Placed], own: set[str]) -> tuple[Working, ...]:
    """Each figure's working once, in the order of the text."""
    notes: dict[tuple[str, str], Working] = {}
    for one in placed:
        figure = one.figure
        key = (figure.text, figure.working)
        notes.setdefault(
            key,
            Working(figure.text, tuple(figure.working.split("\n")), one.start, figure.text in own, figure.facts),
        )
    return tuple(notes.values())


def their_runs(understood: Understood, library: Library) -> tuple[Run, ...]:
    """The comment in stretches, with ingredients and amounts marked and asks lettered where they begin."""
    text = understood.text[:LONGEST_SHOWN]
    opens: dict[int, str] = {}
    for letter, ask in zip(_LETTERS, understood.asks, strict=False):
        opens[ask.start] = opens.get(ask.start, "") + letter
    runs: list[Run] = []
    at = 0
    for key, (start, end, kind, said) in enumerate(_marks(understood, len(text), library), 1):
        runs += _plain(text, at, start, opens)
        letters = "".join(opens[place] for place in sorted(opens) if start <= place < end)
        runs.append(Run(untangled(text[start:end]), kind, said, letters, key))
        at = end
    return (*runs, *_plain(text, at, len(text), opens))


def _plain(text: str, start: int, end: int, opens: Mapping[int, str]) -> list[Run]:
    cuts = sorted({start, end, *(place for place in opens if start <= place < end)})
    return [Run(untangled(text[a:b]), asks=opens.get(a, "")) for a, b in pairwise(cuts)]


def _marks(understood: Understood, length: int, library: Library) -> list[tuple[int, int, str, str]]:
    """What is underlined: ingredients first, then amounts where they stand free; none overlap."""
    found = [(m.start, m.end, _kind(m), mention_words(m, library)) for m in understood.mentions]
    amounts = [a for ask in understood.asks for a in ask.amounts] + [m.amount for m in understood.mentions if m.amount]
    found += [(a.start, a.end, "amount", f"amount: {amount_words(a)}") for a in amounts]
    taken: list[tuple[int, int, str, str]] = []
    for mark in found:
        if mark[0] < mark[1] <= length and all(mark[1] <= t[0] or mark[0] >= t[1] for t in taken):
            taken.append(mark)
    return sorted(taken)


def _kind(mention: Mention) -> str:
    return "ingredient" if mention.sureness >= 0.75 and not mention.others else "unsure"


def mention_words(mention: Mention, library: Library) -> str:
    """What an ingredient was taken for, and how surely."""
    amount = f"; amount: {amount_words(mention.amount)}" if mention.amount else ""
    others = [item_name(item, library) for item in mention.others if item != mention.item]
    doubt = f", or {listed(others, 'or')}" if others else ""
    return f"ingredient: {item_name(mention.item, library)}{doubt} ({sureness_words(mention.sureness)}){amount}"


def amount_words(amount: Amount) -> str:
    """An amount as it was understood.

    >>> from qa.measures.parse import find_amounts
    >>> amount_words(find_amounts("1-2 tbsp")[0])
    '1 to 2 tbsp'
    """
    number = plain(amount.value) if amount.low == amount.high else f"{plain(amount.low)} to {plain(amount.high)}"
    return f"{number} {unit_name(amount.unit, amount.high)}".strip()


def ask_notes(draft: Draft, library: Library) -> tuple[AskNote, ...]:
    """The asks with what was found for each."""
    return tuple(
        AskNote(
            letter=letter,
            wanted=ASKS[match.ask.type],
            about=listed(item_name(item, library) for item in match.ask.items),
            sureness=sureness_words(match.ask.sureness),
            answer=match.answer or "",
        )
        for letter, match in zip(_LETTERS, draft.matched, strict=False)
    )


def _reason(draft: Draft | None) -> str:
    if draft is None:
        return "It was not read yet: run `levelspoon draft`."
    if draft.note:
        return untangled(draft.note)
    return _NO_REPLY.get(draft.reasons[0], "") if draft.status == "no_reply" and draft.reasons else ""


_NO_REPLY = {
    "nothing_asked": "Nothing is asked here.",
    "spam": "It reads like an advertisement.",
    "no_text": "It holds no words.",
}


def _near(draft: Draft, library: Library) -> tuple[Near, ...]:
    """The standing answers that came closest, then the items asked about."""
    found = []
    for key in draft.nearest:
        try:
            answer = library.answer(key)
        except NoKnowledge:
            continue
        found.append(Near(key, key.replace("-", " "), f"answers “{answer.phrasings[0]}”"))
    return tuple(found)


def _cautions(ids: Sequence[str], lacking: Sequence[str], library: Library) -> tuple[CautionNote, ...]:
    found = []
    for key in ids:
        try:
            caution = library.caution(key)
        except NoKnowledge:
            continue
        found.append(CautionNote(key, caution.topic, caution.text, caution.authority, key in lacking))
    return tuple(found)


def _fact_words(key: str, library: Library) -> str:
    """A changed fact with what it says now."""
    found = slips([key], library)
    return f"{found[0].title} now says {found[0].value}" if found else f"{key} is no longer in the larder"


def _episode_title(key: str, library: Library) -> str:
    try:
        return library.episode(key).title
    except NoKnowledge:
        return ""
