"""Look-up in everything that was read. Built once; answers questions by id, item, name or measure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NoReturn, TypeVar

from qa.errors import NoKnowledge, Problem
from qa.knowledge.beyond import beyond
from qa.knowledge.counts import counts
from qa.knowledge.facts import (
    Answer,
    Caution,
    Confusion,
    Episode,
    Fact,
    Ingredient,
    Knowledge,
    Manner,
    Name,
    Source,
    Swap,
    Trial,
)
from qa.knowledge.names import all_names, measure_kind, name_key
from qa.knowledge.spreads import spread_with_kin
from qa.records import TIERS, FactUse
from qa.text import nearest

Entry = TypeVar("Entry")
Said = Fact | Swap | Manner

# How a spoon is filled when nobody says how; any other packing needs to be named to come first.
_PLAIN_PACKINGS = ("", "not stated", "level", "levelled", "spooned", "spooned and levelled", "not packed")
READINGS = "readings:"
"""With a trial's id behind it, what vouches for figures that come straight from its readings."""
_LABORATORY = ("mL", "L", "cL", "dL")


@dataclass(frozen=True, eq=False)
class Library:
    """All good knowledge, indexed, with the problems found in the rest.

    Unknown ids raise NoKnowledge with the nearest spelling; look-ups by item give an empty tuple for nothing.
    """

    knowledge: Knowledge
    problems: tuple[Problem, ...] = field(default=())

    # -- by id ---------------------------------------------------------------------------------------------------

    def ingredient(self, key: str) -> Ingredient:
        """The ingredient of an id or of an item of it."""
        return _get(self._ingredients, key.partition(".")[0], "ingredient")

    def fact(self, key: str) -> Fact:
        """The fact of that id."""
        return _get(self._facts, key, "fact")

    def source(self, key: str) -> Source:
        """The citation of that id; a trial is the source of its own results."""
        return _get(self._sources, key, "source")

    def said(self, key: str) -> Said:
        """What a figure names by that id: a fact, a swap or a way of filling."""
        return _get(self._said, key, "fact")

    def source_of(self, fact: str) -> Source:
        """The source of a fact, a swap, a way of filling, a rule, a count of comments, or of a trial's own readings."""
        if fact.startswith(READINGS):
            return self.source(fact.removeprefix(READINGS))
        return beyond(fact) or self.source(self.said(fact).source)

    def use(self, fact: str) -> FactUse:
        """What vouches for a figure as a draft keeps it: with tier, source and the hash of its content."""
        if source := beyond(fact):
            return FactUse(fact, source.tier, source.citation, "")
        said = self.said(fact)
        return FactUse(fact, said.tier, said.source, said.version)

    def caution(self, key: str) -> Caution:
        """The usual warning of that id."""
        return _get(self._cautions, key, "caution")

    def answer(self, key: str) -> Answer:
        """The standing answer of that id."""
        return _get(self._answers, key, "standing answer")

    def episode(self, key: str) -> Episode:
        """The upload of that id."""
        return _get(self._episodes, key, "episode")

    def trial(self, key: str) -> Trial:
        """The kitchen test of that id."""
        return _get(self._trials, key, "trial")

    # -- by item -------------------------------------------------------------------------------------------------

    def has(self, item: str) -> bool:
        """Whether an ingredient, or an ingredient with its form, is known."""
        key, _, form = item.partition(".")
        found = self._ingredients.get(key)
        return found is not None and (not form or found.form(form) is not None)

    def usual(self, item: str) -> str:
        """The item with the form a cook means when none is said; unchanged where there is no such form or item."""
        if "." in item or not self.has(item):
            return item
        forms = self.ingredient(item).forms
        found = next((f for f in forms if f.usual), forms[0] if len(forms) == 1 else None)
        return f"{item}.{found.id}" if found else item

    def facts(self, item: str, property: str | None = None) -> tuple[Fact, ...]:  # noqa: A002  # the trade's word
        """The form's own facts, then those of every form; of one property if it is named."""
        own = self._facts_by_item.get(item, ())
        shared = self._facts_by_item.get(item.partition(".")[0], ()) if "." in item else ()
        return tuple(f for f in (*own, *shared) if property is None or f.property == property)

    def density(self, item: str, unit: str | None = None, packing: str = "") -> tuple[Fact, ...]:
        """Bulk densities, best first.

        First those of the packing meant and not of another country's practice, then the stronger tier (what our own
        kitchen measured before what is published), then those read with the same measure (a spoon for spoons), then the
        smaller relative spread, then the order of the file.

        Args:
            item: with or without form; the usual form is filled in.
            unit: the measure that will be used ('us_tbsp', 'cup'), or None.
            packing: how it is filled ('sifted', 'packed'), or '' where nobody said.
        """

        def rank(fact: Fact) -> tuple[bool, bool, int, int, int]:
            said, country = fact.condition("packing"), fact.condition("region")
            fits = _is_packed(packing, said) if packing else said in _PLAIN_PACKINGS
            foreign = bool(country) and not (unit or "").startswith(f"{country.lower()}_")
            return (not fits, foreign, TIERS.index(fact.tier), _other_measure(fact, unit), _tenths(fact))

        return tuple(sorted(self.facts(self.usual(item), "bulk density"), key=rank))

    def swap(self, replace: str, use: str) -> Swap | None:
        """The swap of one item for another, as it is written; None if nobody has given it.

        Where a form is not said, the usual form comes first and then any form that has a swap; not between two forms
        of one ingredient, since "sugar" beside jaggery is not brown sugar.
        """
        usual = self._swaps.get((self.usual(replace), self.usual(use)))
        if replace.partition(".")[0] == use.partition(".")[0]:
            return usual
        fitting = (s for s in self.knowledge.swaps if _is_form_of(s.replace, replace) and _is_form_of(s.use, use))
        return usual or next(fitting, None)

    def swaps_for(self, item: str) -> tuple[Swap, ...]:
        """Everything that can stand in for an item."""
        return self._swaps_for.get(self.usual(item), ())

    def confusions(self, item: str) -> tuple[Confusion, ...]:
        """What an item is taken for, from either side; those of its ingredient included."""
        return tuple(c for c in self.knowledge.confusions if _covers(item, c.item) or _covers(item, c.other))

    def cautions_for(self, item: str) -> tuple[str, ...]:
        """Ids of the cautions that go with every reply about an item."""
        return self.ingredient(item).cautions if self.has(item.partition(".")[0]) else ()

    def answers(self, ask_type: str) -> tuple[Answer, ...]:
        """The standing answers that serve an ask type."""
        return self._answers_by_ask.get(ask_type, ())

    def answer_places(self, ask_type: str) -> tuple[int, ...]:
        """Which of all standing answers serve an ask type, by their places."""
        return self._places_by_ask.get(ask_type, ())

    def measure_word(self, word: str, item: str = "") -> Manner | None:
        """What a word such as 'heaped' does to a spoonful, first for the item's own family; None if it is not known."""
        found = self._manners.get(name_key(word), ())
        family = self.ingredient(item).family if item else ""
        own = next((m for m in found if family in m.families), None)
        return own or next((m for m in found if not m.families), None)

    # -- by name -------------------------------------------------------------------------------------------------

    def names(self) -> tuple[tuple[Name, str], ...]:
        """Every name with the item it names: the ingredient's names, then those of its forms."""
        return self._names

    def name(self, item: str, region: str | None = None, language: str = "en") -> str:
        """What to call an item in a region's words; the name it is filed under where the region has no own word."""
        ingredient, form_id = self.ingredient(item), item.partition(".")[2]
        form = ingredient.form(form_id)
        if form_id and form is None:
            _unknown(form_id, [f.id for f in ingredient.forms], f"form of {ingredient.id}")
        # Where there is one form only, nobody says it: baking soda, not baking soda powder.
        named = ingredient if form is None or len(ingredient.forms) == 1 else form
        of_language = [name for name in named.names if name.language == language]
        regional = next((name.text for name in of_language if region in name.regions), None)
        if regional or language == "en":
            return regional or named.name
        return of_language[0].text if of_language else named.name

    def meanings(self, text: str, region: str | None = None) -> tuple[str, ...]:
        """The items a name can mean, most likely first.

        A name used in the asker's region comes first, then one understood everywhere, then one of other regions.
        A name of an ingredient as such gives the bare ingredient.
        """
        found = self._meanings.get(name_key(text), ())

        def rank(entry: tuple[Name, str]) -> int:
            regions = entry[0].regions
            return 1 if not regions else 0 if region in regions else 2

        return tuple(dict.fromkeys(item for _, item in sorted(found, key=rank)))

    def nearest_items(self, word: str, most: int = 3) -> tuple[str, ...]:
        """The items whose names are spelt most like a word."""
        from rapidfuzz import process

        found = process.extract(name_key(word), list(self._meanings), limit=3 * most, score_cutoff=60)
        return tuple(dict.fromkeys(item for key, _, _ in found for _, item in self._meanings[key]))[:most]

    # -- counts --------------------------------------------------------------------------------------------------

    def counts(self) -> dict[str, Any]:
        """How much there is: ingredients, forms, facts by tier and property, swaps, answers, share published."""
        return counts(self.knowledge) | {"problems": len(self.problems)}

    # -- indexes, each made on first use -------------------------------------------------------------------------

    @cached_property
    def _ingredients(self) -> dict[str, Ingredient]:
        return {entry.id: entry for entry in self.knowledge.ingredients}

    @cached_property
    def _facts(self) -> dict[str, Fact]:
        return {entry.id: entry for entry in self.knowledge.facts}

    @cached_property
    def _said(self) -> dict[str, Said]:
        entries: tuple[Said, ...] = (*self.knowledge.facts, *self.knowledge.swaps, *self.knowledge.manners)
        return {entry.id: entry for entry in entries}

    @cached_property
    def _sources(self) -> dict[str, Source]:
        return {entry.id: entry for entry in self.knowledge.sources}

    @cached_property
    def _cautions(self) -> dict[str, Caution]:
        return {entry.id: entry for entry in self.knowledge.cautions}

    @cached_property
    def _answers(self) -> dict[str, Answer]:
        return {entry.id: entry for entry in self.knowledge.answers}

    @cached_property
    def _episodes(self) -> dict[str, Episode]:
        return {entry.id: entry for entry in self.knowledge.episodes}

    @cached_property
    def _trials(self) -> dict[str, Trial]:
        return {entry.id: entry for entry in self.knowledge.trials}

    @cached_property
    def _facts_by_item(self) -> dict[str, tuple[Fact, ...]]:
        return _grouped((fact.item, fact) for fact in self.knowledge.facts)

    @cached_property
    def _swaps(self) -> dict[tuple[str, str], Swap]:
        return {(self.usual(s.replace), self.usual(s.use)): s for s in self.knowledge.swaps}

    @cached_property
    def _swaps_for(self) -> dict[str, tuple[Swap, ...]]:
        return _grouped((self.usual(swap.replace), swap) for swap in self.knowledge.swaps)

    @cached_property
    def _answers_by_ask(self) -> dict[str, tuple[Answer, ...]]:
        return _grouped((ask, answer) for answer in self.knowledge.answers for ask in answer.asks)

    @cached_property
    def _places_by_ask(self) -> dict[str, tuple[int, ...]]:
        return _grouped((ask, place) for place, answer in enumerate(self.knowledge.answers) for ask in answer.asks)

    @cached_property
    def _manners(self) -> dict[str, tuple[Manner, ...]]:
        return _grouped((name_key(word), m) for m in self.knowledge.manners for word in (m.word, *m.names))

    @cached_property
    def _names(self) -> tuple[tuple[Name, str], ...]:
        return tuple(all_names(self.knowledge.ingredients))

    @cached_property
    def _meanings(self) -> dict[str, tuple[tuple[Name, str], ...]]:
        return _grouped((name_key(name.text), (name, item)) for name, item in self._names)


def _is_packed(packing: str, said: str) -> bool:
    """Whether a condition says that packing: 'spooned, then levelled' is spooned, 'unsifted' and 'not packed' are not.

    >>> [_is_packed("sifted", said) for said in ("sifted", "unsifted", "sifted, then spooned", "not sifted")]
    [True, False, True, False]
    """
    words = said.replace(",", " ").split()
    return said == packing or (packing in words and words[0] not in {"not", "loosely"})


def _other_measure(fact: Fact, unit: str | None) -> int:
    """How far the measure a density was read with is from the one meant: 0 the same, 3 no kitchen measure at all."""
    read = fact.measure.unit.rpartition("/")[2] if fact.measure else ""
    if unit is None or read == unit:
        return 0
    if measure_kind(read) == measure_kind(unit):
        return 1
    return 3 if read in _LABORATORY else 2


def _tenths(fact: Fact) -> int:
    """The relative spread in whole tenths, as two fillings show it: finer digits promise what no spoon keeps."""
    if fact.measure is None:
        return 10
    return int(10 * spread_with_kin(fact, fact.measure) / fact.measure.value)


def _is_form_of(item: str, meant: str) -> bool:
    """Whether an item is the one meant, or a form of it where no form is said."""
    return item == meant or ("." not in meant and item.partition(".")[0] == meant)


def _covers(item: str, other: str) -> bool:
    """Whether an item is the other, or one of them is the bare ingredient of the other."""
    return item == other or item.partition(".")[0] == other or item == other.partition(".")[0]


def _grouped(pairs: Iterable[tuple[Any, Entry]]) -> dict[Any, tuple[Entry, ...]]:
    groups: dict[Any, list[Entry]] = defaultdict(list)
    for key, entry in pairs:
        groups[key].append(entry)
    return {key: tuple(entries) for key, entries in groups.items()}


def _get(entries: Mapping[str, Entry], key: str, what: str) -> Entry:
    if key not in entries:
        _unknown(key, entries, what)
    return entries[key]


def _unknown(key: str, known: Iterable[str], what: str) -> NoReturn:
    hint = nearest(key, known)
    raise NoKnowledge(
        f"no {what} {key!r} is known", f"did you mean {hint!r}?" if hint else "see `levelspoon check --counts`"
    )
