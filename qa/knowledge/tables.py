"""Rows of an open composition table as facts: figures keep the digits of the table, from which their spread comes."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from qa.errors import InvalidMeasure, LevelspoonError, NoKnowledge, Problem
from qa.knowledge.facts import PROPERTIES
from qa.knowledge.fields import ITEM, Report, did_you_mean
from qa.knowledge.syntax import fact_id
from qa.knowledge.values import read_value, require

# Columns of composition tables as they are often headed, with the property and unit they hold (of 100 g of food).
COLUMNS: dict[str, tuple[str, str]] = {
    "water_g": ("water", "g/100 g"),
    "energy_kcal": ("energy", "kcal/100 g"),
    "energy_kj": ("energy", "kJ/100 g"),
    "protein_g": ("protein", "g/100 g"),
    "fat_g": ("fat", "g/100 g"),
    "carbohydrate_by_difference_g": ("carbohydrate with fibre", "g/100 g"),
    "carbohydrate_available_g": ("carbohydrate without fibre", "g/100 g"),
    "fibre_g": ("fibre", "g/100 g"),
    "sugars_g": ("sugars", "g/100 g"),
    "polyols_g": ("polyols", "g/100 g"),
    "ash_g": ("ash", "g/100 g"),
}
_PLACES = ("item", "where")


class TableFact(NamedTuple):
    """A fact found in a table: its id, whose it is, and the line that says it in an ingredient's file."""

    id: str
    item: str
    line: str


def facts_from_table(
    rows: Sequence[Mapping[str, str]],
    source: str,
    columns: Mapping[str, str],
    file: str = "table",
    item_of: Callable[[str], str] = str,
) -> tuple[list[TableFact], list[Problem]]:
    """The facts of a composition table, and the rows and cells that could not be taken; an empty cell gives no fact.

    Args:
        rows: the table's rows as texts by column.
        source: the id of the source, as listed in sources.yaml.
        columns: which column holds the 'item' and, if any, the 'where'; further pairs name a column for a property
            ('protein' to 'Protein (g)'). Columns named as in COLUMNS are found without.
        file: how problems name the table; its first row of figures is line 2.
        item_of: the item that a cell names, the cell itself where it names none; NoKnowledge where it is in doubt.

    Raises:
        LevelspoonError: a property no such table holds, or a column that the table does not have.
    """
    wanted = _wanted(columns, list(rows[0]) if rows else [])
    report = Report(file)
    found: dict[str, TableFact] = {}
    for line, row in enumerate(rows, start=2):
        try:
            item = item_of(_cell(row, columns.get("item", "item")))
        except NoKnowledge as fault:
            report.say(line, fault.message, fault.remedy)
            continue
        if not ITEM.fullmatch(item):
            report.say(line, f"{item!r} is no item", "write ingredient or ingredient.form, or a name that is known")
            continue
        own = _of_row(row, item, source, wanted, _cell(row, columns.get("where", "where")), line, report)
        for fact in own:
            if fact.id in found:
                report.say(line, f"the table gives {fact.id} twice", "keep one row for each item")
            found.setdefault(fact.id, fact)
    return list(found.values()), report.problems


def by_ingredient(facts: Iterable[TableFact]) -> dict[str, str]:
    """The lines of several facts by the ingredient in whose file they belong."""
    found: dict[str, str] = {}
    for fact in facts:
        ingredient = fact.item.partition(".")[0]
        found[ingredient] = found.get(ingredient, "") + fact.line
    return found


def _wanted(columns: Mapping[str, str], header: Sequence[str]) -> dict[str, tuple[str, str]]:
    """Column, property and unit; those named by the caller first, so that they lead where two hold one property."""
    units = {prop: unit for prop, unit in COLUMNS.values() if unit != "kJ/100 g"}
    named: dict[str, tuple[str, str]] = {}
    for prop, column in columns.items():
        if header and column not in header:
            raise LevelspoonError(f"the table has no column {column!r}", did_you_mean(column, header))
        if prop not in _PLACES:
            if prop not in units:
                raise LevelspoonError(f"a composition table has no {prop!r}", did_you_mean(prop, (*_PLACES, *units)))
            named[column] = (prop, units[prop])
    return {**named, **{column: found for column, found in COLUMNS.items() if column not in named}}


def _of_row(
    row: Mapping[str, str],
    item: str,
    source: str,
    wanted: Mapping[str, tuple[str, str]],
    where: str,
    line: int,
    report: Report,
) -> list[TableFact]:
    """The facts of one food, each property once."""
    made: dict[str, TableFact] = {}
    for column, (prop, unit) in wanted.items():
        cell, key = _cell(row, column), fact_id(item, prop, source)
        if not cell or key in made:
            continue
        try:
            require(read_value(f"{cell} {unit}"), PROPERTIES[prop].measures, prop)
        except InvalidMeasure as fault:
            report.say(line, f"{column}: {fault.message}", fault.remedy)
            continue
        made[key] = TableFact(key, item, _line(item, prop, f"{cell} {unit}", source, where))
    return list(made.values())


def _cell(row: Mapping[str, str], column: str) -> str:
    return " ".join((row.get(column) or "").split())


def _line(item: str, prop: str, value: str, source: str, where: str) -> str:
    form = item.partition(".")[2]
    place = f", where: {json.dumps(where, ensure_ascii=False)}" if where else ""
    return f"  - {{{f'form: {form}, ' if form else ''}property: {prop}, value: {value}, source: {source}{place}}}\n"
