"""Gather the pinned tip sheet: what was asked most, spoons in grams, what viewers and the kitchen's tests found."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from qa.errors import NoKnowledge
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.records import Figure, Numbered, Placed, Said, Tally, Topic
from qa.text import number_spans
from qa.trials.compare import fairness

_SPOONED = ("1 us_tbsp", "1 us_cup")
_MOST_PER_SECTION = 8
_LONGEST_QUOTE = 220
_BARE_I = re.compile(r"\bi\b")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the tip sheet: a finished text with its figures, or a template with values; and whom it credits.

    Attributes:
        topic: what it is about, in plain words or as a question; printed before the text.
        source: template source; the finished text itself where `placed` is given.
        placed: figures of a finished text that was vouched for before.
        credits: handles of the viewers it owes something to.
    """

    topic: str
    source: str
    values: Mapping[str, Any]
    placed: tuple[Placed, ...] = ()
    names: tuple[str, ...] = ()
    credits: tuple[str, ...] = ()
    finished: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with its lines, most wanted first."""

    heading: str
    lines: tuple[Line, ...]


class LeftOut(NamedTuple):
    """Something that is not on the sheet, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """The tip sheet before it is written, and what was left out of it and why."""

    sections: tuple[Section, ...]
    left_out: tuple[LeftOut, ...]


def round_up(
    said: Sequence[Said],
    tallies: Mapping[str, Tally],
    library: Library,
    topics: Mapping[str, Topic],
    weigh: Callable[[str, str], Figure],
    thanks: Sequence[str] = (),
) -> Sheet:
    """Gather the sheet.

    Args:
        said: comments with what was understood, drafted and signed.
        tallies: viewers' results by ingredient.
        library: names, trials and facts.
        topics: by id.
        weigh: grams of an amount ("1 us_tbsp") of an item; raises NoKnowledge.
        thanks: sentences that a reply to one viewer may open with, which the sheet does without.
    """
    left_out: list[LeftOut] = []
    sections = (
        Section("Asked most", _asked(said, library, topics, thanks, left_out)),
        Section("In grams", _grams(said, library, weigh)),
        Section("What viewers found", (*_found(said, tallies, library), *_tips(said, left_out))),
        Section("Tested here", _tested(library)),
        Section("Not known yet", _open(said, topics)),
    )
    return Sheet(tuple(section for section in sections if section.lines), tuple(left_out))


# What one viewer wants for themselves, which helps nobody else on a pinned sheet.
_FOR_ONE_VIEWER = frozenset(("tried", "where_to_buy", "episode", "other", "check"))
# A sum that reads one viewer's label does not either.
_OF_A_LABEL = frozenset(("carbs", "nutrition"))


def _asked(
    said: Sequence[Said],
    library: Library,
    topics: Mapping[str, Topic],
    thanks: Sequence[str],
    left_out: list[LeftOut],
) -> tuple[Line, ...]:
    """The best reply of each answered topic, most asked first; signed ones before drafts."""
    by_topic: dict[str, list[Said]] = defaultdict(list)
    for one in said:
        asks = [match.ask for match in one.draft.matched]
        if one.understood.topic and one.draft.status == "drafted" and len(asks) == 1:
            if asks[0].type in _FOR_ONE_VIEWER or (asks[0].type in _OF_A_LABEL and _theirs(one) and not one.signed):
                left_out.append(LeftOut(_name(one.understood.topic, topics), "of use to one viewer"))
            else:
                by_topic[one.understood.topic].append(one)
    lines = []
    for topic, askers in sorted(by_topic.items(), key=lambda pair: (-len(pair[1]), pair[0])):
        best = max(askers, key=_fitness)
        text = _unthanked(best.signed or best.draft.reply or "", thanks)
        match = best.draft.matched[0]
        # Over a reply about more than its topic names, or where nothing is named, the question it answers says more.
        about = topics[topic].items if topic in topics else match.ask.ingredients
        own = bool(about) and set(about) == set(match.ask.ingredients)
        name = _name(topic, topics) if own else _question(match.answer, library) or _name(topic, topics)
        lines.append(Line(name, text, {}, best.draft.figures, best.draft.names, finished=True))
    left_out += (LeftOut(line.topic, "asked less often than the rest") for line in lines[_MOST_PER_SECTION:])
    return tuple(lines[:_MOST_PER_SECTION])


def _unthanked(text: str, thanks: Sequence[str]) -> str:
    """A reply without the sentence that thanks its one viewer."""
    return text.removeprefix(next((f"{line} " for line in thanks if text.startswith(f"{line} ")), ""))


def _theirs(said: Said) -> bool:
    """Whether a reply shows the asker's own numbers."""
    return any(placed.figure.theirs for placed in said.draft.figures)


def _question(answer: str | None, library: Library) -> str:
    """What a standing answer answers: its first phrasing with neither a number nor a blank, as a question; ''."""
    try:
        phrasings = library.answer(answer or "").phrasings
    except NoKnowledge:
        return ""
    plain = next((one for one in phrasings if "{" not in one and not number_spans(one)), "").rstrip("?!. ")
    spoken = _BARE_I.sub("I", plain)
    return f"{spoken[:1].upper()}{spoken[1:]}?" if spoken else ""


def _name(topic: str, topics: Mapping[str, Topic]) -> str:
    return topics[topic].name if topic in topics else topic


def _fitness(said: Said) -> tuple[bool, bool, bool, float, int]:
    """How well a reply stands by itself: signed, no thanks to one viewer, no number of theirs, sure, short."""
    thanks = any(kind == "result" for kind, _ in said.understood.kinds)
    return (bool(said.signed), not thanks, not _theirs(said), said.draft.sureness, -len(said.draft.reply or ""))


def _grams(said: Sequence[Said], library: Library, weigh: Callable[[str, str], Figure]) -> tuple[Line, ...]:
    """Spoon and cup in grams for everything that was asked by the spoon."""
    asked: dict[str, int] = defaultdict(int)
    for one in said:
        for match in one.draft.matched:
            if match.ask.type in {"weight", "convert", "swap"}:
                for item in match.ask.items:
                    asked[library.usual(item)] += 1
    lines = []
    for item in sorted(asked, key=lambda i: (-asked[i], i)):
        try:
            spoon, cup = (weigh(amount, item) for amount in _SPOONED)
        except NoKnowledge:
            continue
        lines.append(
            Line(
                library.name(item),
                "a level US tablespoon {{ spoon }}, a US cup {{ cup }}.",
                {"spoon": spoon, "cup": cup},
            )
        )
    return tuple(lines[:_MOST_PER_SECTION])


_REPORTS = (
    "{{ all }} reports"
    "{% if good %}, {{ happy }} plainly happy{% endif %}"
    "{% if bad %}, {{ unhappy }} let down{% endif %}."
)


def _found(said: Sequence[Said], tallies: Mapping[str, Tally], library: Library) -> tuple[Line, ...]:
    """Ingredients with several reports, how they went, and who told us."""
    author = {one.comment.id: one.comment.author for one in said}
    lines = []
    for tally in sorted(tallies.values(), key=lambda t: (-len(t.comments), t.item)):
        if len(tally.good) + len(tally.bad) < 2 or not library.has(tally.item) or _is_plain(tally.item, library):
            continue
        values = {
            "all": tally.figure("all"),
            "good": bool(tally.good),
            "bad": bool(tally.bad),
            "happy": tally.figure("good"),
            "unhappy": tally.figure("bad"),
        }
        told = tuple(dict.fromkeys(author[c] for c in tally.comments if author.get(c)))
        lines.append(Line(library.name(tally.item), _REPORTS, values, credits=told[:3]))
    return tuple(lines[:_MOST_PER_SECTION])


# What stands in nearly every bake says nothing about a swap.
_PLAIN_FAMILIES = frozenset({"liquid", "salt"})


def _is_plain(item: str, library: Library) -> bool:
    return library.ingredient(item).family in _PLAIN_FAMILIES or not library.facts(library.usual(item))


def _tips(said: Sequence[Said], left_out: list[LeftOut]) -> tuple[Line, ...]:
    """The best-liked tips, quoted in the viewers' own words; unsafe ones are held out."""
    tips = [one for one in said if any(kind == "tip" and sure >= 0.5 for kind, sure in one.understood.kinds)]
    lines = []
    for one in sorted(tips, key=lambda s: (-s.comment.likes, s.comment.id)):
        text = " ".join(one.understood.text.split())
        if one.understood.unsafe:
            left_out.append(LeftOut(f"a tip by {one.comment.author or 'a viewer'}", "unsafe to repeat"))
        elif one.understood.language == "en" and one.understood.mentions and len(text) <= _LONGEST_QUOTE:
            who = (one.comment.author,) if one.comment.author else ()
            lines.append(
                Line("A viewer's tip, not tested here", "“{{ quote }}”", {"quote": Numbered(text)}, credits=who)
            )
    return tuple(lines[:3])


_AS_A_HINT = " It was not a fair test, so take what was seen as a hint."


def _tested(library: Library) -> tuple[Line, ...]:
    """What the kitchen's own trials measured and saw; words with numbers stay out, for nothing vouches for those."""
    lines = []
    for trial in library.knowledge.trials:
        seen = [f"{level}: {words.rstrip('.')}" for level, words in trial.observations if not number_spans(words)]
        values: dict[str, Any] = {"seen": "; ".join(seen)}
        parts = []
        for i, fact in enumerate(library.knowledge.facts):
            if fact.source == trial.id and fact.measure:
                shown = figure(Sum(fact.measure, (fact.note,)))
                values |= {f"name{i}": library.name(fact.item), f"value{i}": shown}
                parts.append(f"{{{{ name{i} }}}} {{{{ value{i} }}}}")
        source = "; ".join([*parts, *(["{{ seen }}"] if seen else [])])
        if source:
            note = _AS_A_HINT if seen and fairness(trial, library).verdict == "not fair" else ""
            note += " Invented for demonstration." if trial.invented else ""
            title = Numbered(trial.title) if number_spans(trial.title) else trial.title
            lines.append(Line(title, f"{source}.{note}", values))
    return tuple(lines[:_MOST_PER_SECTION])


def _open(said: Sequence[Said], topics: Mapping[str, Topic]) -> tuple[Line, ...]:
    """What many asked and nobody can answer yet."""
    askers: dict[str, set[str]] = defaultdict(set)
    for one in said:
        if one.understood.topic and {"no_knowledge", "unknown_ingredient"} & set(one.draft.reasons):
            askers[one.understood.topic].add(one.comment.id)
    lines = []
    for topic, ids in sorted(askers.items(), key=lambda pair: (-len(pair[1]), pair[0])):
        count = Figure(str(len(ids)), len(ids), len(ids), len(ids), "", (f"comments:{topic}",), "counted")
        if len(ids) > 1:
            lines.append(
                Line(_name(topic, topics), "{{ count }} of you asked; it is on the list to test.", {"count": count})
            )
    return tuple(lines[:3])
