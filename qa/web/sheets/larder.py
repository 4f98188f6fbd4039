"""The larder: ingredients with their facts, standing answers, cautions and sources, each with its line in the file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from qa.errors import Place
from qa.knowledge.facts import Answer, Caution, Ingredient, Source
from qa.knowledge.library import Library
from qa.knowledge.names import name_key
from qa.records import TIERS
from qa.web.sheets.slips import Slip, comparison, item_name, slips
from qa.web.words import ASKS, counted, tier_words

_MOST_FOUND = 40


@dataclass(frozen=True, slots=True)
class Found:
    """Something in the larder by name, with its own page."""

    title: str
    words: str
    link: str
    key: str


@dataclass(frozen=True, slots=True)
class LarderSheet:
    """The way in: a search, the shelves by letter, and how much there is."""

    asked: str
    found: tuple[Found, ...]
    nearest: tuple[Found, ...]
    shelves: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    told: str


def larder_sheet(library: Library, asked: str) -> LarderSheet:
    """The whole larder by letter, or what a search finds."""
    found = tuple(search(library, asked)) if asked else ()
    near = () if found or not asked else tuple(_of_item(item, library) for item in library.nearest_items(asked))
    return LarderSheet(asked, found, near, () if asked else _shelves(library), _told(library))


def _told(library: Library) -> str:
    counts = library.counts()
    tiers = ", ".join(f"{counts['facts_by_tier'][t]:,} {tier_words(t)}" for t in TIERS if counts["facts_by_tier"][t])
    things = (("ingredients", "ingredient"), ("answers", "standing answer"), ("sources", "source"), ("trials", "trial"))
    held = ", ".join(counted(counts[key], word) for key, word in things)
    return f"{held}; {counted(counts['facts'], 'fact')}: {tiers}."


def _shelves(library: Library) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    letters: dict[str, list[tuple[str, str]]] = {}
    for one in sorted(library.knowledge.ingredients, key=lambda i: name_key(i.name)):
        letters.setdefault(name_key(one.name)[:1].upper(), []).append((one.name, one.id))
    return tuple((letter, tuple(names)) for letter, names in letters.items())


def search(library: Library, asked: str) -> Iterable[Found]:
    """Ingredients, standing answers, cautions and sources that a few words name; names first."""
    wanted = name_key(asked)
    if not wanted:
        return
    items = dict.fromkeys(item for name, item in library.names() if wanted in name_key(name.text))
    found = [_of_item(item, library) for item in list(items)[:_MOST_FOUND]]
    known = library.knowledge
    found += [_of_answer(a) for a in known.answers if wanted in name_key(f"{a.id} {' '.join(a.phrasings)}")]
    found += [
        Found(c.topic, c.text, "/larder/cautions", c.id)
        for c in known.cautions
        if wanted in name_key(f"{c.topic} {c.text}")
    ]
    found += [
        Found(s.citation, s.kind, "/larder/sources", s.id) for s in known.sources if wanted in name_key(s.citation)
    ]
    yield from found[:_MOST_FOUND]


def _of_item(item: str, library: Library) -> Found:
    facts = len(library.facts(item)) if "." in item else sum(1 for _ in _facts_of(item, library))
    return Found(
        item_name(item, library), f"ingredient, {counted(facts, 'fact')}", "/larder/item", item.partition(".")[0]
    )


def _of_answer(answer: Answer) -> Found:
    return Found(answer.id.replace("-", " "), f"standing answer: “{answer.phrasings[0]}”", "/larder/answer", answer.id)


def _facts_of(key: str, library: Library) -> Iterable[str]:
    return (f.id for f in library.knowledge.facts if f.item.partition(".")[0] == key)


@dataclass(frozen=True, slots=True)
class Property:
    """All facts of one property of one form, with a plot where sources differ."""

    name: str
    plot: Markup
    slips: tuple[Slip, ...]


@dataclass(frozen=True, slots=True)
class FormPart:
    """One form with its names and facts; the ingredient as such has no id."""

    item: str
    name: str
    names: str
    usual: bool
    properties: tuple[Property, ...]
    swaps: tuple[Slip, ...]


@dataclass(frozen=True, slots=True)
class IngredientSheet:
    """Everything the larder holds on one ingredient."""

    id: str
    name: str
    family: str
    names: str
    allergens: str
    parts: tuple[FormPart, ...]
    confusions: tuple[tuple[str, str, str], ...]
    cautions: tuple[Caution, ...]
    answers: tuple[Found, ...]
    place: Place


def ingredient_sheet(key: str, library: Library) -> IngredientSheet:
    """Everything on one ingredient; NoKnowledge with the nearest spelling for an unknown id."""
    one = library.ingredient(key)
    confusions = {
        (item_name(c.item, library), item_name(c.other, library), c.why): None for c in library.confusions(one.id)
    }
    about = {one.id, *(f"{one.id}.{form.id}" for form in one.forms)}
    return IngredientSheet(
        id=one.id,
        name=one.name,
        family=one.family,
        names=_names(one.names),
        allergens=", ".join(one.allergens),
        parts=_parts(one, library),
        confusions=tuple(confusions),
        cautions=tuple(library.caution(c) for c in one.cautions if _is_caution(c, library)),
        answers=tuple(_of_answer(a) for a in library.knowledge.answers if about & set(a.about)),
        place=one.place,
    )


def _is_caution(key: str, library: Library) -> bool:
    return any(caution.id == key for caution in library.knowledge.cautions)


def _names(names: Iterable[object]) -> str:
    """Names with the regions or language they belong to."""
    out = []
    for name in names:
        text, regions, language = (getattr(name, part) for part in ("text", "regions", "language"))
        marks = [*regions, *([language] if language != "en" else [])]
        out.append(f"{text} ({', '.join(marks)})" if marks else text)
    return ", ".join(out)


def _parts(one: Ingredient, library: Library) -> tuple[FormPart, ...]:
    whole = FormPart(one.id, "", "", usual=False, properties=_properties(one.id, library), swaps=())
    forms = tuple(
        FormPart(
            f"{one.id}.{form.id}",
            form.name,
            _names(form.names),
            form.usual,
            _properties(f"{one.id}.{form.id}", library),
            slips((swap.id for swap in library.knowledge.swaps if swap.replace == f"{one.id}.{form.id}"), library),
        )
        for form in one.forms
    )
    return (*([whole] if whole.properties else []), *forms)


def _properties(item: str, library: Library) -> tuple[Property, ...]:
    by_name: dict[str, list[str]] = {}
    for fact in library.knowledge.facts:
        if fact.item == item:
            by_name.setdefault(fact.property, []).append(fact.id)
    return tuple(
        Property(name, comparison(library.fact(ids[0]), library), slips(ids, library)) for name, ids in by_name.items()
    )


@dataclass(frozen=True, slots=True)
class AnswerSheet:
    """One standing answer as its file has it."""

    id: str
    title: str
    asks: str
    about: str
    basis: str
    phrasings: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    bodies: tuple[str, ...]
    cautions: tuple[Caution, ...]
    place: Place


def answer_sheet(key: str, library: Library) -> AnswerSheet:
    """One standing answer; NoKnowledge for an unknown id."""
    one = library.answer(key)
    return AnswerSheet(
        id=one.id,
        title=one.id.replace("-", " "),
        asks=", ".join(ASKS[ask] for ask in one.asks),
        about=", ".join(item_name(item, library) for item in one.about),
        basis=one.basis,
        phrasings=one.phrasings,
        figures=one.figures,
        bodies=one.bodies,
        cautions=tuple(library.caution(c) for c in one.cautions if _is_caution(c, library)),
        place=one.place,
    )


def answers_to(ask_type: str, library: Library) -> tuple[Found, ...]:
    """The standing answers written for one type of ask, by id."""
    own = (answer for answer in library.knowledge.answers if answer.asks[0] == ask_type)
    return tuple(_of_answer(answer) for answer in sorted(own, key=lambda a: a.id))


def all_sources(library: Library) -> tuple[tuple[Source, int], ...]:
    """Every source with how many facts lean on it."""
    used: dict[str, int] = {}
    for fact in library.knowledge.facts:
        used[fact.source] = used.get(fact.source, 0) + 1
    return tuple((source, used.get(source.id, 0)) for source in sorted(library.knowledge.sources, key=lambda s: s.id))
