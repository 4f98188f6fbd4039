"""JSON Schemas of the knowledge files, so that an editor completes keys and words while one types.

They are made from the same lists of keys and words that the reader uses. What needs other files (sources, items,
cautions) or arithmetic is checked by `levelspoon check` alone.

>>> sorted(SCHEMAS)
['answer', 'cautions', 'episode', 'ingredient', 'measures', 'sources', 'trial']
>>> schema("ingredient")["properties"]["family"]["enum"][:2]
['flour', 'starch']
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, get_args

from qa.errors import NoKnowledge
from qa.knowledge import answers, lists, syntax, trials
from qa.knowledge.facts import ALLERGENS, FAMILIES, PROPERTIES, SourceKind
from qa.knowledge.fields import ID, ITEM
from qa.records import ASK_TYPES
from qa.text import nearest

Schema = dict[str, Any]

TEXT: Schema = {"type": "string"}
TEXTS: Schema = {"type": "array", "items": TEXT}
FLAG: Schema = {"type": "boolean"}
NUMBER: Schema = {"type": "number"}
DATE: Schema = {"type": "string", "format": "date"}
AN_ID: Schema = {"type": "string", "pattern": f"^{ID.pattern}$"}
AN_ITEM: Schema = {"type": "string", "pattern": f"^{ITEM.pattern}$"}
VALUE: Schema = {
    "type": ["string", "number"],
    "description": "7 g/us_tbsp, 7 ± 0.3 g/us_tbsp, 6 to 8 g/us_tbsp, 8 %, or words",
}


def _words(known: Iterable[str]) -> Schema:
    return {"type": "string", "enum": list(known)}


def _several(item: Schema, least: int = 0) -> Schema:
    return {"type": "array", "items": item, "minItems": least}


def _object(keys: Iterable[str], required: Iterable[str], **special: Schema) -> Schema:
    """An object with just these keys; those without a shape of their own are texts."""
    properties = {key: special.pop(key, TEXT) for key in keys}
    if special:
        raise NoKnowledge(f"the schema shapes keys nobody reads: {', '.join(special)}")
    return {"type": "object", "properties": properties, "required": list(required), "additionalProperties": False}


def _name() -> Schema:
    regions = _several({"type": "string", "pattern": "^[A-Z]{2}$"})
    language = {"type": "string", "pattern": "^[a-z]{2,3}$"}
    full = _object(syntax.NAME_KEYS, ("name",), regions=regions, language=language)
    return {"anyOf": [TEXT, full]}


def ingredient_schema() -> Schema:
    """An ingredient file."""
    form = _object(syntax.FORM_KEYS, ("id", "name"), id=AN_ID, usual=FLAG, names=_several(_name()))
    fact = _object(
        syntax.FACT_KEYS,
        ("property", "value", "source"),
        property={
            "enum": list(PROPERTIES),
            "description": "; ".join(f"{p.name}: {p.measures}" for p in PROPERTIES.values()),
        },
        value=VALUE,
        resolution={"type": ["number", "string"]},
        checked=DATE,
    )
    swap = _object(
        syntax.SWAP_KEYS, ("use", "ratio", "by", "source"), use=AN_ITEM, ratio=VALUE, by=_words(("weight", "volume"))
    )
    confusion = _object(syntax.CONFUSION_KEYS, ("with", "why"), **{"with": AN_ITEM})
    return _object(
        syntax.INGREDIENT_KEYS,
        ("id", "name", "family"),
        id=AN_ID,
        family=_words(FAMILIES),
        names=_several(_name()),
        allergens=_several(_words(ALLERGENS)),
        cautions=TEXTS,
        forms=_several(form),
        confused=_several(confusion),
        facts=_several(fact),
        swaps=_several(swap),
    )


def answer_schema() -> Schema:
    """The front matter of a standing answer."""
    return _object(
        answers.ANSWER_KEYS,
        ("id", "asks", "about", "phrasings", "basis"),
        id=AN_ID,
        asks=_several(_words(ASK_TYPES), 1),
        about=_several(TEXT, 1),
        fits=_words(("any", "all", "swap")),
        phrasings=_several(TEXT, 5),
        figures={"type": "object", "additionalProperties": TEXT},
        cautions=TEXTS,
        when=_object(answers.WHEN, ()),
        basis=_words(answers.BASES),
        asks_back=FLAG,
    )


def trial_schema() -> Schema:
    """A trial file."""
    reading = _object(
        trials.READING_KEYS,
        ("level", "quantity", "values", "resolution"),
        values=_several(NUMBER, 1),
        resolution={"type": "number", "exclusiveMinimum": 0},
    )
    gives = _object(
        trials.GIVES_KEYS,
        ("item", "property", "level", "quantity"),
        item=AN_ITEM,
        property=_words(p.name for p in PROPERTIES.values() if p.measures != "words"),
    )
    return _object(
        trials.TRIAL_KEYS,
        ("id", "title", "question", "factor", "levels", "dose"),
        id=AN_ID,
        invented=FLAG,
        date=DATE,
        levels=_several(TEXT, 1),
        varied=TEXTS,
        doses=_several(_object(trials.DOSE_KEYS, trials.DOSE_KEYS, item=AN_ITEM)),
        constant=TEXTS,
        readings=_several(reading),
        observations=_several(_object(trials.OBSERVATION_KEYS, trials.OBSERVATION_KEYS)),
        gives=_several(gives),
    )


def episode_schema() -> Schema:
    """An episode file."""
    line = _object(trials.LINE_KEYS, ("item",), item=AN_ITEM, amount={"type": ["string", "number"]}, grams=NUMBER)
    return _object(
        trials.EPISODE_KEYS,
        ("id", "title"),
        id=AN_ID,
        invented=FLAG,
        date=DATE,
        trials=TEXTS,
        recipe=_several(line),
        steps=TEXTS,
    )


def sources_schema() -> Schema:
    """The list of citations."""
    kind = _words(get_args(SourceKind))
    year: Schema = {"type": "integer", "minimum": 1500, "maximum": 2100}
    return _several(
        _object(lists.SOURCE_KEYS, ("id", "kind", "citation"), id=AN_ID, kind=kind, year=year, invented=FLAG)
    )


def cautions_schema() -> Schema:
    """The list of usual warnings."""
    required = ("id", "topic", "text", "authority", "source")
    return _several(_object(lists.CAUTION_KEYS, required, triggers=TEXTS, stops=FLAG))


def measures_schema() -> Schema:
    """The list of ways of filling."""
    families = _several(_words(FAMILIES))
    required = ("word", "factor", "source")
    return _several(_object(lists.MANNER_KEYS, required, word=AN_ID, names=TEXTS, factor=VALUE, families=families))


SCHEMAS: dict[str, Callable[[], Schema]] = {
    "ingredient": ingredient_schema,
    "answer": answer_schema,
    "trial": trial_schema,
    "episode": episode_schema,
    "sources": sources_schema,
    "cautions": cautions_schema,
    "measures": measures_schema,
}


def schema(name: str) -> Schema:
    """The schema of one kind of knowledge file; NoKnowledge with the nearest name if there is no such kind."""
    if name not in SCHEMAS:
        hint = nearest(name, SCHEMAS)
        raise NoKnowledge(f"no schema {name!r}", f"did you mean {hint!r}?" if hint else f"known: {', '.join(SCHEMAS)}")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": name, **SCHEMAS[name]()}
