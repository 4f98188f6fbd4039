"""The only place that knows the order of the stages. Pure: no clock, no disk, no network.

clean → sort → extract → match → compute → draft → render → vouch
"""

from __future__ import annotations

import re
import zlib
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple

from qa.errors import NoKnowledge
from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.outside.render import Gate, Page
from qa.records import Ask, Comment, Computed, Draft, Example, FactUse, Figure, Placed, Tally, Understood
from qa.settings import Settings
from qa.stages import clean, compute, draft, extract, group, match, sort, tally, vouch
from qa.stages.draft import Fragment, Outline, Part
from qa.stages.extract import reports
from qa.stages.round_up import LeftOut, Line, Sheet
from qa.text import listed
from qa.trials import suspects
from qa.trials.suspects import Batch


@dataclass(frozen=True, slots=True)
class Models:
    """The learned parts, fitted on labelled examples and on the standing answers with a fixed seed."""

    kinds: Any
    asks: Any
    answers: Any


@dataclass(frozen=True, slots=True)
class Voice:
    """How the channel speaks: the templates folder and the sentences that thank for a result."""

    templates: Path
    thanks: tuple[str, ...]


def learn(examples: Sequence[Example], library: Library, say: Callable[[str], None] = lambda _part: None) -> Models:
    """Fit the learned parts, and say before each what is learned."""
    say("what comments are")
    kinds = sort.learn_kinds(examples)
    say("what they ask")
    asks = extract.learn_asks(examples, library.knowledge.answers)
    say("how often that is misread")
    judged = _judged(examples, library)
    say("which standing answer serves, and how sure to be; half of the time goes to this")
    return Models(kinds, asks, match.learn_answers(library, judged))


def _judged(examples: Sequence[Example], library: Library) -> list[match.Judged]:
    """What a reader said of the asks of labelled comments, as we understand them.

    Each half of the voices is read by what was learned on the other half: misreadings are part of what the match must
    be sure in spite of.
    """
    if not any(answers is not None for example in examples for answers in example.answers):
        return []
    voices = {voice: place % 2 for place, voice in enumerate(sorted({example.voice for example in examples}))}
    halves = [[example for example in examples if voices[example.voice] == half] for half in (0, 1)]
    found: list[match.Judged] = []
    for own, others in (halves, halves[::-1]):
        models = Models(sort.learn_kinds(others), extract.learn_asks(others, library.knowledge.answers), None)
        shown = [example for example in own if example.language == "en"]
        comments = [Comment(one.id, one.text, episode=one.episode, parent=f"{one.id}^") for one in shown]
        parents = {f"{one.id}^": one.parent_text for one in shown}
        for example, said in zip(shown, understand(comments, library, Settings(), models, parents), strict=True):
            found += _verdicts(example, said)
    return found


# Reasons that say nothing against an answer: nobody measured it when the comment was labelled.
_UNKNOWN = frozenset(
    ("no_knowledge", "unknown_ingredient", "missing_detail", "missing_amount", "missing_ingredient", "missing_measure")
)


def _verdicts(example: Example, said: Understood) -> Iterator[match.Judged]:
    """For each ask that was understood the answers that would be signed: none if it was not asked, or must be held.

    An ask that no reader found is mostly a piece of one they did find, so what answers the comment answers it as well.
    """
    places = match.aligned([(ask.type, ask.ingredients) for ask in said.asks], example.asks)
    for ask, place in zip(said.asks, places, strict=True):
        signable = _signable(example, place)
        if signable is None and not _UNKNOWN.issuperset(example.reasons):
            signable = ()
        if signable is not None:
            yield match.Judged(ask, said.mentions, said.text, signable, example.voice)


def _signable(example: Example, place: int | None) -> tuple[str, ...] | None:
    """What answers a labelled ask, or any of them where it is none of them; None where nobody judged it."""
    if place is not None:
        return example.answers[place] if example.answers else None
    if example.reasons:
        return ()
    judged = [answers for answers in example.answers if answers is not None]
    whole = len(judged) == len(example.answers)
    return tuple(dict.fromkeys(answer for own in judged for answer in own)) if whole else None


def understand(
    comments: Sequence[Comment],
    library: Library,
    settings: Settings,
    models: Models,
    parents: Mapping[str, str],
) -> list[Understood]:
    """What each comment says and asks.

    Args:
        comments: as received.
        library: the names of ingredients, the episodes' recipes.
        settings: the channel's settings.
        models: the learned parts.
        parents: text of every comment that another replies to, by id.
    """
    cleaned = clean.clean(comments)
    pieces = sort.sort(cleaned, models.kinds, [parents.get(comment.parent, "") for comment in comments])
    understood = extract.extract(cleaned, pieces, comments, library, settings, models.asks, parents)
    return [replace(one, topic=group.topic_id(one.asks[0])) if one.asks else one for one in understood]


def answer(
    understood: Sequence[Understood],
    library: Library,
    settings: Settings,
    models: Models,
    voice: Voice,
    tallies: Mapping[str, Tally],
) -> list[Draft]:
    """A draft, or the reason for none, for each comment."""
    matched = match.match(understood, library, models.answers, settings)

    def work(ask: Ask, standing: Answer) -> Computed:
        return compute.compute(ask, standing, library, settings.region)

    def spoken_of(ask: Ask, standing: Answer) -> tuple[float, ...]:
        return match.spoken_of(ask, standing, models.answers)

    outlines = (draft.draft(u, m, library, work, spoken_of, tallies) for u, m in zip(understood, matched, strict=True))
    return [finish(outline, library, settings, voice) for outline in outlines]


def finish(outline: Outline, library: Library, settings: Settings, voice: Voice) -> Draft:
    """Render an outline and vouch for every number in it; a text that fails is not offered."""
    page = _write(outline, library, voice) if outline.parts else Page("", (), ())
    loose = vouch.vouch(page.text, page.placed, page.names)
    status, reasons, note = outline.status, outline.reasons, outline.note
    if loose:
        status, reasons = "needs_you", (*reasons, "unvouched_number")
        note = f"{note} Held back: no figure vouches for {loose[0].text!r}.".strip()
    elif page.text and status in {"drafted", "ask_back"} and len(page.text.split()) > 2 * settings.reply_words:
        note = f"{note} Long: {len(page.text.split())} words; the limit is {settings.reply_words}.".strip()
    offered = page.text if not loose and page.text else None
    sendable = status in {"drafted", "ask_back"}
    figures: tuple[Placed, ...] = page.placed if offered else ()
    return Draft(
        comment=outline.comment,
        status=status,
        reasons=reasons,
        cautions=outline.cautions,
        reply=offered if sendable else None,
        part=None if sendable else offered,
        note=note,
        sureness=outline.sureness,
        figures=figures,
        facts=facts_behind(figures, library),
        matched=outline.matched,
        nearest=outline.nearest,
        names=tuple(dict.fromkeys(page.text[start:end] for start, end in page.names)),
    )


def _write(outline: Outline, library: Library, voice: Voice) -> Page:
    gate = Gate(voice.templates)
    turn = zlib.crc32(outline.comment.encode())  # ids of an upload are mostly of one length, so that tells nothing
    thanks = voice.thanks[turn % len(voice.thanks)] if outline.thanks and voice.thanks else ""
    values = {
        "parts": [_part(gate, part) for part in outline.parts],
        "cautions": [library.caution(caution).text for caution in outline.cautions],
        "thanks": thanks,
    }
    return gate.unseal(gate.file("reply.txt.j2", values))


def _part(gate: Gate, part: Part) -> str:
    values = {
        name: gate.part(value.source, value.values) if isinstance(value, Fragment) else value
        for name, value in part.values.items()
    }
    return gate.part(part.body, values)


def facts_behind(figures: Sequence[Placed], library: Library) -> tuple[FactUse, ...]:
    """Every fact the figures lean on, as it is now."""
    ids = dict.fromkeys(fact for placed in figures for fact in placed.figure.facts)
    return tuple(library.use(fact) for fact in ids)


FOLLOW_UPS = reports.QUESTIONS
"""The question to ask whoever did not say, by kind of circumstance."""


@dataclass(frozen=True, slots=True)
class Reports:
    """What is told of an outcome: bakes that had it or had it not, and how many results do not say."""

    batches: tuple[Batch, ...]
    unsaid: int


def reports_of(
    outcome: str, understood: Iterable[Understood], episodes: Mapping[str, str], library: Library, only: str = ""
) -> Reports:
    """Viewers' results and own trials that tell whether an outcome came, under uploads where it came to somebody.

    Args:
        outcome: a plain word ('green').
        understood: comments, whatever they are.
        episodes: the upload each stands under, by comment.
        library: recipes and trials.
        only: the upload to look at; every one if left out.
    """
    recipes = {one.id: reports.recipe_of(one) for one in library.knowledge.episodes}
    told: dict[str, list[Batch]] = defaultdict(list)
    silent: Counter[str] = Counter()
    for one in understood:
        episode = episodes.get(one.comment, "")
        if only in ("", episode) and any(kind == "result" for kind, _ in one.kinds):
            found = reports.batches(one, outcome, recipes.get(episode), library, tally.outcome)
            told[episode] += found
            silent[episode] += not found
    for trial in library.knowledge.trials:
        if only in ("", trial.episode):
            had = reports.had_in(outcome)
            shown = recipes.get(trial.episode)
            told[trial.episode] += suspects.own_batches(trial, shown.items if shown else None, had)
    came = [episode for episode, found in told.items() if any(batch.had for batch in found)]
    return Reports(tuple(b for episode in came for b in told[episode]), sum(silent[episode] for episode in came))


@dataclass(frozen=True, slots=True)
class Edit:
    """A reply in a person's wording, checked.

    Attributes:
        figures: every figure found again in the text.
        loose: numbers that nothing vouches for; with any of them it cannot be signed.
        lacking: ids of cautions whose usual sentence is not in it.
        moved: ids of facts that changed or went since the draft.
    """

    text: str
    figures: tuple[Placed, ...]
    loose: tuple[vouch.Unvouched, ...]
    lacking: tuple[str, ...]
    moved: tuple[str, ...]


def check_edit(text: str, made: Draft | None, own: Sequence[Figure], library: Library) -> Edit:
    """Vouch for a person's wording by the draft's figures and by the numbers they took on themselves."""
    drafted = [placed.figure for placed in made.figures] if made else []
    figures = vouch.place(text, (*drafted, *own))
    spans = [found.span() for name in (made.names if made else ()) for found in re.finditer(re.escape(name), text)]
    known = {caution.id: caution.text for caution in library.knowledge.cautions}
    lacking = [key for key in (made.cautions if made else ()) if key in known and known[key] not in text]
    moved = [use.id for use in (made.facts if made else ()) if use.version and not is_as_it_was(use, library)]
    return Edit(text, figures, vouch.vouch(text, figures, spans), tuple(lacking), tuple(moved))


def is_as_it_was(use: FactUse, library: Library) -> bool:
    """Whether a fact still says what it said when a draft leaned on it."""
    try:
        return library.use(use.id).version == use.version
    except NoKnowledge:
        return False


@dataclass(frozen=True, slots=True)
class Block:
    """One written line of the tip sheet; start is where its text begins in the whole sheet's text."""

    heading: str
    topic: str
    text: str
    credits: tuple[str, ...]
    start: int


@dataclass(frozen=True, slots=True)
class RoundUp:
    """The tip sheet as it would be pinned, every number vouched for, and what was left out and why."""

    title: str
    foot: str
    text: str
    blocks: tuple[Block, ...]
    figures: tuple[Placed, ...]
    facts: tuple[FactUse, ...]
    left_out: tuple[LeftOut, ...]


def write_round_up(sheet: Sheet, title: str, foot: str, library: Library, settings: Settings) -> RoundUp:
    """Write the sheet up to the limit; a line with an unvouched number is left out, never mended.

    Where there is no room for all, every section gives its first lines before any gives its last.

    Args:
        sheet: what was gathered.
        title: the heading, without numbers.
        foot: the closing line, without numbers.
        library: facts behind the figures.
        settings: the limit in characters.
    """
    left_out = list(sheet.left_out)
    written: dict[tuple[int, int], _Written] = {}
    for section_at, section in enumerate(sheet.sections):
        for line_at, line in enumerate(section.lines):
            page = _line(line)
            if loose := vouch.vouch(page.text, page.placed, page.names):
                left_out.append(LeftOut(line.topic, f"no figure vouches for {loose[0].text!r}"))
            else:
                written[line_at, section_at] = _written(line, page)
    room = settings.round_up_characters - len(title) - len(foot) - len("\n\n\n")
    taken: list[tuple[int, int]] = []  # section and line
    for (line_at, section_at), own in sorted(written.items()):
        opens = all(other != section_at for other, _ in taken)
        needed = own.length + (len(f"\n{sheet.sections[section_at].heading}\n") if opens else 0)
        if needed > room:
            left_out.append(LeftOut(own.line.topic, "no room under the limit"))
            continue
        room -= needed
        taken.append((section_at, line_at))
    text, blocks, figures = title, list[Block](), list[Placed]()
    for section_at, line_at in sorted(taken):
        heading, own = sheet.sections[section_at].heading, written[line_at, section_at]
        text += f"\n\n{heading.upper()}" if not blocks or blocks[-1].heading != heading else ""
        start = len(text) + len(own.lead)
        figures += (Placed(p.figure, p.start + start, p.end + start) for p in own.page.placed)
        blocks.append(Block(heading, own.line.topic, own.page.text, own.line.credits, start))
        text += f"{own.lead}{own.page.text}{own.credit}"
    text += f"\n\n{foot}\n"
    return RoundUp(title, foot, text, tuple(blocks), tuple(figures), facts_behind(figures, library), tuple(left_out))


class _Written(NamedTuple):
    """A line of the sheet with what stands before and after it."""

    line: Line
    page: Page
    lead: str
    credit: str

    @property
    def length(self) -> int:
        return len(self.lead) + len(self.page.text) + len(self.credit)


def _written(line: Line, page: Page) -> _Written:
    lead = f"\n- {line.topic}{'' if line.topic.endswith('?') else ':'} "
    return _Written(line, page, lead, f" (thanks to {listed(line.credits)})" if line.credits else "")


def _line(line: Line) -> Page:
    if line.finished:
        names = [
            (found.start(), found.end()) for name in line.names for found in re.finditer(re.escape(name), line.source)
        ]
        return Page(line.source, vouch.place(line.source, (p.figure for p in line.placed)), tuple(names))
    return Gate().write(line.source, line.values)
