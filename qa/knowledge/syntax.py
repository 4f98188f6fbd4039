"""Text to types: ingredients with their names, forms, facts, swaps and confusions.

Each function takes one node of a file and the file's report; what cannot be read is reported there and left out.
A fact's number is made here, once, and tagged with the fact's id, so that all that is worked out from it knows its
source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal, TypeVar, cast

from qa.errors import InvalidMeasure
from qa.knowledge.facts import (
    ALLERGENS,
    CONDITIONS,
    FAMILIES,
    PROPERTIES,
    Confusion,
    Fact,
    Form,
    Ingredient,
    Name,
    Source,
    Swap,
)
from qa.knowledge.fields import ITEM, Fields, Report, Unusable, did_you_mean
from qa.knowledge.nodes import Node
from qa.knowledge.values import Value, require, states_no_spread
from qa.measures.measure import Measure

Made = TypeVar("Made")
Sources = Mapping[str, Source]
By = Literal["weight", "volume"]

_REGION = re.compile(r"[A-Z]{2}")
_LANGUAGE = re.compile(r"[a-z]{2,3}")
INGREDIENT_KEYS = ("id", "name", "family", "names", "allergens", "cautions", "forms", "confused", "facts", "swaps")
NAME_KEYS = ("name", "regions", "language")
CONFUSION_KEYS = ("form", "with", "why")
FORM_KEYS = ("id", "name", "usual", "names")
FACT_KEYS = ("form", "property", "value", "resolution", "variant", "source", "where", "checked", "note", *CONDITIONS)
SWAP_KEYS = ("replace", "use", "ratio", "by", "holds", "changes", "extra", "not_when", "source", "where")


@dataclass(slots=True)
class IngredientFile:
    """What one ingredient file holds; facts, swaps and confusions are those that could be read."""

    ingredient: Ingredient
    facts: list[Fact] = field(default_factory=list)
    swaps: list[Swap] = field(default_factory=list)
    confusions: list[Confusion] = field(default_factory=list)


def each(nodes: Iterable[Node], read: Callable[[Node], Made]) -> list[Made]:
    """All entries that can be read; the others are on the report already."""
    made = []
    for node in nodes:
        try:
            made.append(read(node))
        except Unusable:
            continue
    return made


def ingredient_file(node: Node, stem: str, sources: Sources, report: Report) -> IngredientFile:
    """One ingredient with everything said about it; Unusable if it has no id, name or family."""
    keys = Fields(node, "an ingredient", INGREDIENT_KEYS, report)
    ingredient = Ingredient(
        id=file_id(keys, stem),
        name=keys.text("name"),
        family=keys.choice("family", FAMILIES),
        names=_names(keys, report),
        forms=_forms(keys, report),
        allergens=keys.choices("allergens", ALLERGENS),
        cautions=keys.texts("cautions"),
        place=keys.place,
    )
    return IngredientFile(
        ingredient,
        each(keys.items("facts"), lambda n: _fact(n, ingredient, sources, report)),
        each(keys.items("swaps"), lambda n: _swap(n, ingredient, sources, report)),
        each(keys.items("confused"), lambda n: _confusion(n, ingredient, report)),
    )


def file_id(keys: Fields, stem: str) -> str:
    """The id, which must be the file's name so that a person finds the file."""
    found = keys.id()
    if found != stem:
        keys.report.say(
            keys.line("id"), f"the id {found!r} is not the file's name", f"rename the file, or write id: {stem}"
        )
    return found


def _names(keys: Fields, report: Report) -> tuple[Name, ...]:
    return tuple(each(keys.items("names"), lambda n: _name(n, report)))


def _name(node: Node, report: Report) -> Name:
    if node.kind == "text" and node.text.strip():
        return Name(node.text.strip(), place=report.place(node.line))
    keys = Fields(node, "a name", NAME_KEYS, report)
    regions, language = keys.texts("regions"), keys.text("language", "en")
    for region in regions:
        if not _REGION.fullmatch(region):
            keys.stop(keys.line("regions"), f"{region!r} is no region", "write two capitals, e.g. UK, US, AU")
    if not _LANGUAGE.fullmatch(language):
        keys.stop(keys.line("language"), f"{language!r} is no language code", "write ISO 639-1 letters, e.g. de, fr")
    return Name(keys.text("name"), regions, language, keys.place)


def _forms(keys: Fields, report: Report) -> tuple[Form, ...]:
    forms: list[Form] = []
    for form in each(keys.items("forms"), lambda n: _form(n, report)):
        if any(form.id == other.id for other in forms):
            report.say(form.place.line, f"the form {form.id!r} is given twice", "keep one of the two")
        elif form.usual and any(other.usual for other in forms):
            report.say(form.place.line, f"a second usual form, {form.id!r}", "leave 'usual: true' at one form only")
            forms.append(replace(form, usual=False))
        else:
            forms.append(form)
    return tuple(forms)


def _form(node: Node, report: Report) -> Form:
    keys = Fields(node, "a form", FORM_KEYS, report)
    return Form(keys.id(), keys.text("name"), _names(keys, report), keys.place, keys.flag("usual"))


def _item(keys: Fields, key: str, ingredient: Ingredient) -> str:
    """The item of one of the ingredient's own forms; the bare ingredient where no form is named."""
    form = keys.text(key, "")
    if form and ingredient.form(form) is None:
        forms = [f.id for f in ingredient.forms]
        keys.stop(keys.line(key), f"{ingredient.id} has no form {form!r}", did_you_mean(form, forms))
    return f"{ingredient.id}.{form}" if form else ingredient.id


def source_of(keys: Fields, sources: Sources) -> Source:
    """The source named under 'source', which must be listed."""
    said = keys.text("source")
    if said not in sources:
        hint = did_you_mean(said, sources) if sources else "list it there"
        keys.stop(keys.line("source"), f"source {said!r} is not listed in sources.yaml", f"add it there, or {hint}")
    return sources[said]


def fact_id(item: str, prop: str, source: str, variant: str = "") -> str:
    """The id of a fact.

    >>> fact_id("flax.ground", "bulk density", "usda-sr26", "cup")
    'flax.ground.bulk-density.usda-sr26:cup'
    """
    return f"{item}.{prop.replace(' ', '-')}.{source}" + (f":{variant}" if variant else "")


def _fact(node: Node, ingredient: Ingredient, sources: Sources, report: Report) -> Fact:
    keys = Fields(node, "a fact", FACT_KEYS, report)
    item, source = _item(keys, "form", ingredient), source_of(keys, sources)
    prop = PROPERTIES[keys.choice("property", PROPERTIES)]
    key = fact_id(item, prop.name, source.id, keys.text("variant", ""))
    in_words = prop.measures == "words"
    value = keys.text("value")
    return Fact(
        id=key,
        item=item,
        property=prop.name,
        measure=None if in_words else _measure(keys, prop.name, key, source),
        words=value if in_words else "",
        conditions=conditions_of(keys),
        source=source.id,
        where=keys.text("where", ""),
        tier=source.tier,
        checked=keys.date("checked"),
        note=keys.text("note", ""),
        place=keys.place,
        by_digits=not in_words and states_no_spread(value),
    )


def conditions_of(keys: Fields) -> tuple[tuple[str, str], ...]:
    """The conditions given, in the order of CONDITIONS."""
    return tuple((name, said) for name in CONDITIONS if name in keys.node.keys and (said := keys.text(name, "")))


def _measure(keys: Fields, prop: str, key: str, source: Source) -> Measure:
    value = keys.value("value", keys.text("resolution", ""))
    fits(keys, "value", value, PROPERTIES[prop].measures, f"{prop!r}")
    if value.spread == 0 and source.kind != "regulation":
        keys.stop(keys.line("value"), f"{keys.text('value')!r} has no spread", "give ± one standard spread, or a range")
    return Measure.of(value.value, value.unit, spread=value.spread, fact=key)


def fits(keys: Fields, key: str, value: Value, measures: str, name: str) -> None:
    """Report a value whose unit measures something else."""
    try:
        require(value, measures, name)
    except InvalidMeasure as fault:
        keys.stop(keys.line(key), fault.message, fault.remedy)


def _swap(node: Node, ingredient: Ingredient, sources: Sources, report: Report) -> Swap:
    keys = Fields(node, "a swap", SWAP_KEYS, report)
    replaced, use, source = _item(keys, "replace", ingredient), keys.id("use", ITEM), source_of(keys, sources)
    by, key = keys.choice("by", ("weight", "volume")), f"{replaced}.swap.{use}"
    value = keys.value("ratio")
    fits(keys, "ratio", value, "share", "a ratio")
    same_stuff = by == "weight" and use.partition(".")[0] == ingredient.id  # grinding conserves mass exactly
    if value.value <= 0 or (value.spread == 0 and not same_stuff and source.kind != "regulation"):
        keys.stop(
            keys.line("ratio"), f"the ratio {keys.text('ratio')!r} is no ratio with a spread", "write it like 1 ± 0.1"
        )
    return Swap(
        id=key,
        replace=replaced,
        use=use,
        ratio=Measure.of(value.value, value.unit, spread=value.spread, fact=key).to(""),
        by=cast(By, by),
        extra=keys.text("extra", ""),
        changes=keys.text("changes", ""),
        holds=keys.text("holds", ""),
        not_when=keys.text("not_when", ""),
        source=source.id,
        where=keys.text("where", ""),
        tier=source.tier,
        place=keys.place,
    )


def _confusion(node: Node, ingredient: Ingredient, report: Report) -> Confusion:
    keys = Fields(node, "a confusion", CONFUSION_KEYS, report)
    return Confusion(_item(keys, "form", ingredient), keys.id("with", ITEM), keys.text("why"), keys.place)
