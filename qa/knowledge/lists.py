"""The files that are one list: sources, cautions and ways of filling, from text to types."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import cast, get_args

from qa.knowledge.facts import FAMILIES, Caution, Manner, Source, SourceKind
from qa.knowledge.fields import Fields, Report
from qa.knowledge.nodes import Node
from qa.knowledge.syntax import Sources, fits, source_of
from qa.measures.measure import Measure

CAUTION_KEYS = ("id", "topic", "text", "authority", "source", "triggers", "stops")
SOURCE_KEYS = ("id", "kind", "citation", "year", "short", "invented", "url", "note")
MANNER_KEYS = ("word", "names", "factor", "families", "source", "where", "note")


def source(node: Node, report: Report) -> Source:
    """One citation."""
    keys = Fields(node, "a source", SOURCE_KEYS, report)
    year = keys.number("year")
    if year is not None and not 1500 <= year <= 2100:
        report.say(keys.line("year"), f"the year {year:g} cannot be right", "write four digits")
    return Source(
        id=keys.id(),
        kind=cast(SourceKind, keys.choice("kind", get_args(SourceKind))),
        citation=keys.text("citation"),
        year=int(year) if year is not None else None,
        place=keys.place,
        short=keys.text("short", ""),
        invented=keys.flag("invented"),
    )


def caution(node: Node, report: Report) -> Caution:
    """One usual warning. Its id may be in capitals (S34)."""
    keys = Fields(node, "a caution", CAUTION_KEYS, report)
    return Caution(
        id=keys.id(pattern=re.compile(r"[A-Za-z0-9-]+")),
        topic=keys.text("topic"),
        text=keys.text("text"),
        authority=keys.text("authority"),
        source=keys.text("source"),
        triggers=keys.texts("triggers"),
        stops=keys.flag("stops"),
        place=keys.place,
    )


def manner(node: Node, sources: Sources, report: Report) -> Manner:
    """One way of filling a spoon."""
    keys = Fields(node, "a way of filling", MANNER_KEYS, report)
    origin, value = source_of(keys, sources), keys.value("factor")
    fits(keys, "factor", value, "share", "a factor")
    if value.value <= 0:
        keys.stop(
            keys.line("factor"), f"the factor {keys.text('factor')!r} is not above zero", "write it like 1.5 ± 0.25"
        )
    made = Manner(
        word=keys.id("word"),
        names=keys.texts("names"),
        factor=Measure.exact(1, ""),
        families=keys.choices("families", FAMILIES),
        source=origin.id,
        where=keys.text("where", ""),
        tier=origin.tier,
        note=keys.text("note", ""),
        place=keys.place,
    )
    factor = Measure.of(value.value, value.unit, spread=value.spread, fact=made.id)
    return replace(made, factor=factor.to(""))
