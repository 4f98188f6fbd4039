"""Choose what is offered for one comment: status, reasons, and the parts of a reply with their figures."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from qa.errors import Missing, NoKnowledge
from qa.kitchen.shows import WHOLE, shows
from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.measures.units import dimension, known
from qa.records import TIERS, Ask, Computed, Figure, Matched, Numbered, Status, Tally, Understood, quoted
from qa.text import listed, number_spans
from qa.text.verdicts import asks_openly, asks_yes_or_no, begins_with_verdict, without_assent

# Reasons that send an ask to a person whatever else the comment holds (DESIGN 13); their order is that of urgency.
FOR_A_PERSON = ("health", "unsafe", "safety", "allergy", "legal", "maker", "recipe_conflict")
# Asks whose answer bears on eating or handling: an ingredient's own cautions go with it. A spoon's weight does not.
_HANDLED = frozenset(
    ("swap", "method", "storage", "safety", "carbs", "nutrition", "allergy", "health", "colour", "went_wrong")
)
_MEDICAL_CAUTION = "S34"
_MOST_CAUTIONS = 3
# How likely a runner-up must be right, given that the first answer lacks a fact or an amount, to take its place.
_LIKELY_INSTEAD = 0.5
# How much less of an ask a body may speak of than the best and still be taken in turn with it.
_ABOUT_AS_MUCH = 0.05

Compute = Callable[[Ask, Answer], Computed]
SpokenOf = Callable[[Ask, Answer], Sequence[float]]


@dataclass(frozen=True, slots=True)
class Fragment:
    """A piece of template with its values, rendered through the same gate before the part that shows it."""

    source: str
    values: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Part:
    """The answer to one ask, ready to be rendered: the chosen variant's source and the values it may show."""

    ask: Ask
    answer: str
    body: str
    values: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Outline:
    """Everything about a draft but its words."""

    comment: str
    status: Status
    reasons: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    thanks: bool = False
    sureness: float = 0.0
    note: str = ""
    matched: tuple[Matched, ...] = ()
    nearest: tuple[str, ...] = field(default=())


def draft(
    understood: Understood,
    matched: Sequence[Matched],
    library: Library,
    compute: Compute,
    spoken_of: SpokenOf,
    tallies: Mapping[str, Tally],
) -> Outline:
    """Outline the reply to one comment.

    Args:
        understood: what the comment says and asks.
        matched: its asks with their standing answers.
        library: names, cautions and answers.
        compute: works out the figures of an answer for an ask; raises Missing or NoKnowledge.
        spoken_of: how much of an ask each of an answer's bodies speaks of, 0 to 1.
        tallies: viewers' reports so far, by ingredient.

    """
    early = _without_asks(understood, matched)
    if early is not None:
        return early
    parts, reasons, settled = _parts(understood.comment, matched, library, compute, spoken_of, tallies)
    cautions = _cautions(understood, parts, reasons, library)
    status: Status = "needs_you" if reasons else "drafted"
    backs = [part for part in parts if library.answer(part.answer).asks_back]
    if backs and not reasons:
        status, reasons = "ask_back", tuple(dict.fromkeys(_lack(part.ask) for part in backs))
    return Outline(
        comment=understood.comment,
        status=status,
        reasons=reasons,
        cautions=cautions,
        parts=parts,
        thanks=any(kind == "result" for kind, _ in understood.kinds),
        sureness=min((m.sureness for m in settled if m.answer), default=0.0),
        note=_note(reasons, matched, library),
        matched=tuple(settled),
        nearest=_nearest(settled),
    )


def _without_asks(understood: Understood, matched: Sequence[Matched]) -> Outline | None:
    """The outline of a comment that needs no answer or none we can write."""
    kinds = {kind for kind, _ in understood.kinds}
    comment = understood.comment
    if understood.conflict and all(m.ask.type == "episode" for m in matched):
        note = f"On the list of corrections for this episode: {understood.conflict}"
        return Outline(comment, "needs_you", ("recipe_conflict",), note=note, matched=tuple(matched))
    if understood.unsafe and not matched:
        note = "Unsafe tip: do not repeat it; consider a correction under it."
        return Outline(comment, "no_reply", ("unsafe",), understood.unsafe, note=note)
    if not matched:
        reason = "no_text" if not understood.text.strip() else "spam" if "spam" in kinds else "nothing_asked"
        return Outline(comment, "no_reply", (reason,))
    if understood.language not in {"en", "und"}:
        note = f"Written in another language ({understood.language}); what was understood is marked."
        return Outline(comment, "needs_you", ("other_language",), note=note, matched=tuple(matched))
    return None


def _parts(
    comment: str,
    matched: Sequence[Matched],
    library: Library,
    compute: Compute,
    spoken_of: SpokenOf,
    tallies: Mapping[str, Tally],
) -> tuple[tuple[Part, ...], tuple[str, ...], list[Matched]]:
    """The parts that can be answered, the reasons why others cannot, and the asks as they ended."""
    parts: list[Part] = []
    reasons: dict[str, None] = {}
    settled: list[Matched] = []
    for match in matched:
        ended, part = _settle(comment, match, library, compute, spoken_of, tallies)
        settled.append(ended)
        if part is None:
            reasons[ended.reason] = None
        elif not any(_says_the_same(part, other, library) for other in parts):
            parts.append(part)
    return tuple(parts), tuple(sorted(reasons, key=_urgency)), settled


def _says_the_same(part: Part, other: Part, library: Library) -> bool:
    """Whether two asks get the same answer about the same things, with the same figures, or in words for any thing."""
    if part.answer != other.answer:
        return False
    answer = library.answer(part.answer)
    if not any("{" in body for body in answer.bodies):
        return True
    shown = [name for name, _ in answer.figures if isinstance(part.values[name], Figure)]
    same_figures = bool(shown) and all(part.values[name] == other.values[name] for name in shown)
    return part.ask.items == other.ask.items or same_figures


def _settle(
    comment: str,
    match: Matched,
    library: Library,
    compute: Compute,
    spoken_of: SpokenOf,
    tallies: Mapping[str, Tally],
) -> tuple[Matched, Part | None]:
    """An ask as it ends: with the best answer whose figures can be worked out, or with the reason for none."""
    reason = match.reason or ("" if match.answer else "unsure")
    if reason in {"", "unsure", "no_knowledge"} and not all(library.has(item) for item in match.ask.items):
        reason = "unknown_ingredient"
    if reason and reason != "unsure":
        return replace(match, answer=None, reason=reason), None
    for candidate, sure in _plainly(match, library) if reason else _in_turn(match):
        answer = library.answer(candidate)
        try:
            computed = compute(match.ask, answer)
        except (Missing, NoKnowledge) as lack:
            reason = reason or (lack.reason if isinstance(lack, Missing) else "no_knowledge")
        else:
            body = _variant(comment, match.ask, answer, spoken_of(match.ask, answer))
            part = _part(body, match.ask, answer, computed, library, tallies)
            return replace(match, answer=candidate, sureness=sure, reason=""), part
    return replace(match, answer=None, reason=reason), None


# Asks that their structure alone answers: with an amount and an ingredient that was weighed, with a swap that is known.
# How they are worded matters little, so that type and figures decide: an answer about anything whose figures begin so.
_PLAIN: dict[str, tuple[str, ...]] = {
    "weight": ("weigh asked of first", "weigh 1 us_tbsp of first"),
    "convert": ("weigh asked of first",),
    "swap": ("swap asked of first for second", "swap 100 g of first for second"),
    "tried": ("",),
    "where_to_buy": ("",),
}
_SURE_OF_TYPE = 0.8


def _plainly(match: Matched, library: Library) -> Iterator[tuple[str, float]]:
    """General answers for an ask whose type is sure and whose figures can be worked out, the most exact first."""
    ask = match.ask
    yield from _shown_whole(ask, library)
    if ask.sureness < _SURE_OF_TYPE or (ask.type not in {"tried", "swap"} and len(ask.ingredients) != 1):
        return
    for recipe in _PLAIN.get(ask.type, ()):
        if recipe.startswith("weigh asked") and _weighed_already(ask):
            continue
        if recipe == "weigh 1 us_tbsp of first" and number_spans(ask.text):
            continue  # it gives an amount of its own that we did not read
        for answer in library.answers(ask.type):
            general = set(answer.about) <= {"any", "none"} and answer.asks[0] == ask.type and not answer.asks_back
            recipes = [said for _, said in answer.figures if said.endswith(("first", "second"))]
            if general and not answer.when and (recipes or [""])[0] == recipe and answer.basis != "reasoned":
                yield answer.id, ask.sureness


# Asks for which a sum may be wanted; where the text shows all of one, its wording matters little.
_SUMS = frozenset(("weight", "convert", "check", "scaling", "carbs", "nutrition", "equipment"))


def _shown_whole(ask: Ask, library: Library) -> Iterator[tuple[str, float]]:
    """The answers that work out the very sum of which both the given and the wanted stand in the ask."""
    shown = WHOLE & shows(ask.text)
    if ask.type not in _SUMS or not shown:
        return
    for answer in library.knowledge.answers:
        wanted = {one.strip() for one in dict(answer.when).get("shows", "").split(",")}
        if wanted & shown and _SUMS & set(answer.asks):
            yield answer.id, max(ask.sureness, _SURE_OF_TYPE)


def _weighed_already(ask: Ask) -> bool:
    """Whether the amount is a weight, so that its grams are no question."""
    units = [amount.unit for amount in ask.amounts if amount.unit]
    return bool(units) and known(units[0]) and dimension(units[0]) == "mass"


def _in_turn(match: Matched) -> Iterator[tuple[str, float]]:
    """The answer found, then those runners-up that would be right more likely than not if it is not."""
    if match.answer:
        yield match.answer, match.sureness
    rest = max(1 - match.sureness, 1e-9)
    for answer, share in match.runners_up:
        if share / rest >= _LIKELY_INSTEAD:
            yield answer, round(match.sureness * min(share / rest, 1.0), 4)


def _variant(comment: str, ask: Ask, answer: Answer, shares: Sequence[float]) -> str:
    """The body that speaks most of what is asked; none that says yes or no where that would be no answer.

    Among those that speak of it about as much the comment's id decides, so that an answer reads differently under each.
    """
    bodies = list(zip(answer.bodies, shares, strict=True))
    if not asks_yes_or_no(ask.text):
        bodies = [one for one in bodies if not begins_with_verdict(one[0])] or bodies
    if asks_openly(ask.text):
        bodies = [(without_assent(body), share) for body, share in bodies]
    most = max(share for _, share in bodies)
    alike = [body for body, share in bodies if share >= most - _ABOUT_AS_MUCH]
    return alike[zlib.crc32(f"{comment} {answer.id}".encode()) % len(alike)]


def _part(
    body: str, ask: Ask, answer: Answer, computed: Computed, library: Library, tallies: Mapping[str, Tally]
) -> Part:
    """One body of an answer with everything it may show."""
    region = ask.region or None
    names = [named(item, library, region) for item in computed.items]
    amount = next((a for a in ask.amounts if a.unit), None)
    rule = library.swap(*computed.items[:2]) if ask.type == "swap" and len(computed.items) > 1 else None
    values = {
        **computed.words,
        **computed.figures,
        "first": names[0] if names else "",
        "second": names[1] if len(names) > 1 else "",
        "name": lambda item: named(item, library, region),
        "asked_amount": quoted(amount, ask) if amount else "",
        "source": lambda figure: source_words(figure, library),
        "tier": lambda figure: tier_words(figure, library),
        "assumed": computed.assumed,
        "holds": rule.holds if rule else "",
        "changes": rule.changes if rule else "",
        "extra": rule.extra if rule else "",
        "not_when": rule.not_when if rule else "",
        "dish": ask.dish,
        "symptom": ask.symptom,
        "tally": _tally(ask, tallies, library),
    }
    return Part(ask, answer.id, body, values)


def named(item: str, library: Library, region: str | None = None) -> str:
    """An item's name; one that holds a number is marked, so that the gate vouches for it as a name."""
    name = library.name(item, region)
    return Numbered(name) if number_spans(name) else name


def source_words(figure: Figure, library: Library) -> str:
    """How a sentence names where a figure comes from."""
    named = [fact for fact in figure.facts if not fact.startswith(_FILLINGS)] or figure.facts
    sources = [library.source_of(fact) for fact in named]
    words = dict.fromkeys(source.short or source.citation for source in sources)
    return listed(words) if words else "the definition of the measure"


# How level a spoon is adds to the spread; a sentence that names sources need not name it.
_FILLINGS = "measure."
_TIER_WORDS = {
    "measured": "measured here",
    "published": "published",
    "common practice": "common practice",
    "viewers' reports": "viewers say",
}


def tier_words(figure: Figure, library: Library) -> str:
    """The weakest tier behind a figure, in words."""
    tiers = [library.source_of(fact).tier for fact in figure.facts if not fact.startswith(_FILLINGS)]
    return _TIER_WORDS[max(tiers, key=TIERS.index)] if tiers else "by definition"


def _tally(ask: Ask, tallies: Mapping[str, Tally], library: Library) -> Fragment:
    """The sentence that sums up viewers' reports on what is asked about."""
    if not ask.ingredients:
        return Fragment("Reports are counted by ingredient, so I have no count for that.", {})
    # Of several things asked about, the one that fewest report on is the one that is new to the recipe.
    tally = min((tallies.get(item, Tally(item)) for item in ask.ingredients), key=lambda one: len(one.comments))
    if not tally.comments:
        return Fragment("Nobody has told us yet.", {})
    return Fragment(_TALLY, {"all": tally.figure("all"), "good": tally.figure("good"), "bad": tally.figure("bad"),
                             "some_good": bool(tally.good), "some_bad": bool(tally.bad),
                             "named": named(tally.item, library)})  # fmt: skip


_TALLY = (
    "Viewers' reports so far that name {{ named }}: {{ all }}"
    "{% if some_good and some_bad %} ({{ good }} happy, {{ bad }} let down){% elif some_good %} ({{ good }} happy)"
    "{% elif some_bad %} ({{ bad }} let down){% endif %}."
)


def _urgency(reason: str) -> int:
    return FOR_A_PERSON.index(reason) if reason in FOR_A_PERSON else len(FOR_A_PERSON)


def _lack(ask: Ask) -> str:
    """What an ask-back asks for."""
    if not ask.items:
        return "missing_ingredient"
    return "missing_amount" if not ask.amounts else "missing_detail"


def _cautions(
    understood: Understood, parts: Sequence[Part], reasons: Sequence[str], library: Library
) -> tuple[str, ...]:
    """Cautions the reply must carry, most pressing first."""
    known = {caution.id for caution in library.knowledge.cautions}
    ids: dict[str, None] = dict.fromkeys(understood.unsafe)
    if "health" in reasons or any(part.ask.medical for part in parts):
        ids[_MEDICAL_CAUTION] = None
    for part in parts:
        ids |= dict.fromkeys(library.answer(part.answer).cautions)
    for part in parts:
        if part.ask.type in _HANDLED:
            for item in part.ask.items:
                ids |= dict.fromkeys(library.cautions_for(item))
    return tuple(caution for caution in ids if caution in known)[:_MOST_CAUTIONS]


_WORDS = {
    "health": "Health question: only the person's doctor, pharmacist or dietitian can say.",
    "allergy": "Allergy question: the label, the maker and the person's own clinician decide, not a baking channel.",
    "safety": "Safety question: look up the official guidance before you answer.",
    "unsafe": "What is described may be unsafe: do not repeat it; consider a correction.",
    "legal": "A question about law or labelling: the food authority decides.",
    "maker": "Only the maker of the product can tell.",
    "recipe_conflict": "Video and written recipe disagree: see the list of corrections.",
    "unknown_ingredient": "It names an ingredient the knowledge does not hold.",
    "no_knowledge": "The knowledge holds nothing that answers this.",
    "unsure": "No standing answer is sure enough.",
    "missing_ingredient": "The ask does not say which ingredient.",
    "missing_amount": "The ask does not say how much.",
}


def _note(reasons: Sequence[str], matched: Sequence[Matched], library: Library) -> str:
    """One sentence for the tester, with the nearest knowledge where there is any."""
    if not reasons:
        return ""
    said = _WORDS.get(reasons[0], f"Handed to you: {reasons[0]}.")
    items = [item for match in matched for item in match.ask.items][:3]
    names = [library.name(item) if library.has(item) else item.replace("-", " ") for item in items]
    return f"{said} Asked about: {', '.join(dict.fromkeys(names))}." if names else said


def _nearest(matched: Sequence[Matched]) -> tuple[str, ...]:
    """Ids of the answers that came closest, best first."""
    scored = [pair for match in matched if not match.answer for pair in match.runners_up]
    ranked = sorted(scored, key=lambda pair: (-pair[1], pair[0]))
    return tuple(dict.fromkeys(answer for answer, _ in ranked))[:3]
