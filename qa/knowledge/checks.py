"""What must hold between the entries: small functions of one shape, each giving the problems it sees.

An entry whose place has a problem is left out of the library, so that a fault silences only what it touches.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from qa.errors import Problem
from qa.knowledge.answers import BODY_NAMES
from qa.knowledge.facts import Answer, Ingredient, Knowledge, Name
from qa.knowledge.fields import did_you_mean
from qa.knowledge.library import Library
from qa.knowledge.names import all_names, name_key
from qa.knowledge.plausible import kin_agree, parts_make_no_more_than_the_whole, values_are_believable
from qa.knowledge.recipes import Recipe, read_recipe
from qa.text import nearest, number_spans, word_set

Check = Callable[[Library], Iterator[Problem]]

FEWEST_PHRASINGS = 5
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
_NAME = re.compile(r"(?<![\w.|])[A-Za-z_]\w*")  # neither an attribute nor a filter
_TEMPLATE_WORDS = word_set("if elif else endif and or not in is defined true false none set for endfor loop")
_TEMPLATE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)


def ids_are_given_once(library: Library) -> Iterator[Problem]:
    """No id stands for two things."""
    known = library.knowledge
    for entries in (known.facts, known.swaps, known.cautions, known.sources, known.manners):
        seen: dict[str, str] = {}
        for entry in entries:
            if entry.id in seen:
                remedy = "keep one, or add 'variant: …' to tell two facts of one source apart"
                yield Problem(entry.place, f"{entry.id} is given twice, first at {seen[entry.id]}", remedy)
            seen.setdefault(entry.id, str(entry.place))


def names_point_at_one_item(library: Library) -> Iterator[Problem]:
    """No name means two items in one region and language, unless the two are listed as often confused."""
    confused = [(c.item, c.other) for c in library.knowledge.confusions]
    groups: dict[tuple[str, str], list[tuple[Name, str]]] = defaultdict(list)
    for name, item in all_names(library.knowledge.ingredients):
        groups[name_key(name.text), name.language].append((name, item))
    for (text, _), entries in groups.items():
        for (first, item), (second, other) in combinations(entries, 2):
            if _match(item, other) or not _same_regions(first, second):
                continue
            if any(
                (_match(item, a) and _match(other, b)) or (_match(item, b) and _match(other, a)) for a, b in confused
            ):
                continue
            remedy = f"give each its regions, or list the two under 'confused' ({item} with {other})"
            yield Problem(second.place, f"{text!r} names {other} and also {item} ({first.place})", remedy)


def _match(item: str, other: str) -> bool:
    """The same item, or an ingredient and a form of it (which may share a name)."""
    return item == other or item == other.partition(".")[0] or other == item.partition(".")[0]


def _matches(pair: tuple[str, str], other: tuple[str, str]) -> bool:
    """The same two items, in either order."""
    straight = _match(pair[0], other[0]) and _match(pair[1], other[1])
    return straight or (_match(pair[0], other[1]) and _match(pair[1], other[0]))


def _same_regions(first: Name, second: Name) -> bool:
    """Both are used somewhere; a regional name beside one understood everywhere is told apart by the region."""
    if not first.regions or not second.regions:
        return not first.regions and not second.regions
    return bool(set(first.regions) & set(second.regions))


def items_exist(library: Library) -> Iterator[Problem]:
    """Every item named anywhere is known."""
    known = library.knowledge
    named = [(s.use, s.place) for s in known.swaps] + [(c.other, c.place) for c in known.confusions]
    named += [(line.item, line.place) for episode in known.episodes for line in episode.lines]
    named += [(given.item, given.place) for trial in known.trials for given in trial.gives]
    named += [(dose.item, dose.place) for trial in known.trials for dose in trial.doses]
    for answer in known.answers:
        named += [(about, answer.place) for about in answer.about if about not in {"any", "none"} and ":" not in about]
        named += [(item, answer.place) for r in _recipes(answer) for item in r.items if item not in {"first", "second"}]
    for item, place in dict.fromkeys(named):
        if not library.has(item):
            yield Problem(place, f"no item {item!r} is known", _item_remedy(library, item))


def _item_remedy(library: Library, item: str) -> str:
    """The forms of the ingredient where it is known, else the ingredient spelt most like it."""
    name, _, form = item.partition(".")
    if library.has(name):
        forms = [f"{name}.{found.id}" for found in library.ingredient(name).forms]
        return f"{did_you_mean(item, forms)} Or add the form {form!r} to {name}.yaml"
    hint = nearest(name, (ingredient.id for ingredient in library.knowledge.ingredients))
    return (f"did you mean {hint!r}? Or " if hint else "") + f"add ingredients/{name}.yaml"


def families_exist(library: Library) -> Iterator[Problem]:
    """An answer about a family is about one that has members."""
    families = {i.family for i in library.knowledge.ingredients}
    for answer in library.knowledge.answers:
        for about in answer.about:
            kind, colon, family = about.partition(":")
            if colon and (kind != "family" or family not in families):
                yield Problem(answer.place, f"no family {about!r} is known", did_you_mean(family, families))


def sources_are_listed(library: Library) -> Iterator[Problem]:
    """Every caution names a listed source (facts and swaps cannot be made without one)."""
    sources = [source.id for source in library.knowledge.sources]
    for caution in library.knowledge.cautions:
        if caution.source not in sources:
            message = f"source {caution.source!r} is not listed in sources.yaml"
            yield Problem(caution.place, message, f"add it there, or {did_you_mean(caution.source, sources)}")


def cautions_are_defined(library: Library) -> Iterator[Problem]:
    """Every caution named is written down in cautions.yaml."""
    known = {caution.id for caution in library.knowledge.cautions}
    owners: Sequence[Ingredient | Answer] = (*library.knowledge.ingredients, *library.knowledge.answers)
    for owner in owners:
        for caution in owner.cautions:
            if caution not in known:
                remedy = f"define it in cautions.yaml, or {did_you_mean(caution, sorted(known))}"
                yield Problem(owner.place, f"nobody defines the caution {caution!r}", remedy)


def answers_have_phrasings(library: Library) -> Iterator[Problem]:
    """Five phrasings or more, each once, with placeholders that can be filled."""
    for answer in library.knowledge.answers:
        if len(answer.phrasings) < FEWEST_PHRASINGS:
            message = f"{answer.id} has {len(answer.phrasings)} phrasings"
            yield Problem(answer.place, message, f"write {FEWEST_PHRASINGS} or more, as people type them")
        if len({name_key(phrasing) for phrasing in answer.phrasings}) < len(answer.phrasings):
            yield Problem(answer.place, f"{answer.id} has the same phrasing twice", "keep one, or vary the voice")
        for phrasing in answer.phrasings:
            for said in _PLACEHOLDER.findall(phrasing):
                if said not in {"ingredient", "other"}:
                    yield Problem(answer.place, f"{{{said}}} cannot be filled", "write {ingredient} or {other}")


def answers_have_their_facts(library: Library) -> Iterator[Problem]:
    """Every figure of an answer can be worked out for what the answer is about."""
    for answer in library.knowledge.answers:
        for recipe in _recipes(answer):
            for item in _needing(recipe, answer):
                if library.has(item) and (lack := _lack(library, recipe, item)):
                    remedy = "add the fact to the ingredient's file, or take the figure out"
                    yield Problem(answer.place, f"{answer.id} needs {lack}, which nobody gives", remedy)


def _recipes(answer: Answer) -> list[Recipe]:
    return [recipe for _, text in answer.figures if isinstance(recipe := read_recipe(text), Recipe)]


def _needing(recipe: Recipe, answer: Answer) -> list[str]:
    """The items whose facts a recipe needs, as far as the answer fixes them."""
    if not recipe.items:
        return []
    about = [item for item in answer.about if item not in {"any", "none"} and ":" not in item]
    if recipe.items[0] == "first":
        return about[:1] if answer.fits == "swap" else about if answer.fits == "any" else []
    if recipe.items[0] == "second":
        return about[1:2] if answer.fits == "swap" else []
    return [recipe.items[0]]


def _lack(library: Library, recipe: Recipe, item: str) -> str:
    """What is missing for a recipe, in words, or ''."""
    item = library.usual(item)
    if recipe.verb == "measure" and not library.density(item):
        return f"a bulk density of {item}"
    if recipe.verb == "weigh" and not (library.density(item) or library.facts(item, "piece weight")):
        return f"a bulk density of {item}"
    if recipe.verb == "property" and not library.facts(item, recipe.property):
        return f"the {recipe.property} of {item}"
    fixed = recipe.verb in {"swap", "ratio"} and recipe.items[1] not in {"first", "second"}
    if fixed and library.has(recipe.items[1]) and library.swap(item, recipe.items[1]) is None:
        return f"a swap of {item} for {recipe.items[1]}"
    return ""


def bodies_use_known_names(library: Library) -> Iterator[Problem]:
    """What stands between braces in a reply is a figure of the answer or one of the words every reply has."""
    for answer in library.knowledge.answers:
        known = {name for name, _ in answer.figures} | BODY_NAMES
        for body in answer.bodies:
            plain = _TEMPLATE.sub("", body)
            if any(brace in plain for brace in ("{{", "}}", "{%", "%}", "{#", "#}")):
                yield Problem(answer.place, f"{answer.id} has braces without partner", "write {{ name }}")
            inside = " ".join(_QUOTED.sub("", part) for part in _TEMPLATE.findall(body) if not part.startswith("{#"))
            for name in dict.fromkeys(_NAME.findall(inside)):
                if name not in known and name not in _TEMPLATE_WORDS:
                    remedy = f"add it under 'figures', or {did_you_mean(name, sorted(known))}"
                    yield Problem(
                        answer.place, f"a reply of {answer.id} shows {name!r}, which it does not have", remedy
                    )


def sources_can_be_named(library: Library) -> Iterator[Problem]:
    """A reply can name every source in words: a citation with a number in it needs a short name without."""
    used = {fact.source for fact in library.knowledge.facts} | {swap.source for swap in library.knowledge.swaps}
    for source in library.knowledge.sources:
        if source.id in used and number_spans(source.short or source.citation):
            message = f"a reply would name {source.id} with a number in it"
            yield Problem(source.place, message, "give it a 'short' name without numbers, e.g. the USDA table")


def words_hold_no_numbers(library: Library) -> Iterator[Problem]:
    """Bodies, swap words and cautions bring in no number past the gate."""
    known = library.knowledge
    texts = [(body, a.place, "the reply") for a in known.answers for body in a.bodies]
    texts += [(t, s.place, "the swap") for s in known.swaps for t in (s.extra, s.changes, s.holds, s.not_when)]
    texts += [(caution.text, caution.place, "the caution") for caution in known.cautions]
    for text, place, what in texts:
        plain = _TEMPLATE.sub(lambda found: " " * len(found.group()), text)
        said = [plain[start:end] for start, end in number_spans(plain)]
        if said:
            message = f"{what} says {', '.join(map(repr, dict.fromkeys(said)))} in words of its own"
            yield Problem(place, message, "let a figure bring the number in, or say it without one")


def episodes_and_trials_know_each_other(library: Library) -> Iterator[Problem]:
    """A trial's episode and an episode's trials exist."""
    episodes = [episode.id for episode in library.knowledge.episodes]
    trials = [trial.id for trial in library.knowledge.trials]
    for trial in library.knowledge.trials:
        if trial.episode and trial.episode not in episodes:
            yield Problem(trial.place, f"no episode {trial.episode!r} is known", did_you_mean(trial.episode, episodes))
    for episode in library.knowledge.episodes:
        for named in episode.trials:
            if named not in trials:
                yield Problem(episode.place, f"no trial {named!r} is known", did_you_mean(named, trials))


CHECKS: tuple[Check, ...] = (
    ids_are_given_once,
    names_point_at_one_item,
    items_exist,
    families_exist,
    sources_are_listed,
    cautions_are_defined,
    values_are_believable,
    parts_make_no_more_than_the_whole,
    kin_agree,
    answers_have_phrasings,
    answers_have_their_facts,
    bodies_use_known_names,
    sources_can_be_named,
    words_hold_no_numbers,
    episodes_and_trials_know_each_other,
)


def check_knowledge(knowledge: Knowledge, extra: tuple[Check, ...] = ()) -> list[Problem]:
    """The problems between entries that could be read one by one."""
    library = Library(knowledge)
    return [problem for rule in (*CHECKS, *extra) for problem in rule(library)]


def check(library: Library) -> tuple[Problem, ...]:
    """All problems of a loaded library, by file and line: what `levelspoon check` prints."""
    return tuple(sorted(library.problems))
