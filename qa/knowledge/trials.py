"""Trials and episodes as text to types, and the facts that a trial gives."""

from __future__ import annotations

from collections.abc import Iterator

from qa.errors import InvalidMeasure
from qa.knowledge.facts import CONDITIONS, PROPERTIES, Derived, Dose, Episode, Fact, Line, Reading, Source, Trial
from qa.knowledge.fields import ITEM, Fields, Report, number
from qa.knowledge.nodes import Node
from qa.knowledge.readings import mean_and_spread
from qa.knowledge.syntax import conditions_of, each, fact_id, file_id
from qa.knowledge.values import Value, require
from qa.measures.measure import Measure
from qa.measures.parse import parse_amount
from qa.measures.resolve import resolve
from qa.measures.units import dimension, known

TRIAL_KEYS = (
    "id", "title", "question", "invented", "date", "episode", "factor", "levels", "varied", "dose", "doses", "constant",
    "readings", "observations", "gives", "note",
)  # fmt: skip
READING_KEYS = ("level", "quantity", "values", "unit", "resolution", "note")
OBSERVATION_KEYS = ("level", "words")
JOIN, NONE = " + ", "none of them"
"""How the levels of a screening test are named."""
DOSE_KEYS = ("level", "item", "amount")
LINE_KEYS = ("item", "amount", "grams", "role", "note")
GIVES_KEYS = ("item", "property", "level", "quantity", "per", *CONDITIONS)
EPISODE_KEYS = ("id", "title", "invented", "date", "makes", "trials", "recipe", "steps", "note")


def trial(node: Node, stem: str, report: Report) -> Trial:
    """One kitchen test."""
    keys = Fields(node, "a trial", TRIAL_KEYS, report)
    levels = keys.texts("levels")
    if len(levels) < 1:
        keys.stop(keys.line("levels"), "a trial has no levels", "name what was compared, e.g. [flax, chia]")
    varied = keys.texts("varied")
    for level in levels if varied else ():
        if strange := [part for part in level.split(JOIN) if part not in varied and level != NONE]:
            keys.stop(
                keys.line("levels"),
                f"level {level!r} has {strange[0]!r}, which is not varied",
                f"name levels by what they have, joined by '{JOIN}', or {NONE!r}",
            )
    return Trial(
        id=file_id(keys, stem),
        title=keys.text("title"),
        question=keys.text("question"),
        factor=keys.text("factor"),
        levels=levels,
        dose=keys.text("dose"),
        constant=keys.texts("constant"),
        readings=tuple(
            r for several in each(keys.items("readings"), lambda n: _readings(n, levels, report)) for r in several
        ),
        observations=tuple(each(keys.items("observations"), lambda n: _observation(n, levels, report))),
        gives=tuple(each(keys.items("gives"), lambda n: _gives(n, levels, report))),
        date=keys.date("date"),
        episode=keys.text("episode", ""),
        invented=keys.flag("invented"),
        place=keys.place,
        doses=tuple(each(keys.items("doses"), lambda n: _dose(n, levels, report))),
        varied=varied,
    )


def _dose(node: Node, levels: tuple[str, ...], report: Report) -> Dose:
    keys = Fields(node, "a dose", DOSE_KEYS, report)
    level, item, amount = keys.choice("level", levels), keys.id("item", ITEM), keys.text("amount")
    try:
        measure, assumed = resolve(parse_amount(amount), None)
        if assumed:
            raise InvalidMeasure(f"{amount!r} does not say whose measure", "write it like 1 us tbsp, or in grams")
        if dimension(measure.unit) not in {"mass", "volume"}:
            raise InvalidMeasure(f"{amount!r} is neither a weight nor a volume", "write it like 7 g or 1 us tbsp")
    except InvalidMeasure as fault:
        keys.stop(keys.line("amount"), fault.message, fault.remedy)
        raise
    return Dose(level, item, amount, measure, keys.place)


def _readings(node: Node, levels: tuple[str, ...], report: Report) -> list[Reading]:
    keys = Fields(node, "a reading", READING_KEYS, report)
    level, quantity, unit = keys.choice("level", levels), keys.text("quantity"), keys.text("unit", "")
    resolution = keys.number("resolution")
    if not known(unit):
        keys.stop(keys.line("unit"), f"{unit!r} is no unit", "see qa/measures/units.txt")
    if resolution is None or resolution <= 0:
        keys.stop(
            keys.line("resolution"), "a reading has no resolution", "add the step of the scale or ruler, e.g. 0.1"
        )
    values = [(number(n.text, n.line, report), n.line) for n in keys.items("values")]
    if not values:
        keys.stop(keys.line("values"), "a reading has no values", "list them, e.g. values: [41, 43]")
    return [
        Reading(level, quantity, value, unit, resolution or 0.0, report.place(line))
        for value, line in values
        if value is not None
    ]


def _observation(node: Node, levels: tuple[str, ...], report: Report) -> tuple[str, str]:
    keys = Fields(node, "an observation", OBSERVATION_KEYS, report)
    return keys.choice("level", levels), keys.text("words")


def _gives(node: Node, levels: tuple[str, ...], report: Report) -> Derived:
    keys = Fields(node, "a derived fact", GIVES_KEYS, report)
    per = keys.text("per", "")
    if per and not known(per):
        keys.stop(keys.line("per"), f"{per!r} is no unit", "see qa/measures/units.txt")
    prop = keys.choice("property", (p.name for p in PROPERTIES.values() if p.measures != "words"))
    item, level, quantity = keys.id("item", ITEM), keys.choice("level", levels), keys.text("quantity")
    return Derived(item, prop, level, quantity, per, keys.place, conditions_of(keys))


def trial_source(made: Trial) -> Source:
    """The citation of a trial's own results."""
    said = f"{made.title} ({made.date})" if made.date else made.title
    short = "our own invented kitchen test" if made.invented else "our own kitchen test"
    year = int(made.date[:4]) if made.date else None
    return Source(made.id, "kitchen", said, year, made.place, short, made.invented)


def trial_facts(made: Trial, report: Report) -> Iterator[Fact]:
    """The facts a trial gives: the mean of its readings, with spread from repeatability and resolution."""
    for given in made.gives:
        readings = [r for r in made.readings if (r.level, r.quantity) == (given.level, given.quantity)]
        line = given.place.line
        if not readings:
            report.say(line, f"no reading of {given.quantity!r} at level {given.level!r}", "add it under readings")
            continue
        if len({(r.unit, r.resolution) for r in readings}) > 1:
            report.say(line, f"readings of {given.quantity!r} differ in unit or resolution", "give them in one unit")
            continue
        mean, spread = mean_and_spread([r.value for r in readings], readings[0].resolution)
        unit = f"{readings[0].unit}/{given.per}" if given.per else readings[0].unit
        try:
            require(Value(mean, spread, unit), PROPERTIES[given.property].measures, repr(given.property))
        except InvalidMeasure as fault:
            report.say(line, fault.message, "check unit and per")
            continue
        yield _fact(made, given, len(readings), Measure.of(mean, unit, spread=spread, fact=_id(made, given)))


def _id(made: Trial, given: Derived) -> str:
    return fact_id(given.item, given.property, made.id)


def _fact(made: Trial, given: Derived, count: int, measure: Measure) -> Fact:
    note = f"mean of {count} readings" if count > 1 else "a single reading"
    return Fact(
        id=_id(made, given),
        item=given.item,
        property=given.property,
        measure=measure,
        words="",
        conditions=given.conditions,
        source=made.id,
        where=f"{given.level}, {given.quantity}",
        tier="measured",
        checked=made.date,
        note=note,
        place=given.place,
    )


def episode(node: Node, stem: str, report: Report) -> Episode:
    """One upload with its recipe."""
    keys = Fields(node, "an episode", EPISODE_KEYS, report)
    return Episode(
        id=file_id(keys, stem),
        title=keys.text("title"),
        date=keys.date("date"),
        makes=keys.text("makes", ""),
        lines=tuple(each(keys.items("recipe"), lambda n: _line(n, report))),
        steps=keys.texts("steps"),
        trials=keys.texts("trials"),
        invented=keys.flag("invented"),
        place=keys.place,
    )


def _line(node: Node, report: Report) -> Line:
    keys = Fields(node, "a recipe line", LINE_KEYS, report)
    return Line(keys.id("item", ITEM), keys.text("amount", ""), keys.number("grams"), keys.text("role", ""), keys.place)
