"""Files to begin with: what people ask and nobody has written yet, as text to edit.

What people typed stands in comments or in quotes and cannot become a key, a template or another line.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence

from qa.errors import InvalidMeasure, NoKnowledge, Problem
from qa.knowledge.facts import PROPERTIES
from qa.knowledge.fields import ITEM, Report, did_you_mean
from qa.knowledge.values import read_value, require
from qa.records import AskType
from qa.text import folded

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


def id_of(words: str) -> str:
    """An id made from a name.

    >>> id_of("Crème fraîche (light)")
    'creme-fraiche-light'
    """
    return "-".join(re.findall(r"[a-z0-9]+", folded(words).encode("ascii", "ignore").decode())) or "unnamed"


def ingredient_stub(name: str, asked: Sequence[str]) -> str:
    """A file for an ingredient that is asked about and not known.

    >>> print(ingredient_stub("tigernut flour", ["does it work with tigernut flour"]))
    # Asked about 1 time and not known yet:
    #   does it work with tigernut flour
    id: tigernut-flour
    name: tigernut flour
    family: flour  # or another of the families in README.md
    names: []
    allergens: []
    cautions: []
    forms: []
    facts: []
    swaps: []
    <BLANKLINE>
    """
    plain = name if re.fullmatch(r"[A-Za-z][A-Za-z ]*", name) else _quoted(name)
    head = f"# Asked about {_times(len(asked))} and not known yet:\n{_comments(asked)}"
    keys = ("names", "allergens", "cautions", "forms", "facts", "swaps")
    rest = "".join(f"{key}: []\n" for key in keys)
    return f"{head}id: {id_of(name)}\nname: {plain}\nfamily: flour  # or another of the families in README.md\n{rest}"


def names_stub(item: str, typed: Mapping[str, int]) -> str:
    """Lines for an ingredient's or form's `names`: what people type for it, most often first, with how often."""
    ordered = sorted(typed.items(), key=lambda pair: (-pair[1], pair[0]))
    return f"# {item}: add under names what is a name and no slip\n" + "".join(
        f"  - {_quoted(word)}  # {_times(count)}\n" for word, count in ordered
    )


def answer_stub(name: str, asks: Sequence[AskType], items: Sequence[str], asked: Sequence[str]) -> str:
    """A file for questions that no standing answer met: theirs as phrasings, the reply still to be written."""
    about = f"[{', '.join(items)}]" if items else "[none]"
    phrasings = "".join(f"  - {_quoted(text)}\n" for text in dict.fromkeys(asked))
    return (
        f"---\nid: {id_of(name)}\nasks: [{', '.join(asks)}]\nabout: {about}\nphrasings:\n{phrasings}"
        "figures: {}\ncautions: []\nbasis: reasoned\n---\n{# the reply: verdict first, then the amount, what changes, "
        "one next step #}\n"
    )


def facts_from_table(
    rows: Iterable[Mapping[str, str]], source: str, columns: Mapping[str, str], file: str = "table"
) -> tuple[dict[str, str], list[Problem]]:
    """Fact lines for each item of a composition table, and the rows that could not be taken.

    Figures keep the digits of the table, from which their spread comes; an empty cell gives no fact.

    Args:
        rows: the table's rows as texts by column.
        source: the id of the source, as listed in sources.yaml.
        columns: which column holds the 'item' and, if any, the 'where'; further pairs name a column for a property
            ('protein' to 'Protein (g)'). Columns named as in COLUMNS are found without.
        file: how problems name the table; its first row of figures is line 2.

    Returns:
        The YAML of the facts by item, to be put under `facts` of the ingredient's file, and the problems.
    """
    wanted = _wanted(columns)
    report = Report(file)
    found: dict[str, list[str]] = {}
    for line, row in enumerate(rows, start=2):
        item = row.get(columns.get("item", "item"), "").strip()
        if not ITEM.fullmatch(item):
            report.say(line, f"{item!r} is no item", "write ingredient or ingredient.form, in lower-case letters")
            continue
        where = " ".join(row.get(columns.get("where", "where"), "").split())
        for column, (prop, unit) in wanted.items():
            cell = (row.get(column) or "").strip()
            if not cell:
                continue
            try:
                require(read_value(f"{cell} {unit}"), PROPERTIES[prop].measures, prop)
            except InvalidMeasure as fault:
                report.say(line, f"{column}: {fault.message}", fault.remedy)
                continue
            found.setdefault(item, []).append(_fact_lines(item, prop, f"{cell} {unit}", source, where))
    return {item: "".join(lines) for item, lines in found.items()}, report.problems


def _wanted(columns: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    units = {prop: unit for prop, unit in COLUMNS.values() if unit != "kJ/100 g"}
    wanted = dict(COLUMNS)
    for prop, column in columns.items():
        if prop in {"item", "where"}:
            continue
        if prop not in units:
            raise NoKnowledge(f"a composition table has no {prop!r}", did_you_mean(prop, units))
        wanted[column] = (prop, units[prop])
    return wanted


def _fact_lines(item: str, prop: str, value: str, source: str, where: str) -> str:
    form = item.partition(".")[2]
    place = f", where: {_quoted(where)}" if where else ""
    return f"  - {{{f'form: {form}, ' if form else ''}property: {prop}, value: {value}, source: {source}{place}}}\n"


def _quoted(text: str) -> str:
    """A text as YAML reads it back letter by letter; JSON strings are YAML."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)


def _comments(texts: Sequence[str], most: int = 20) -> str:
    """Texts as comment lines, each on one line whatever stands in it."""
    return "".join(f"#   {' '.join(text.split())[:200]}\n" for text in texts[:most])


def _times(count: int) -> str:
    return "1 time" if count == 1 else f"{count} times"
