"""The types of knowledge. Every entry carries the place it was read from and keeps it for life."""

from __future__ import annotations

import builtins
import hashlib
from dataclasses import dataclass, field
from typing import Literal

from qa.errors import Place
from qa.measures.measure import Measure
from qa.records import AskType, Tier

SourceKind = Literal["publication", "regulation", "database", "kitchen", "common practice", "memory", "viewers"]
TIER_OF: dict[str, Tier] = {
    "publication": "published",
    "regulation": "published",
    "database": "published",
    "kitchen": "measured",
    "common practice": "common practice",
    "memory": "common practice",
    "viewers": "viewers' reports",
}


def _short_hash(said: tuple[object, ...]) -> str:
    return hashlib.sha256(repr(said).encode()).hexdigest()[:12]


@dataclass(frozen=True, slots=True)
class Source:
    """A citation, written once and pointed at by id."""

    id: str
    kind: SourceKind
    citation: str
    year: int | None
    place: Place
    short: str = ""
    """How a reply names it, e.g. 'the USDA table'."""
    invented: bool = False

    @property
    def tier(self) -> Tier:
        """The tier of everything this source says."""
        return TIER_OF[self.kind]


@dataclass(frozen=True, slots=True)
class Fact:
    """One property of one form.

    Attributes:
        id: ingredient.form.property.source, plus ':variant' where one source gives several.
        item: 'flax.ground', or 'flax' for what holds of every form.
        property: a key of PROPERTIES.
        measure: value, unit and spread as one tagged variable; None for a fact in words.
        words: the value of a fact in words ('turns green with alkali'), or ''.
        conditions: packing, temperature, time, particle size, label region …, as (name, value) pairs.
    """

    id: str
    item: str
    property: str
    measure: Measure | None
    words: str
    conditions: tuple[tuple[str, str], ...]
    source: str
    where: str
    tier: Tier
    checked: str
    note: str
    place: Place
    by_digits: bool = False
    """The spread is only that of the printed digits: how samples or fillings differ is not in it."""

    @builtins.property  # the field named property hides the plain word
    def version(self) -> str:
        """A short hash of everything a reply could lean on; it changes when the fact changes."""
        m = self.measure
        return _short_hash((self.id, self.words, self.conditions, self.source, m and (m.value, m.spread, m.unit)))

    def condition(self, name: str) -> str:
        """The condition of that name ('packing'), or ''."""
        return dict(self.conditions).get(name, "")


@dataclass(frozen=True, slots=True)
class Name:
    """A name of an ingredient or form. Regions and language are empty where it is understood everywhere in English."""

    text: str
    regions: tuple[str, ...] = ()
    language: str = "en"
    place: Place = field(default=Place("", 0), compare=False)


@dataclass(frozen=True, slots=True)
class Form:
    """A form of an ingredient, e.g. flax: ground. Facts belong to forms."""

    id: str
    name: str
    names: tuple[Name, ...]
    place: Place
    usual: bool = False
    """The form meant when a cook just says the ingredient's name."""


@dataclass(frozen=True, slots=True)
class Confusion:
    """Something this ingredient is often taken for, and why it matters."""

    item: str
    other: str
    why: str
    place: Place


@dataclass(frozen=True, slots=True)
class Ingredient:
    """An ingredient with its forms and names."""

    id: str
    name: str
    family: str
    names: tuple[Name, ...]
    forms: tuple[Form, ...]
    allergens: tuple[str, ...]
    cautions: tuple[str, ...]
    place: Place

    def form(self, form_id: str) -> Form | None:
        """The form of that id, or None."""
        return next((f for f in self.forms if f.id == form_id), None)


@dataclass(frozen=True, slots=True)
class Swap:
    """What can stand in for an item, and how much of it.

    Attributes:
        id: replaced.swap.used, e.g. 'flax.ground.swap.chia.ground'.
        replace, use: items.
        ratio: amount of `use` for one of `replace`, as share (g/g) or volume share (mL/mL); tagged with the id.
        by: 'weight' or 'volume'.
        extra: other things to add or leave out, in words without figures.
        changes: what will change in the result, in words without figures.
        holds: where it works ('muffins and pancakes').
        not_when: when not to do it, in words; '' if there is no such case known.
    """

    id: str
    replace: str
    use: str
    ratio: Measure
    by: Literal["weight", "volume"]
    extra: str
    changes: str
    holds: str
    not_when: str
    source: str
    where: str
    tier: Tier
    place: Place

    @property
    def version(self) -> str:
        """A short hash of everything a reply could lean on; it changes when the swap changes."""
        said = (self.id, self.by, self.extra, self.changes, self.holds, self.not_when, self.source)
        return _short_hash((*said, self.ratio.value, self.ratio.spread))


@dataclass(frozen=True, slots=True)
class Manner:
    """What a way of filling does to a spoonful: heaped, scant, packed or sifted.

    Attributes:
        word: 'heaped'.
        names: other words for it ('rounded', 'heaping').
        factor: a spoonful filled like that over a level one, as a share; tagged with the id.
        families: the families of ingredients it is known for; empty for any ingredient.
    """

    word: str
    names: tuple[str, ...]
    factor: Measure
    families: tuple[str, ...]
    source: str
    where: str
    tier: Tier
    note: str
    place: Place

    @property
    def id(self) -> str:
        """The id that figures name it by, e.g. 'measure.heaped' or 'measure.packed.sugar'."""
        return ".".join(("measure", self.word, *self.families))

    @property
    def version(self) -> str:
        """A short hash of everything a figure could lean on."""
        return _short_hash((self.id, self.source, self.factor.value, self.factor.spread))


@dataclass(frozen=True, slots=True)
class Caution:
    """The usual warning that goes with an ingredient or a practice, and whose it is.

    Attributes:
        text: the sentence a reply carries.
        triggers: words in a comment that call for it.
        stops: True if a comment that asks about this goes to a person instead of getting a draft.
    """

    id: str
    topic: str
    text: str
    authority: str
    source: str
    triggers: tuple[str, ...]
    stops: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Answer:
    """A standing answer: what to say to one kind of ask.

    Attributes:
        asks: the ask types it serves.
        about: items, 'family:starch', 'any' or 'none'; see `fits`.
        fits: 'any' one of the items is asked about, 'all' are, or 'swap' (about = replaced, used).
        phrasings: example askings as people write them; {ingredient} and {other} stand for names.
        figures: name and recipe of each figure the body shows, e.g. ('spoon', 'weigh 1 us_tbsp of flax.ground').
        cautions: ids of cautions the reply must carry.
        when: words that must be understood for it to apply: dish, symptom, region …, as (name, value) pairs.
        bodies: variants of the reply, as Jinja2 source without numerals.
        asks_back: the reply is a question for what is missing.
    """

    id: str
    asks: tuple[AskType, ...]
    about: tuple[str, ...]
    fits: Literal["any", "all", "swap"]
    phrasings: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    when: tuple[tuple[str, str], ...]
    basis: Literal["measured", "published", "common practice", "reasoned", "asker"]
    bodies: tuple[str, ...]
    place: Place
    asks_back: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of a trial: level of the factor, what was read, value, unit and the resolution of the instrument."""

    level: str
    quantity: str
    value: float
    unit: str
    resolution: float
    place: Place


@dataclass(frozen=True, slots=True)
class Derived:
    """A fact a trial gives: which reading of which level stands for which property of which item."""

    item: str
    property: str
    level: str
    quantity: str
    per: str
    place: Place
    conditions: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Dose:
    """How much of an item one level of a trial got: as written, and as a measure of mass or of volume."""

    level: str
    item: str
    amount: str
    measure: Measure
    place: Place


@dataclass(frozen=True, slots=True)
class Trial:
    """A kitchen test: question, factor, what was held constant, readings, observations.

    Attributes:
        dose: in words, for people.
        doses: the same item by item, as far as the levels differ in it.
        varied: in a screening test what each run has or has not; the levels are then the runs, named by what they have.
    """

    id: str
    title: str
    question: str
    factor: str
    levels: tuple[str, ...]
    dose: str
    constant: tuple[str, ...]
    readings: tuple[Reading, ...]
    observations: tuple[tuple[str, str], ...]
    gives: tuple[Derived, ...]
    date: str
    episode: str
    invented: bool
    place: Place
    doses: tuple[Dose, ...] = ()
    varied: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a recipe: item, amount as the recipe writes it, grams if given, and its part (dough, filling)."""

    item: str
    amount: str
    grams: float | None
    role: str
    place: Place


@dataclass(frozen=True, slots=True)
class Episode:
    """One upload with the recipe it showed, as a formula."""

    id: str
    title: str
    date: str
    makes: str
    lines: tuple[Line, ...]
    steps: tuple[str, ...]
    trials: tuple[str, ...]
    invented: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Knowledge:
    """Everything that was read, good entries only; `library.Library` looks things up in it."""

    ingredients: tuple[Ingredient, ...] = ()
    facts: tuple[Fact, ...] = ()
    swaps: tuple[Swap, ...] = ()
    confusions: tuple[Confusion, ...] = ()
    answers: tuple[Answer, ...] = ()
    cautions: tuple[Caution, ...] = ()
    sources: tuple[Source, ...] = ()
    trials: tuple[Trial, ...] = ()
    episodes: tuple[Episode, ...] = field(default=())
    manners: tuple[Manner, ...] = ()


@dataclass(frozen=True, slots=True)
class Property:
    """What may be said of a form: its name, what its unit measures ('words' for a fact in words), what it means."""

    name: str
    measures: str
    meaning: str


PROPERTIES: dict[str, Property] = {
    p.name: p
    for p in (
        Property(
            "bulk density", "density", "mass per volume as filled into a spoon or cup; write it per the measure read"
        ),
        Property("piece weight", "mass", "edible mass of one piece"),
        Property("water", "share", "mass of water in mass of food"),
        Property("fat", "share", "mass of fat in mass of food"),
        Property("protein", "share", "mass of protein in mass of food"),
        Property("ash", "share", "mass of ash in mass of food"),
        Property("carbohydrate with fibre", "share", "by difference, fibre inside (North American tables and labels)"),
        Property(
            "carbohydrate without fibre", "share", "available carbohydrate (European, Australian tables and labels)"
        ),
        Property("fibre", "share", "dietary fibre in mass of food"),
        Property("sugars", "share", "mono- and disaccharides in mass of food"),
        Property("polyols", "share", "sugar alcohols in mass of food"),
        Property("energy", "energy per mass", "food energy per mass"),
        Property("water uptake", "share", "mass of water taken up by mass of food"),
        Property("gel time", "time", "time to set or thicken"),
        Property("gelling temperature", "temperature", "where it thickens or sets"),
        Property("melting temperature", "temperature", "where it melts"),
        Property("sweetness", "share", "sweetness of equal mass relative to sucrose"),
        Property("neutralising value", "share", "mass of baking soda neutralised by mass of acid"),
        Property("acidity", "number", "pH"),
        Property("solubility", "share", "mass dissolved in mass of water"),
        Property("storage life", "time", "how long it keeps under the stated conditions"),
        Property("baking temperature", "temperature", "oven or core temperature of a practice"),
        Property("thickening power", "share", "mass that thickens like one mass of wheat flour"),
        Property("particle size", "length", "grain diameter"),
        Property("behaviour", "words", "what it does, in words"),
        Property("colour", "words", "colour change and its cause, in words"),
        Property("taste", "words", "taste, in words"),
        Property("identity", "words", "what it is and how it is made, in words"),
        Property("storage", "words", "how to keep it, in words"),
        Property("label serving", "mass", "the serving a label is printed for"),
        Property("label carbohydrate", "mass", "carbohydrate printed for one serving; state label_region"),
        Property("label fibre", "mass", "fibre printed for one serving; state label_region"),
    )
}

# What may stand beside a fact's own keys: the conditions under which it holds.
CONDITIONS = (
    "packing", "temperature", "particle", "label_region", "time", "method", "size", "state", "acidity", "dose",
    "altitude", "region", "grade", "under",
)  # fmt: skip

FAMILIES = (
    "flour", "starch", "fibre", "gum", "seed", "nut", "egg", "leavener", "acid", "yeast", "sugar", "syrup", "sweetener",
    "fat", "dairy", "plant-milk", "cocoa", "salt", "fruit", "gelling", "spice", "extract", "butter-paste", "legume",
    "liquid",
)  # fmt: skip

# Words of the label laws: Regulation (EU) 1169/2011, Annex II; US FALCPA 2004 and FASTER Act 2021; from memory.
ALLERGENS = (
    "wheat", "gluten", "milk", "egg", "soy", "peanut", "tree nuts", "sesame", "lupin", "fish", "crustaceans",
    "molluscs", "celery", "mustard", "sulphites",
)  # fmt: skip
